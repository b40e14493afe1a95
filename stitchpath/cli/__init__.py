"""The command line: commands, files, terminal and exit codes; no geometry."""

import gc
import os
import signal

__all__ = ["main"]


def main() -> None:
    """Run the command line and exit: see `errors` for the exit codes."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)  # nothing is begun: Ctrl-C just ends it
    # arrays here are small or worked on column by column: threads to multiply them with would
    # only cost their beginning, and a process that has any cannot be split into two safely
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    gc.set_threshold(50_000, 20, 100)  # hardly anything here is kept by a circle of references
    from stitchpath.cli.run import run_and_exit  # noqa: PLC0415 - see above

    run_and_exit()
