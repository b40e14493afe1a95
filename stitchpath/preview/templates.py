"""Templates: every hooping at true scale, to print."""

from stitchpath.catalog.papers import PAPERS
from stitchpath.model.plan import Plan
from stitchpath.preview.pdf import Pages
from stitchpath.preview.template_overview import draw_overview
from stitchpath.preview.template_sheets import draw_sheets


def draw_templates(plan: Plan) -> bytes:
    """Return a PDF: for each stage an overview, then each hooping on sheets at true scale.

    Lines are drawn as designed, not stitch by stitch. The same plan gives the same bytes.

    Args:
        plan: What is sewn; its project names the paper.
    """
    project = plan.project
    paper = PAPERS[project.sheets.paper]
    pages = Pages(f"{project.name}: templates")
    for stage in plan.stages:
        draw_overview(pages, project.name, stage, paper, project.units)
        for sewn in stage.hoopings:
            draw_sheets(pages, project.name, stage, sewn, paper)
    return pages.finished()
