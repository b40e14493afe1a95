"""Help and short answers come at once: what is slow to import is not imported for them."""

import subprocess
import sys

import pytest

_SLOW = {"numpy", "rich", "pyembroidery", "shapely", "svgwrite", "webcolors"}
_REPORT = """
import sys
from stitchpath.cli import main
try:
    main()
finally:
    print(*sys.modules, file=sys.stderr)
"""


def _imported(*words: str) -> set[str]:
    done = subprocess.run(
        [sys.executable, "-c", _REPORT, *words], capture_output=True, check=True, text=True
    )
    assert done.stdout
    return {name.partition(".")[0] for name in done.stderr.split()}


@pytest.mark.parametrize("words", ["--help", "--version"])
def test_help_imports_nothing_slow(words: str) -> None:
    assert _imported(words) & (_SLOW | {"pydantic"}) == set()


@pytest.mark.parametrize("words", ["make --help", "list formats", "list papers --json"])
def test_short_answer_imports_nothing_slow(words: str) -> None:
    # pydantic is imported by the command library itself, for any command
    assert _imported(*words.split()) & _SLOW == set()


def test_list_of_layouts_needs_no_format_library() -> None:
    assert _imported("list", "layouts") & {"pyembroidery", "svgwrite", "rich"} == set()
