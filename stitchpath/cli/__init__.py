"""The command line: commands, files, terminal and exit codes; no geometry."""

from stitchpath.cli.main import main

__all__ = ["main"]
