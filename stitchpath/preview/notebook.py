"""Pictures that notebooks show by themselves."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Protocol

from stitchpath.model.plan import Plan
from stitchpath.preview.hooping_picture import draw_hooping
from stitchpath.preview.stage_picture import draw_stage


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """An SVG picture.

    Attributes:
        svg: The document.
        name: What it shows, in a few words; all that is told where no picture can be shown.
    """

    svg: str = field(repr=False)
    name: str

    def _repr_svg_(self) -> str:
        """Return what a notebook shows; it looks for a method of this name.

        Source: IPython documentation, "Integrating your objects with IPython", rich display.
        """
        return self.svg


class Formatter(Protocol):
    """What is used of a notebook's formatter of one kind of picture."""

    def for_type(self, typ: type, func: Callable[[Plan], str]) -> object:
        """Have values of a type shown by a function."""


class Shell(Protocol):
    """What is used of a notebook's shell: where its formatters are."""

    @property
    def display_formatter(self) -> "Formatters":
        """The formatters, by kind of picture."""


class Formatters(Protocol):
    """The formatters of a notebook's shell."""

    @property
    def formatters(self) -> Mapping[str, Formatter]:
        """Each under its kind, such as `image/svg+xml`."""


def load_ipython_extension(shell: Shell) -> None:
    """Let a notebook show a plan by itself, after `%load_ext stitchpath.preview.notebook`.

    It shows the stage of most stitches; `show` shows others. A plan cannot have the method a
    notebook looks for, since `model` does not know `preview`.

    Source: IPython documentation, "Writing extensions", and `BaseFormatter.for_type`.
    """
    formatter = shell.display_formatter.formatters["image/svg+xml"]
    formatter.for_type(Plan, lambda plan: show(plan).svg)


def show(plan: Plan, stage: str | None = None, hooping: int | None = None) -> Picture:
    """Return a picture of a stage or one of its hoopings, for a notebook's last line.

    Args:
        plan: What to show.
        stage: Its name; none is the stage of most stitches.
        hooping: Its number, from 1; none is the whole stage.

    Raises:
        ValueError: The plan has no such stage or hooping.

    Example:
        >>> from stitchpath.model.project import Project
        >>> from stitchpath.model.quilt import Quilt
        >>> from stitchpath.pipeline import plan
        >>> show(plan(Project(quilt=Quilt(width=900, length=1200))), hooping=2)
        Picture(name='Quilt: stage quilt, hooping 2')
    """
    stages = {one.name: one for one in plan.stages}
    named = stage or max(stages, key=lambda name: stages[name].figures.stitches, default="")
    if named not in stages:
        raise ValueError(f"there is no stage {named!r}: the plan has {', '.join(stages)}")
    shown, title = stages[named], f"{plan.project.name}: stage {named}"
    if hooping is None:
        return Picture(svg=draw_stage(plan, shown), name=title)
    if not 1 <= hooping <= len(shown.hoopings):
        raise ValueError(f"there is no hooping {hooping}: from 1 to {len(shown.hoopings)}")
    svg = draw_hooping(plan, shown, shown.hoopings[hooping - 1])
    return Picture(svg=svg, name=f"{title}, hooping {hooping}")
