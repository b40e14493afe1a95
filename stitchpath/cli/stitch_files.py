"""Stitch files as `count` and `inspect` see them: what each comes to."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from stitchpath.catalog.bobbins import BOBBINS
from stitchpath.cli.options import SANDWICHES, key_limits, option_length, option_number
from stitchpath.cli.reading import StitchReader
from stitchpath.cli.shared_options import CountOptions
from stitchpath.cli.usage import UsageError
from stitchpath.estimate import count_bobbins, count_stitches
from stitchpath.machine import StitchFile, sewn_part
from stitchpath.machine.soundness import Soundness
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Figures
from stitchpath.model.stitches import Op, Stitches


@dataclass(frozen=True, slots=True, kw_only=True)
class Counting:
    """What a stitch file does not say.

    Attributes:
        machine: Its speed and bobbin.
        thickness_mm: Of the sandwich under the stitch.
    """

    machine: Machine
    thickness_mm: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OpenedFile:
    """A stitch file with all its stitches.

    Attributes:
        path: Where it is.
        file: What it says.
        stitches: What it sews, in its own frame, mm.
    """

    path: Path
    file: StitchFile
    stitches: Stitches


@dataclass(frozen=True, slots=True, kw_only=True)
class CountedFile:
    """What a stitch file comes to, without its stitches: of many files they would fill memory.

    Attributes:
        path: Where it is.
        format: Its format's name, such as `dst`.
        sound: Whether it is whole, and what in it does not agree.
        colour_blocks: How many stretches of stitches the changes of colour part.
        figures: What it comes to.
        bobbins: Full bobbins needed.
    """

    path: Path
    format: str
    sound: Soundness
    colour_blocks: int
    figures: Figures
    bobbins: int


def counting(options: CountOptions) -> Counting:
    """Return the options, checked.

    Raises:
        UsageError: One is not what it has to be.
    """
    if options.bobbin not in BOBBINS:
        raise UsageError(
            f"--bobbin cannot be `{options.bobbin}`\nhelp: choose from {', '.join(BOBBINS)}"
        )
    low, high = key_limits("machine", "speed")
    speed = option_number("--speed", options.speed, low=low, high=high)
    low, high = key_limits("batting", "thickness")
    return Counting(
        machine=Machine(speed=speed, bobbin=options.bobbin),
        thickness_mm=option_length(
            "--thickness", options.thickness, low=low, high=SANDWICHES * high
        ),
    )


def open_file(path: Path, reader: StitchReader) -> OpenedFile:
    """Return a stitch file with all its stitches.

    Raises:
        StitchpathError: It cannot be read; the text names it.
    """
    file = reader.read(path)
    return OpenedFile(path=path, file=file, stitches=sewn_part(file.read))


def count_file(opened: OpenedFile, by: Counting) -> CountedFile:
    """Return what a stitch file comes to."""
    cuts = int(np.count_nonzero(opened.stitches.op == Op.CUT))
    figures = count_stitches(
        opened.stitches, by.machine, runs=cuts + 1, thickness_mm=by.thickness_mm
    )
    return CountedFile(
        path=opened.path,
        format=opened.file.format,
        sound=opened.file.sound,
        colour_blocks=opened.file.read.colour_blocks,
        figures=figures,
        bobbins=count_bobbins(figures.bobbin_thread_mm, by.machine.bobbin),
    )


def faults_text(counted: CountedFile, name: str) -> str:
    """Return what is wrong with a file, one fact a line; empty where nothing is."""
    sound = counted.sound
    lines = [
        f"{'error' if fault.cut_short else 'warning'}: `{name}`: {fault.text}"
        for fault in sound.faults
    ]
    if sound.whole is False:
        lines.append("help: it was cut short: copy it anew from where it came from")
    return "\n".join(lines)
