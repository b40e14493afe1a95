"""Pictures of stitch files, for `inspect` and `preview`."""

from pathlib import Path

from stitchpath.cli.stitch_files import CountedFile, OpenedFile
from stitchpath.cli.usage import UsageError


def check_picture_name(out: Path) -> None:
    """Refuse a name that no picture has.

    Raises:
        UsageError: It does not end in .svg.
    """
    if out.suffix.lower() != ".svg":
        raise UsageError(
            f"--out cannot be `{out}`\nhelp: pictures are SVG: choose a name that ends in .svg"
        )


def picture_of(
    opened: OpenedFile, counted: CountedFile, field: tuple[float, float] | None
) -> str:
    """Return a stitch file as an SVG document.

    Args:
        opened: The file.
        counted: What it comes to.
        field: A field to draw around it, mm, or None.
    """
    from stitchpath.preview import draw_stitch_file  # noqa: PLC0415 - slow to import

    blocks = counted.colour_blocks
    more = f"{blocks} colour blocks" if blocks > 1 else "one colour"
    facts = (f"read as {counted.format}, {more}",)
    return draw_stitch_file(
        opened.stitches, counted.figures, title=opened.path.name, facts=facts, field=field
    )
