"""What all tests share: how hard hypothesis looks, and how golden texts are renewed."""

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from playwright.sync_api import Browser, sync_playwright

# as for the commands: on a busy machine threads that multiply small arrays wait for each other,
# and took up to sixty times as long; nothing imported above has imported numpy
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# a busy machine is no fault of the code
_NO_CLOCK = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("dev", _NO_CLOCK, max_examples=50)
settings.register_profile(
    "ci", _NO_CLOCK, max_examples=200, derandomize=True, database=None, print_blob=True
)
settings.register_profile("night", _NO_CLOCK, max_examples=5000)
settings.load_profile(
    os.environ.get("HYPOTHESIS_PROFILE", "ci" if "CI" in os.environ else "dev")
)


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the one option that rewrites golden texts."""
    parser.addoption(
        "--update-golden",
        action="store_true",
        help="rewrite golden texts with what is produced now; read the diff before committing",
    )


class Golden:
    """Compares a text with the one in a file, or rewrites the file."""

    def __init__(self, *, update: bool) -> None:
        self._update = update

    def check(self, text: str, path: Path) -> None:
        """Fail with a diff where `text` is not what the file holds."""
        if self._update:
            path.write_text(text, encoding="utf-8", newline="\n")
            return
        assert path.exists(), f"no golden text {path.name}: run with --update-golden"
        assert text == path.read_text(encoding="utf-8")


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Golden:
    """Give the comparer of golden texts."""
    return Golden(update=bool(request.config.getoption("--update-golden")))


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Give the system's own browser."""
    path = shutil.which("chromium")
    if path is None:
        pytest.skip("there is no chromium: apt install chromium")
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(
            executable_path=path,
            args=["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"],
        )
        yield launched
        launched.close()
