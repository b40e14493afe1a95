"""Tolerances: one home for all of them, so that they can be weighed against each other."""

import tokenize
from pathlib import Path

import stitchpath
from stitchpath.geometry import tolerance

ROOT = Path(stitchpath.__file__).parent
NO_TOLERANCES = {
    "project/svg_curves.py": 1,  # nothing is divided by 0
    "project/svg_drawing.py": 2,  # how finely large drawings are flattened; a point has no size
    "route/directions.py": 1,  # a price: seconds to a mm
}


def _tiny_numbers(path: Path) -> int:
    with tokenize.open(path) as file:
        tokens = list(tokenize.generate_tokens(file.readline))
    return sum(
        token.type == tokenize.NUMBER and "e-" in token.string.lower() for token in tokens
    )


def test_no_tiny_number_stands_outside_the_home_of_tolerances() -> None:
    tiny = {
        path.relative_to(ROOT).as_posix(): count
        for path in ROOT.rglob("*.py")
        if (count := _tiny_numbers(path))
    }
    assert tiny.pop("geometry/tolerance.py") > 5
    assert tiny == NO_TOLERANCES


def test_every_tolerance_says_why() -> None:
    lines = Path(tolerance.__file__).read_text(encoding="utf-8").splitlines()
    homes = [number for number, line in enumerate(lines) if ": Final = " in line]
    assert len(homes) > 20
    assert [lines[at] for at in homes if not lines[at + 1].startswith('"""')] == []
