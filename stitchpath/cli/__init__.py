"""The command line: commands, files, terminal and exit codes; no geometry."""

import signal

__all__ = ["main"]


def main() -> None:
    """Run the command line and exit: see `errors` for the exit codes."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # nothing is begun: Ctrl-C just ends it
    from stitchpath.cli.run import run_and_exit  # noqa: PLC0415 - see above

    run_and_exit()
