"""`list` and `schema`: what can be chosen, and what a project file may say."""

from collections.abc import Iterable
from dataclasses import asdict
from typing import Any

from stitchpath.catalog.battings import BATTINGS
from stitchpath.catalog.bobbins import BOBBINS
from stitchpath.catalog.fields import FIELDS
from stitchpath.catalog.formats import FORMATS
from stitchpath.catalog.papers import PAPERS
from stitchpath.cli.tables import show_json, show_table
from stitchpath.layouts import find_layout, layout_names
from stitchpath.project import project_schema


def list_choices(what: str, *, as_json: bool) -> None:
    """Print the names that can be chosen, each with a line of description."""
    rows = _layouts() if what == "layouts" else _rows(_CATALOG[what])
    if as_json:
        print(show_json(rows))
    else:
        print(
            show_table(("name", "what it is"), [(row["name"], row["summary"]) for row in rows])
        )


def print_schema() -> None:
    """Print the JSON Schema of project files."""
    print(show_json(project_schema()))


_CATALOG: dict[str, Iterable[Any]] = {
    "fields": FIELDS,
    "battings": BATTINGS.values(),
    "formats": FORMATS.values(),
    "bobbins": BOBBINS.values(),
    "papers": PAPERS.values(),
}


def _layouts() -> list[dict[str, Any]]:
    return [{"name": name, "summary": find_layout(name).summary} for name in layout_names()]


def _rows(choices: Iterable[Any]) -> list[dict[str, Any]]:
    return [
        {"name": choice.name, "summary": choice.summary} | asdict(choice) for choice in choices
    ]
