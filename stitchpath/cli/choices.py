"""`list` and `schema`: what can be chosen, and what a project file may say.

Each list imports its own table only, so that a short answer comes at once.
"""

from dataclasses import asdict
from importlib import import_module
from typing import Any

from stitchpath.cli.tables import show_table
from stitchpath.cli.terminal import say, say_json
from stitchpath.errors import EXIT_DONE


def list_choices(what: str, *, as_json: bool) -> int:
    """Print the names that can be chosen, each with a line of description."""
    rows = _layouts() if what == "layouts" else _catalog(what)
    if as_json:
        say_json(rows)
    else:
        cells = [cell for row in rows for cell in _cells(row)]
        say(show_table(("name", "what it is"), cells))
    return EXIT_DONE


def _cells(row: dict[str, Any]) -> list[tuple[str, str]]:
    """Return a choice's lines: its name and summary, and each of a layout's keys."""
    keys = [("", f"  {key}: {default}") for key, default in row.get("keys", {}).items()]
    return [(row["name"], row["summary"]), *keys]


def print_schema() -> int:
    """Print the JSON Schema of project files."""
    from stitchpath.project import project_schema  # noqa: PLC0415 - slow to import

    say_json(project_schema())
    return EXIT_DONE


def _layouts() -> list[dict[str, Any]]:
    from stitchpath.layouts import find_layout, layout_names  # noqa: PLC0415 - slow to import

    layouts = {name: find_layout(name) for name in layout_names()}
    return [
        {"name": name, "summary": layout.summary, "keys": dict(layout.keys)}
        for name, layout in layouts.items()
    ]


def _catalog(what: str) -> list[dict[str, Any]]:
    """Return a table of the catalog: module `fields` holds `FIELDS`, and so on."""
    choices: list[Any] = []
    for name in (what, "line_formats") if what == "formats" else (what,):
        table = getattr(import_module(f"stitchpath.catalog.{name}"), name.upper())
        choices += table.values() if isinstance(table, dict) else table
    return [
        {"name": choice.name, "summary": choice.summary} | asdict(choice) for choice in choices
    ]
