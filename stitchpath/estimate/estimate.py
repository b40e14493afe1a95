"""Everything that is estimated of a plan, put together."""

from collections.abc import Sequence

from stitchpath.estimate.bobbins import wind_bobbins
from stitchpath.estimate.buying import buy_batting, buy_cloth
from stitchpath.estimate.draw_in import stage_draw_in
from stitchpath.estimate.folding import fold_quilt
from stitchpath.estimate.overhang import hoop_overhang
from stitchpath.estimate.thread import buy_thread
from stitchpath.estimate.work import plan_sessions, work_times
from stitchpath.model.estimate import Estimate
from stitchpath.model.plan import Cut, Stage
from stitchpath.model.project import Project


def estimate_plan(project: Project, stages: Sequence[Stage], cuts: Sequence[Cut]) -> Estimate:
    """Return what to buy, how the quilt folds, and how long it takes.

    Args:
        project: What it is made from.
        stages: What is sewn, in order.
        cuts: The cutting list.
    """
    bobbins = wind_bobbins(stages, project)
    work = work_times(stages, bobbins, project.times)
    drawn = ((stage.name, stage_draw_in(stage)) for stage in stages)
    return Estimate(
        draw_in=tuple((name, share) for name, share in drawn if share),
        overhang=hoop_overhang(stages),
        cloths=buy_cloth(cuts, project),
        batting=buy_batting(cuts),
        threads=buy_thread(stages, project.supplies),
        bobbins=bobbins,
        folding=None if project.pocket is None else fold_quilt(project, project.pocket),
        work=work,
        sessions=plan_sessions(work, project.times.evening_hours),
    )
