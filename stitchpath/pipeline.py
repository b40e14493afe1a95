"""The whole tool in one function: a project in, a plan out. Pure: no files, clock or chance."""

from dataclasses import replace

from stitchpath.checks import check_plan
from stitchpath.estimate import count_bobbins, count_stitches, cut_list
from stitchpath.hoopings import place_hoopings
from stitchpath.layouts import lay_lines
from stitchpath.model.finding import Finding
from stitchpath.model.piece import StageTask
from stitchpath.model.plan import Figures, Plan, SewnHooping, Stage
from stitchpath.model.project import Project
from stitchpath.pieces import make_tasks
from stitchpath.route import order_runs
from stitchpath.sewing import sew


def plan(project: Project) -> Plan:
    """Return everything that is decided about a project.

    The same project gives the same plan. A plan with an error finding is whole but must not be
    sewn; `Plan.has_errors` says so.

    Example:
        >>> from stitchpath.model.project import Quilt
        >>> throw = plan(Project(quilt=Quilt(width=900, length=1200)))
        >>> [stage.name for stage in throw.stages], throw.has_errors
        (['quilt'], False)
    """
    planned = [_plan_stage(task, project) for task in make_tasks(project)]
    stages = tuple(stage for stage, _ in planned if stage.lines)
    said = [finding for _, findings in planned for finding in findings]
    unchecked = Plan(project=project, stages=stages, cutting=cut_list(project), findings=())
    return replace(unchecked, findings=check_plan(unchecked, said))
