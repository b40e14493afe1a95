"""What is in a stitch file, as text and as data."""

from dataclasses import dataclass
from typing import Any

from stitchpath.catalog.fields import FIELDS
from stitchpath.cli.stitch_files import CountedFile, OpenedFile
from stitchpath.cli.summary import figures_data
from stitchpath.cli.tables import show_table
from stitchpath.cli.terminal import plain
from stitchpath.machine.measure import MOST_IN_A_CELL, Measures, measure
from stitchpath.preview.words import duration, metres

_HEADS = (
    "file", "format", "stitches", "colours", "cuts", "jumps", "pauses", "size", "stitch",
    "time", "thread", "bobbins", "field",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Inspected:
    """All that is said of a stitch file.

    Attributes:
        counted: What the file comes to.
        measures: What its needle points come to.
        bobbin: The bobbin counted in.
        field: The field asked for, width and height in mm, or None.
    """

    counted: CountedFile
    measures: Measures
    bobbin: str
    field: tuple[float, float] | None

    @classmethod
    def of(
        cls,
        opened: OpenedFile,
        counted: CountedFile,
        *,
        bobbin: str,
        field: tuple[float, float] | None = None,
    ) -> "Inspected":
        """Return all that is to say of a file."""
        measures = measure(opened.file.read, opened.stitches)
        return cls(counted=counted, measures=measures, bobbin=bobbin, field=field)

    @property
    def holders(self) -> list[tuple[str, bool]]:
        """The common fields that hold it, from small to large, and whether only turned."""
        ways = [
            (field.name, _way(self.measures.size, (field.width, field.height)))
            for field in FIELDS
        ]
        return [(name, way == "turned") for name, way in ways if way]

    @property
    def fits(self) -> str | None:
        """How the field asked for holds it: `upright`, `turned`, or empty where it does not."""
        return None if self.field is None else _way(self.measures.size, self.field)

    @property
    def misfit(self) -> str:
        """Why the field asked for does not hold it; empty where it does or none was."""
        if self.field is None or self.fits:
            return ""
        return f"{_by(self.measures.size)} does not fit a field of {_by(self.field)}"

    @property
    def fits_as_it_lies(self) -> bool | None:
        """Whether the field asked for holds it without moving it, upright or turned.

        A file's origin is the field's centre.
        """
        if self.field is None:
            return None
        left, top, right, bottom = self.measures.bounds
        around = (2 * max(-left, right), 2 * max(-top, bottom))
        return bool(_way(around, self.field))

    @property
    def drawn_field(self) -> tuple[float, float] | None:
        """The field to draw: the one asked for, else the smallest common one."""
        if self.field is not None or not self.holders:
            return self.field
        name, turned = self.holders[0]
        (field,) = (field for field in FIELDS if field.name == name)
        return (field.height, field.width) if turned else (field.width, field.height)


def inspected_text(one: Inspected) -> str:
    """Return what is to say of one file, a fact a line."""
    figures, measures, crowds = one.counted.figures, one.measures, one.measures.crowds
    left, top, right, bottom = measures.bounds
    rows = [
        ("file", plain(one.counted.path)),
        ("format", one.counted.format),
        ("whole", _whole(one.counted.sound.whole)),
        ("stitches", f"{figures.stitches:,}"),
        ("colour blocks", f"{one.counted.colour_blocks:,}"),
        ("thread cuts", f"{figures.thread_cuts:,}"),
        ("jumps", f"{figures.jumps:,}"),
        ("pauses", f"{figures.pauses:,}"),
        ("size", _by(measures.size)),
        ("from its centre", f"x {left:g} to {right:g} mm, y {top:g} to {bottom:g} mm, y down"),
        ("longest stitch", f"{measures.longest:.1f} mm"),
        ("shortest stitch", f"{measures.shortest:.1f} mm"),
        ("crowded places", _crowded(one)),
        (
            "fullest place",
            f"{crowds.most} needle points at x {crowds.at[0]:g}, y {crowds.at[1]:g} mm",
        ),
        ("time", duration(figures.seconds)),
        ("top thread", metres(figures.top_thread_mm)),
        (
            "bobbin thread",
            f"{metres(figures.bobbin_thread_mm)}, {one.counted.bobbins} {one.bobbin}",
        ),
        ("common fields", _fields(one)),
    ]
    if one.field is not None:
        rows.append((f"field {_by(one.field)}", _fit(one)))
    wide = max(len(name) for name, _ in rows)
    return "\n".join(f"{name:<{wide}}  {value}" for name, value in rows)


def files_table(files: list[Inspected]) -> str:
    """Return the files as a table, one a row."""
    return show_table(_HEADS, [_row(one) for one in files])


def inspected_data(one: Inspected) -> dict[str, Any]:
    """Return what is to say of one file as data, lengths in mm; keys that `count` has too."""
    measures, sound = one.measures, one.counted.sound
    crowds = measures.crowds
    return {
        "file": str(one.counted.path),
        "format": one.counted.format,
        "whole": sound.whole,
        "faults": [
            {"text": fault.text, "cut_short": fault.cut_short} for fault in sound.faults
        ],
        "colour_blocks": one.counted.colour_blocks,
        "totals": figures_data(one.counted.figures, hoopings=1, bobbins=one.counted.bobbins),
        "bounds": list(measures.bounds),
        "size": list(measures.size),
        "longest_stitch": measures.longest,
        "shortest_stitch": measures.shortest,
        "crowded": {"squares": crowds.squares, "most": crowds.most, "at": list(crowds.at)},
        "fields": [{"name": name, "turned": turned} for name, turned in one.holders],
        "field": one.field and list(one.field),
        "fits": one.fits,
        "fits_as_it_lies": one.fits_as_it_lies,
    }


def _row(one: Inspected) -> tuple[str, ...]:
    figures, measures = one.counted.figures, one.measures
    return (
        plain(one.counted.path),
        one.counted.format,
        f"{figures.stitches:,}",
        f"{one.counted.colour_blocks:,}",
        f"{figures.thread_cuts:,}",
        f"{figures.jumps:,}",
        f"{figures.pauses:,}",
        _by(measures.size),
        f"{measures.shortest:.1f} to {measures.longest:.1f} mm",
        duration(figures.seconds),
        metres(figures.top_thread_mm),
        f"{one.counted.bobbins} {one.bobbin}",
        _field_cell(one),
    )


def _field_cell(one: Inspected) -> str:
    if one.field is not None:
        return one.fits or "too large"
    return _named(one.holders[0]) if one.holders else "none"


def _fit(one: Inspected) -> str:
    if not one.fits:
        return "does not hold it"
    if one.fits_as_it_lies:
        return one.fits
    return f"{one.fits}, but not as the file lies: move it to the middle at the machine"


def _way(size: tuple[float, float], field: tuple[float, float]) -> str:
    """Return how a field holds a size; empty where it does not."""
    if size[0] <= field[0] and size[1] <= field[1]:
        return "upright"
    return "turned" if size[0] <= field[1] and size[1] <= field[0] else ""


def _fields(one: Inspected) -> str:
    return ", ".join(_named(holder) for holder in one.holders) or "none holds it"


def _named(holder: tuple[str, bool]) -> str:
    name, turned = holder
    return f"{name} turned" if turned else name


def _crowded(one: Inspected) -> str:
    squares = one.measures.crowds.squares
    if not squares:
        return "none"
    return f"{squares:,} squares of 2 mm with more than {MOST_IN_A_CELL} needle points"


def _whole(whole: bool | None) -> str:
    if whole is None:
        return "nothing in this format tells"
    return "yes, as far as its marks tell" if whole else "no, it was cut short"


def _by(size: tuple[float, float]) -> str:
    return f"{size[0]:g} x {size[1]:g} mm"
