"""Shapes on a piece: where a layout lies, and what it keeps clear of."""

from typing import Annotated, Any, TypeAlias

from pydantic import (
    BeforeValidator,
    Field,
    Strict,
    ValidationInfo,
    model_validator,
)
from pydantic.dataclasses import dataclass
from pydantic_core import PydanticCustomError

from stitchpath.model.drawing import Drawing
from stitchpath.model.quantities import TABLE, Kind, Length

Place: TypeAlias = Annotated[Length, Field(ge=-10_000, le=20_000)]
Size: TypeAlias = Annotated[Length, Field(ge=1, le=10_000)]
Point: TypeAlias = tuple[Place, Place]


def _read_drawing(value: object, info: ValidationInfo) -> Drawing:
    """Read the SVG file of a name through the context's `load`, which knows files."""
    if isinstance(value, Drawing):
        return value
    load = (info.context or {}).get("load")
    if not isinstance(value, str) or load is None:
        raise PydanticCustomError("drawing", "is not the name of an SVG file")
    try:
        drawing: Drawing = load(value)
    except ValueError as fault:
        raise PydanticCustomError("drawing", "{why}", {"why": str(fault)}) from fault
    return drawing


DrawingFile: TypeAlias = Annotated[Any, BeforeValidator(_read_drawing), Kind("drawing")]
"""A `Drawing`, read from the name of an SVG file beside the project."""

FORMS = ("border", "rectangle", "polygon", "svg", "footprint")


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
class Shape:
    """One shape, given in one of five forms; places are mm from the piece's top left corner."""

    border: Annotated[
        Length | None, Field(ge=5, le=5000, description="a frame of this width inside the edge")
    ] = None
    rectangle: Annotated[
        tuple[Place, Place, Size, Size] | None, Field(description="left, top, width, height")
    ] = None
    polygon: Annotated[
        tuple[Point, ...] | None,
        Field(min_length=3, max_length=2000, description="corners, in order"),
    ] = None
    svg: Annotated[
        DrawingFile | None, Field(description="an SVG file whose closed shapes count")
    ] = None
    footprint: Annotated[
        bool, Strict(), Field(description="where the pocket lies on the quilt")
    ] = False
    at: Annotated[
        Point | None, Field(description="where the middle of the SVG's shapes lies")
    ] = None
    width: Annotated[Size | None, Field(description="to which the SVG is scaled")] = None

    @model_validator(mode="after")
    def _is_one_form(self) -> "Shape":
        given = [name for name in FORMS if getattr(self, name) not in (None, False)]
        if len(given) != 1:
            raise PydanticCustomError(
                "shape",
                "needs exactly one of border, rectangle, polygon, svg and footprint",
            )
        return self
