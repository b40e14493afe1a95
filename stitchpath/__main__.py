"""Run the command line with `python -m stitchpath`."""

from stitchpath.cli import main

if __name__ == "__main__":
    main()
