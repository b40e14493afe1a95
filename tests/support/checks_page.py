"""docs/checks.md, made of what the checks say of themselves."""

from importlib import import_module
from pathlib import Path
from typing import Final

from stitchpath.catalog.cautions import CAUTIONS
from stitchpath.checks import check_names

PAGE: Final = Path(__file__).parents[2] / "docs" / "checks.md"
_HEAD: Final = """\
# Checks

What `stitchpath check` looks at before anything is sewn. Each check is one file in
`stitchpath/checks/`; what stands here is what the file says of itself. Sources are listed in
[sources.md](sources.md). Limits that are keys of the project are in
[project-file.md](project-file.md).

- An **error** cannot be sewn, or would hurt the machine: `make` writes nothing, and the exit
  code of `check` is 1. A **warning** would sew badly, a **note** is good to know; the exit code
  is then 0.
- The worst is told first, of notes those with advice. `make` tells errors and warnings, and
  counts the notes. A warning has what was measured, its limit, the place, and what to do
  about it. `--json`, and `findings` in plan.json, give the same as data: `code`, `level`,
  `stage`, `text`, `help`, `where` (mm from the piece's top left corner), `value`, `limit`, and
  `silenced`, the reason or null. Cautions are notes with the code `cautions`.
- Warnings and errors with a place are drawn as triangles in the pictures of their stage, with
  their numbers in the list of the booklet.
- A check is made quiet by its name, with a reason that is then shown instead of the advice:

```toml
[[checks.silence]]
check = "needle-crowding"
reason = "sewn twice on a scrap, and it held"
```

Errors and cautions cannot be silenced. A silence that is not needed is told, so that it does
not hide a later warning. Besides these checks, planning itself may have something to say:
`line-left-out`, `drawing-left-out`, `odd-gap`.
"""


def checks_page() -> str:
    """Return the page: a section for each check, then the cautions with their sources."""
    sections = [_section(name) for name in check_names()]
    return "\n".join([_HEAD, *sections, _cautions()])


def _section(name: str) -> str:
    return f"## {name}\n\n{_told(name)}\n"


def _told(name: str) -> str:
    module = import_module(f"stitchpath.checks.{name.replace('-', '_')}")
    assert module.__doc__, name
    return module.__doc__.strip()


def _cautions() -> str:
    rows = [f"| {one.text} | {_WHEN[one.when]} | {one.source} |" for one in CAUTIONS]
    table = "\n".join(["| caution | when | source |", "|---|---|---|", *rows])
    return f"## cautions\n\n{_told('cautions')}\n\n{table}\n"


_WHEN: Final = {
    "always": "always",
    "moved-hoop": "a stage of more than one hooping",
    "pocket": "a quilt with a pocket",
    "thick": "6 mm or more under the needle",
}
