"""Rings past the edge of a piece. Geometry; what to do about it: common practice, no source."""

from dataclasses import replace

from stitchpath.checks.ring_overhang import check
from stitchpath.model.finding import Level
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, Quilt, Quilting
from stitchpath.pipeline import plan


def _project(margin: float) -> Project:
    quilting = Quilting(layout="crosshatch", spacing=60, margin=margin)
    return Project(
        quilt=Quilt(width=700, length=700, edge_stitch=0, quilting=(quilting,)),
        machine=Machine(field=(200, 200), ring=(240, 240)),
    )


def test_rings_within_the_piece_are_not_spoken_of() -> None:
    assert not list(check(plan(_project(margin=150))))


def test_a_stage_has_one_note_that_tells_how_many_and_how_far() -> None:
    """Four fields on 700: cells of 175; the outer rings reach 120 - 87.5 mm past the edge."""
    planned = plan(_project(margin=0))
    (note,) = check(planned)
    count = len(planned.stages[0].hoopings)
    assert count == 16
    assert (note.level, note.stage, note.code) == (Level.NOTE, "quilt", "ring-overhang")
    assert note.text == (
        "in 12 of 16 hoopings the hoop's ring reaches past the quilt's edge, by up to 32.5 mm"
    )
    assert note.value == 32.5
    assert "float that edge" in note.help


def test_a_bound_quilts_backing_may_hold_the_ring() -> None:
    """The ring reaches 32.5 mm past the edge: as much backing holds it, 30 mm do not."""
    project = _project(margin=0)
    bound = replace(project, quilt=replace(project.quilt, edge="bound"))
    for margin, advises in ((50.0, False), (32.5, False), (30.0, True)):
        fabric = replace(bound.fabric, hooping_margin=margin)
        (note,) = check(plan(replace(bound, fabric=fabric)))
        assert note.text.endswith(f"; backing and batting reach {margin:g} mm beyond it")
        assert note.limit == margin
        assert bool(note.help) == advises


def test_the_backing_of_a_bound_quilt_holds_the_ring_for_the_pockets_seam_too() -> None:
    throw = Project(
        quilt=Quilt(width=400, length=400, edge="bound", quilting=()),
        pocket=Pocket(width=200, length=200, quilting=()),
        machine=Machine(field=(200, 200), ring=(240, 240)),
    )
    limits = {note.stage: note.limit for note in check(plan(throw))}
    assert limits == {"pocket": 0, "quilt": 50.8, "seam": 50.8}


def test_of_one_hooping_it_is_told_without_counting() -> None:
    small = Project(quilt=Quilt(width=150, length=250, quilting=(Quilting(spacing=50),)))
    (note,) = check(plan(small))
    assert note.text.startswith("in the hooping the hoop's ring reaches past")
