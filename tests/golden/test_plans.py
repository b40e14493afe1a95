"""The plans of the example designs, as text; and what each of them may cost.

Both are found by glob over designs/. `--update-golden` rewrites the texts, and lowers budgets
where a design got better; a budget is raised by hand only, with the reason in the commit.
"""

import tomllib
from pathlib import Path
from typing import Final

import pytest

from stitchpath.cli.cutting_list import cutting_list
from stitchpath.cli.files import load_project
from stitchpath.model.plan import Plan
from stitchpath.pipeline import plan
from tests.conftest import Golden
from tests.support.command_line import DESIGNS
from tests.support.plan_text import plan_text, travel_mm

_GOLDEN: Final = Path(__file__).parent
_BUDGETS: Final = _GOLDEN / "budgets.toml"
_DESIGNS: Final = sorted(DESIGNS.glob("*.toml"))
_MUCH_BETTER: Final = 0.9
"""So much of its budget or less, and a design announces it."""


@pytest.mark.parametrize("path", _DESIGNS, ids=lambda path: path.stem)
def test_plan_is_that_of_the_golden_text(path: Path, golden: Golden) -> None:
    folder = _GOLDEN / path.stem
    folder.mkdir(exist_ok=True)
    planned = plan(load_project(path))
    golden.check(plan_text(planned), folder / "plan.txt")
    golden.check(cutting_list(planned), folder / "cutting-list.txt")


@pytest.mark.parametrize("path", _DESIGNS, ids=lambda path: path.stem)
def test_plan_keeps_to_its_budget(
    path: Path, request: pytest.FixtureRequest, announcements: list[str]
) -> None:
    budgets = _budgets()
    costs = _costs(plan(load_project(path)))
    if request.config.getoption("--update-golden"):
        before = budgets.get(path.stem, costs)
        budgets[path.stem] = {name: min(cost, before[name]) for name, cost in costs.items()}
        _write(budgets)
    budget = budgets[path.stem]
    assert costs.keys() == budget.keys()
    assert {name: cost for name, cost in costs.items() if budget[name] < cost} == {}
    announcements += [
        f"{path.stem}: {name} {cost}, budget {budget[name]}"
        for name, cost in costs.items()
        if cost < budget[name] * _MUCH_BETTER
    ]


def test_every_golden_plan_and_budget_has_its_design() -> None:
    names = {path.stem for path in _DESIGNS}
    assert {path.parent.name for path in _GOLDEN.glob("*/plan.txt")} == names
    assert _budgets().keys() == names


def _costs(planned: Plan) -> dict[str, int]:
    figures = planned.figures
    hooped = [sewn for stage in planned.stages for sewn in stage.hoopings]
    return {
        "hoopings": len(hooped),
        "thread_cuts": figures.thread_cuts + figures.snips,
        "jumps": figures.jumps,
        "travel_mm": round(sum(travel_mm(sewn) for sewn in hooped)),
    }


def _budgets() -> dict[str, dict[str, int]]:
    if not _BUDGETS.exists():
        return {}
    return tomllib.loads(_BUDGETS.read_text(encoding="utf-8"))


def _write(budgets: dict[str, dict[str, int]]) -> None:
    parts = ["# What each design may cost at the most. Lowered by --update-golden.\n"]
    for name in sorted(budgets):
        rows = "".join(f"{key} = {cost}\n" for key, cost in budgets[name].items())
        parts.append(f"\n[{name}]\n{rows}")
    _BUDGETS.write_text("".join(parts), encoding="utf-8", newline="\n")
