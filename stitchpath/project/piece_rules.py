"""Rules on the pieces: what has to fit into what."""

from collections.abc import Iterator

from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, Quilt
from stitchpath.model.thread import ThreadPair
from stitchpath.project.fault import Fault, Path, key_path
from stitchpath.project.wording import length_text


def pocket_fits(project: Project) -> Iterator[Fault]:
    """The pocket lies within the quilt, and its mouth line within the pocket."""
    pocket, quilt, unit = project.pocket, project.quilt, project.units
    if pocket is None:
        return
    if quilt.width < pocket.width:
        yield Fault(
            code="pocket-too-large",
            path=("pocket", "width"),
            message=f"the pocket is wider than the quilt: {length_text(pocket.width, unit)}",
            label=f"must be at most {length_text(quilt.width, unit)}, the quilt's width",
            help="make the pocket narrower or the quilt wider",
        )
    if quilt.length < pocket.length + pocket.raise_:
        reach = length_text(pocket.length + pocket.raise_, unit)
        yield Fault(
            code="pocket-too-large",
            path=("pocket", "length"),
            message=f"the pocket with its raise is longer than the quilt: {reach}",
            label=f"must be at most {length_text(quilt.length - pocket.raise_, unit)}",
            notes=(
                f"the quilt's length is {length_text(quilt.length, unit)}",
                f"the pocket's foot is raised by {length_text(pocket.raise_, unit)}",
            ),
            help="make the pocket shorter, raise it less, or make the quilt longer",
        )
    if pocket.length <= pocket.mouth_stitch:
        yield Fault(
            code="mouth-stitch-outside",
            path=("pocket", "mouth_stitch"),
            message="the line across the mouth lies outside the pocket",
            label=f"must be below {length_text(pocket.length, unit)}, the pocket's length",
            help="give the line's distance from the mouth's edge, or 0 for no line",
        )


def seam_fits(project: Project) -> Iterator[Fault]:
    """Both corner triangles have room: side by side in the mouth, and down the side."""
    pocket, unit = project.pocket, project.units
    if pocket is None:
        return
    seam = pocket.seam
    mouth_mm = pocket.width - 2 * seam.inset
    if mouth_mm <= 2 * seam.corner_across:
        yield Fault(
            code="seam-does-not-fit",
            path=("pocket", "seam", "corner_across"),
            message="the two corner triangles meet in the mouth",
            label=f"must be below {length_text(max(mouth_mm, 0) / 2, unit)}",
            notes=(_mouth_note(pocket, mouth_mm, project),),
            help="make the triangles smaller, the inset smaller, or the pocket wider",
        )
    stitch_mm = project.machine.shortest_stitch  # the side seam goes on below it
    most_mm = pocket.length - 2 * seam.inset - stitch_mm
    if most_mm <= seam.corner_side:
        yield Fault(
            code="seam-does-not-fit",
            path=("pocket", "seam", "corner_side"),
            message="a corner triangle leaves no stitch of the side seam below it",
            label=f"must be below {length_text(max(most_mm, 0), unit)}",
            notes=(
                f"the pocket's length is {length_text(pocket.length, unit)}",
                f"its seam lies {length_text(seam.inset, unit)} inside its edges",
            ),
            help="make the triangles shorter, the inset smaller, or the pocket longer",
        )


def areas_are_left(project: Project) -> Iterator[Fault]:
    """Edge lines and margins leave something to quilt."""
    quilt, pocket = project.quilt, project.pocket
    yield from _area(project, ("quilt", "edge_stitch"), _inside(quilt, quilt.edge_stitch))
    for number, quilting in enumerate(quilt.quilting):
        if quilt.edge_stitch < quilting.margin:
            path: Path = ("quilt", "quilting", number, "margin")
            yield from _area(project, path, _inside(quilt, quilting.margin))
    if pocket is None or pocket.length <= pocket.mouth_stitch:
        return  # said already
    for number, quilting in enumerate(pocket.quilting):
        mouth = max(quilting.margin, pocket.mouth_stitch)
        path = ("pocket", "quilting", number, "margin")
        width, length = _inside(pocket, quilting.margin)
        yield from _area(project, path, (width, length + quilting.margin - mouth))


def threads_differ(project: Project) -> Iterator[Fault]:
    """All quilting of one piece has one pair of threads: a stage is sewn without a change."""
    pieces: dict[str, Quilt | Pocket] = {"quilt": project.quilt}
    if project.pocket is not None:
        pieces["pocket"] = project.pocket
    for name, piece in pieces.items():
        said = list(_threads(name, piece))
        for path, thread in said:
            first = said[0][1]
            if thread != first:
                yield Fault(
                    code="thread-pairs",
                    path=path,
                    message=f"the {name}'s quilting has more than one pair of threads",
                    label=f"must be {first.top} over {first.bobbin}, as in the first",
                    notes=("a stage is sewn with one pair of threads",),
                    help="give every quilting of a piece the same threads",
                )


def _threads(name: str, piece: Quilt | Pocket) -> Iterator[tuple[Path, ThreadPair]]:
    """Yield the threads of layouts, and of designs that say theirs."""
    for number, quilting in enumerate(piece.quilting):
        yield (name, "quilting", number, "thread"), quilting.thread
    for number, design in enumerate(piece.design):
        if design.thread is not None:
            yield (name, "design", number, "thread"), design.thread


def _area(project: Project, path: Path, area: tuple[float, float]) -> Iterator[Fault]:
    if min(area) > 0:
        return
    unit = project.units
    yield Fault(
        code="no-area",
        path=path,
        message=f"nothing of the {path[0]} is left to quilt",
        label=f"leaves {' x '.join(length_text(max(side, 0), unit) for side in area)}",
        notes=("margins, and what lies outside the lines along the edges, are kept clear",),
        help=f"make `{key_path(path)}` smaller",
    )


def _inside(piece: Quilt | Pocket, margin_mm: float) -> tuple[float, float]:
    return piece.width - 2 * margin_mm, piece.length - 2 * margin_mm


def _mouth_note(pocket: Pocket, mouth_mm: float, project: Project) -> str:
    unit = project.units
    return (
        f"the pocket is {length_text(pocket.width, unit)} wide; between its side seams the"
        f" mouth is {length_text(max(mouth_mm, 0), unit)}"
    )
