"""The gallery page: made from the layouts' own words and the examples in designs/gallery."""

from pathlib import Path

from stitchpath.cli.files import load_project
from stitchpath.layouts import find_layout, layout_names
from stitchpath.model.plan import LaidLayout, Stage
from stitchpath.pipeline import plan

ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "designs" / "gallery"
PAGE = ROOT / "docs" / "layouts.md"
PICTURES = ROOT / "docs" / "pictures" / "layouts"

_HEAD = """# Layouts

What can be quilted, each on a sampler of 300 x 240 mm. The pictures are made by the tool itself
from the projects in [designs/gallery](../designs/gallery); `stitchpath list layouts` lists the
same names and keys. Beside each picture stand the layout's own keys with their defaults; every
layout also takes `area`, `margin`, `keep_out`, `fit`, `stitch_length` and `thread`
([project-file.md](project-file.md)), and `angle` turns all that do not follow a border.

The figures are those of the sampler: separate lines, their length together, and the widest gap,
which has to stay below what the batting allows. Of a text or a single motif the gap is large,
since it is sewn for its own sake.
"""


def example_stage(name: str) -> Stage:
    """Return the quilt stage of a layout's sampler."""
    (stage,) = plan(load_project(EXAMPLES / f"{name}.toml")).stages
    return stage


def gallery_page() -> str:
    """Return the page, a section for each layout in alphabetical order."""
    return "\n".join([_HEAD, *(_section(name) for name in layout_names())])


def _section(name: str) -> str:
    layout, stage = find_layout(name), example_stage(name)
    (laid,) = stage.layouts
    keys = [f"- `{key}`: {default}" for key, default in layout.keys.items()]
    return "\n".join(
        [
            f"## {name}",
            "",
            f'<img src="pictures/layouts/{name}.svg" width="320" alt="{layout.summary}">',
            "",
            f"{layout.summary[0].upper()}{layout.summary[1:]}.",
            "",
            *keys,
            *([""] if keys else []),
            _figures(name, laid),
            "",
        ]
    )


def _figures(name: str, laid: LaidLayout) -> str:
    count = "1 line" if laid.lines == 1 else f"{laid.lines} lines"
    gap = f"widest gap {laid.widest_gap_mm:.0f} mm"
    return (
        f"[The sampler](../designs/gallery/{name}.toml): {count}, "
        f"{laid.length_mm / 1000:.1f} m, {gap}."
    )
