"""Faults: what is wrong at a key, before its place in the text is known."""

import re
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

Path: TypeAlias = tuple[str | int, ...]
"""Where a value stands in the data: names of keys and, in lists, numbers from 0."""

Code: TypeAlias = Literal[
    "angle-not-taken",
    "area-outside",
    "border-too-wide",
    "control-character",
    "crossing-outline",
    "drawing-has-no-width",
    "duplicate-format",
    "field-not-among-fields",
    "missing-key",
    "more-problems",
    "mouth-stitch-outside",
    "no-area",
    "no-closed-shape",
    "no-pocket",
    "not-a-choice",
    "not-a-colour",
    "not-a-design",
    "not-a-drawing",
    "not-a-length",
    "not-a-name",
    "not-a-percentage",
    "not-gcode",
    "not-in-font",
    "not-one-shape",
    "not-utf-8",
    "out-of-range",
    "overlap-too-large",
    "pocket-too-large",
    "ring-too-small",
    "room-too-large",
    "seam-does-not-fit",
    "spacing-too-large",
    "step-too-long",
    "stitch-out-of-range",
    "text-does-not-fit",
    "text-too-small",
    "thread-pairs",
    "toml",
    "too-big",
    "too-many-corners",
    "too-many-hoopings",
    "too-many-places",
    "too-many-repeats",
    "too-many-stitches",
    "unknown-key",
    "unused-key",
    "wrong-count",
    "wrong-type",
]
"""Every code of a problem; each has a section in docs/errors.md and keeps its meaning."""

_BARE_KEY: Final = re.compile(r"[A-Za-z0-9_-]+")
_LONGEST_PATH: Final = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing that is wrong, at a key path.

    Attributes:
        code: What kind of fault it is.
        path: The key.
        message: One fact, lower case, no full stop.
        label: What to say beside the caret: the limits.
        notes: Further facts.
        help: What to do.
        at: What the caret points at: the value, the key, or the table that the key is not in.
    """

    code: Code
    path: Path
    message: str
    label: str = ""
    notes: tuple[str, ...] = ()
    help: str = ""
    at: Literal["value", "key", "table"] = "value"


def key_path(path: Path) -> str:
    """Return a path as a maker reads it; a key that needs quotes in TOML has them.

    Example:
        >>> key_path(("quilt", "quilting", 1, "spacing")), key_path(("my key",))
        ('quilt.quilting[1].spacing', '"my key"')
    """
    text = "".join(f"[{part}]" if isinstance(part, int) else f".{_key(part)}" for part in path)
    return clipped(text.removeprefix("."), width=_LONGEST_PATH)


def clipped(text: str, *, width: int = 40) -> str:
    r"""Return one line of at most `width` characters, an ellipsis where more was typed.

    Example:
        >>> clipped("[1,\n 2]"), clipped("twelve", width=4)
        ('[1, …', 'twe…')
    """
    first, _, rest = text.partition("\n")
    if rest:
        first = f"{first.rstrip()} …"
    return first if len(first) <= width else f"{first[: width - 1]}…"


def _key(name: str) -> str:
    return name if _BARE_KEY.fullmatch(name) else f'"{name}"'
