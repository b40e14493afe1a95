"""What the ratchets have to announce, said at the end of a test run."""

import pytest

_BETTER = pytest.StashKey[list[str]]()


@pytest.fixture
def announcements(request: pytest.FixtureRequest) -> list[str]:
    """Give the lines that are shown at the end of the run."""
    return request.config.stash.setdefault(_BETTER, [])


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Show what got better."""
    lines = terminalreporter.config.stash.get(_BETTER, [])
    if lines:
        terminalreporter.section("budgets to lower in this change")
        for line in lines:
            terminalreporter.write_line(line)
