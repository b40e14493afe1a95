"""What each stage has to sew: the pocket, the quilt, then the seam between them."""

import shapely

from stitchpath.geometry.points import Points, frozen_points
from stitchpath.model.line import Line, LineKind
from stitchpath.model.piece import Piece, StageName, StageTask
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, PocketSeam, Quilt, Quilting
from stitchpath.model.thread import ThreadPair
from stitchpath.pieces.corner import Hand, corner_path
from stitchpath.pieces.outline import rectangle, ring_line
from stitchpath.pieces.seam import mouth_opening, seam_lines

EDGE_STITCH_MM = 2.8
"""Stitch length of edge and mouth lines on a piece that is not quilted."""
CORNER_ROOM_MM = 10.0
"""Round a triangle sewn by itself; with it the smallest is as large as a quilt must be."""


def make_tasks(project: Project) -> tuple[StageTask, ...]:
    """Return the stages of a project in the order of sewing, each with what it has to sew."""
    if project.pocket is None:
        return (_quilt_task(project),)
    pocket = project.pocket
    return (_pocket_task(project, pocket), _quilt_task(project), _seam_task(project, pocket))


def make_corner_task(
    seam: PocketSeam, *, hand: Hand, thickness_mm: float, draws_up: bool
) -> StageTask:
    """Return a stage that sews one reinforcing triangle on a scrap a little larger.

    Args:
        seam: The triangle's legs, passes, stitch length and thread.
        hand: Which end of the mouth.
        thickness_mm: Of everything that is sewn through.
        draws_up: Pause after the first stitch, for the bobbin thread to be drawn up.
    """
    room = max(seam.inset, CORNER_ROOM_MM)
    width, length = seam.corner_across + 2 * room, seam.corner_side + 2 * room
    path = corner_path(
        corner=(room if hand == "left" else width - room, room),
        side_mm=seam.corner_side,
        across_mm=seam.corner_across,
        passes=seam.passes,
        hand=hand,
    )
    line = Line(
        points=path,
        kind=LineKind.SEAM,
        stitch_mm=seam.stitch_length,
        whole=((0, len(path) - 1),),
    )
    outline = rectangle(0, 0, width, length)
    return StageTask(
        name="seam",
        piece=Piece(name="pocket", width=width, length=length, outline=outline),
        area=shapely.Polygon(outline),
        sewn_edges=shapely.MultiLineString(),
        quilting=(),
        given=(line,),
        thread=seam.thread,
        thickness_mm=thickness_mm,
        draws_up=draws_up,
    )


def _quilt_task(project: Project) -> StageTask:
    """The quilt: its quilting ends on the edge line, or on the finished edge without one."""
    quilt, edge = project.quilt, project.quilt.edge_stitch
    stitch_mm = _stitch_of(quilt.quilting)
    return _quilted(
        project,
        name="quilt",
        piece=_quilt_piece(project),
        area=rectangle(edge, edge, quilt.width - edge, quilt.length - edge),
        own=quilt,
        given=(ring_line(quilt.width, quilt.length, edge, stitch_mm),) if edge > 0 else (),
    )


def _pocket_task(project: Project, pocket: Pocket) -> StageTask:
    """The pocket by itself: its quilting ends on the mouth line and where the seam will run."""
    inset, mouth = pocket.seam.inset, pocket.mouth_stitch
    mouth_line = Line(
        points=frozen_points([(inset, mouth), (pocket.width - inset, mouth)]),
        kind=LineKind.MOUTH,
        stitch_mm=_stitch_of(pocket.quilting),
    )
    return _quilted(
        project,
        name="pocket",
        piece=Piece(
            name="pocket",
            width=pocket.width,
            length=pocket.length,
            outline=rectangle(0, 0, pocket.width, pocket.length),
        ),
        area=rectangle(inset, mouth, pocket.width - inset, pocket.length - inset),
        own=pocket,
        given=(mouth_line,) if mouth > 0 else (),
    )


def _seam_task(project: Project, pocket: Pocket) -> StageTask:
    left, top, _, _ = _pocket_place(project, pocket)
    piece = _quilt_piece(project)
    return StageTask(
        name="seam",
        piece=piece,
        area=shapely.Polygon(piece.outline),
        sewn_edges=shapely.MultiLineString(),
        quilting=(),
        given=seam_lines(pocket, left, top),
        thread=pocket.seam.thread,
        thickness_mm=2 * project.batting.thickness,
        draws_up=project.machine.bobbin_pull_up != "never",
        barriers=mouth_opening(pocket, left, top),
    )


def _quilted(
    project: Project,
    *,
    name: StageName,
    piece: Piece,
    area: Points,
    own: Quilt | Pocket,
    given: tuple[Line, ...],
) -> StageTask:
    return StageTask(
        name=name,
        piece=piece,
        area=shapely.Polygon(area),
        sewn_edges=shapely.MultiLineString([piece.outline, area]),
        quilting=own.quilting,
        designs=own.design,
        given=given,
        thread=_thread_of(own),
        thickness_mm=project.batting.thickness,
        draws_up=project.machine.bobbin_pull_up == "always",
    )


def _quilt_piece(project: Project) -> Piece:
    quilt, pocket = project.quilt, project.pocket
    return Piece(
        name="quilt",
        width=quilt.width,
        length=quilt.length,
        outline=rectangle(0, 0, quilt.width, quilt.length),
        shadow=None if pocket is None else rectangle(*_pocket_place(project, pocket)),
    )


def _pocket_place(project: Project, pocket: Pocket) -> tuple[float, float, float, float]:
    """Return left, top, right, bottom of the finished pocket on the quilt: centred, raised."""
    left = (project.quilt.width - pocket.width) / 2
    bottom = project.quilt.length - pocket.raise_
    return left, bottom - pocket.length, left + pocket.width, bottom


def _thread_of(piece: Quilt | Pocket) -> ThreadPair:
    """Return the threads that a piece is quilted with: rules see to it that there is one pair.

    Without any said, the top thread has the colour that the first design's file tells.
    """
    said = [spec.thread for spec in piece.quilting]
    said += [design.thread for design in piece.design if design.thread is not None]
    if said:
        return said[0]
    told = [design.file.colours[0] for design in piece.design if design.file.colours]
    return ThreadPair(top=told[0]) if told else ThreadPair()


def _stitch_of(quilting: tuple[Quilting, ...]) -> float:
    return quilting[0].stitch_length if quilting else EDGE_STITCH_MM
