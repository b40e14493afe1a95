"""The example designs, each made once for all tests that judge what was made."""

import pytest

from tests.support.command_line import DESIGNS
from tests.support.made_folder import Made, make_design


@pytest.fixture(
    scope="session", params=sorted(DESIGNS.glob("*.toml")), ids=lambda path: path.stem
)
def made(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Made:
    """Give each design, made."""
    return make_design(request.param, tmp_path_factory.mktemp("made") / "out")
