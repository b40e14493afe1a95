"""HTML that cannot be broken by what it says: text is escaped unless it is `Markup`."""

import html
import json
from collections.abc import Mapping
from typing import Any, Final, TypeAlias

from stitchpath.preview.svg import one_line, plain

_NO_END: Final = frozenset({"br", "input", "meta", "link", "col"})
_IN_SCRIPT: Final = str.maketrans(
    {character: f"\\u{ord(character):04x}" for character in "<>&\u2028\u2029"}
)


class Markup(str):
    """Text that is HTML already. Made by `tag` and `joined` only."""

    __slots__ = ()


Inside: TypeAlias = str | Markup | None
"""What may stand in an element: text, markup, or nothing."""


def tag(name: str, /, *inside: Inside, **attributes: str | float | bool | None) -> Markup:
    """Return an element.

    Args:
        name: Its name.
        inside: Text, which is escaped, and markup.
        attributes: Their names with `_` for `-`, and with one `_` more where Python has a word
            of that name. True stands alone; False and None leave the attribute out.

    Example:
        >>> tag("p", "Cut & sew ", tag("b", "<now>"), class_="step", hidden=True)
        '<p class="step" hidden>Cut &amp; sew <b>&lt;now&gt;</b></p>'
    """
    written = "".join(_attribute(key, value) for key, value in attributes.items())
    end = "" if name in _NO_END else f"</{name}>"
    return Markup(f"<{name}{written}>{joined(*inside)}{end}")


def joined(*parts: Inside) -> Markup:
    """Return text and markup one after the other as markup."""
    return Markup("".join(_written(part) for part in parts if part is not None))


def name_text(text: str) -> Markup:
    """Return text of the maker's own, kept apart in the direction in which it is written.

    Source: HTML (WHATWG), 4.5.24, the bdi element.
    """
    return tag("bdi", plain(text))


def script_json(data: Mapping[str, Any]) -> Markup:
    r"""Return JSON that can stand in a script element: nothing in it can end the script.

    Source: HTML (WHATWG), 4.12.1.3, restrictions for contents of script elements; line and
    paragraph separators are no line ends in JSON but were in older scripts.

    Example:
        >>> print(script_json({"name": "</script>"}))
        {"name":"\u003c/script\u003e"}
    """
    # Only strings hold such characters, so that their escapes stand where JSON knows them.
    written = json.dumps(data, ensure_ascii=True, allow_nan=False, separators=(",", ":"))
    return Markup(written.translate(_IN_SCRIPT))


def style_string(text: str) -> str:
    r"""Return text as a string of CSS that cannot end early.

    Source: CSS Syntax Module Level 3 (W3C), 4.3.7, escaped code points.

    Example:
        >>> print(style_string('a"b'))
        "a\000022b"
    """
    return f'"{"".join(_style_letter(letter) for letter in plain(text))}"'


def _style_letter(letter: str) -> str:
    return letter if letter.isascii() and letter.isalnum() else f"\\{ord(letter):06x}"


def _written(part: str | Markup) -> str:
    return part if isinstance(part, Markup) else html.escape(_shown(part))


def _shown(text: str) -> str:
    return text if text.isascii() and text.isprintable() else one_line(text)


def _attribute(key: str, value: str | float | bool | None) -> str:
    if value is None or value is False:
        return ""
    name = key.removesuffix("_").replace("_", "-")
    if value is True:
        return f" {name}"
    return f' {name}="{html.escape(_shown(str(value)))}"'
