"""The gate that an SVG file passes before it is read: XML without traps, of a known size.

Every error here and in the other `svg_` files is a ValueError whose text says what is wrong
with the file, to stand after its name.
"""

from io import BytesIO
from typing import Final
from xml.etree.ElementTree import Element, ParseError

from defusedxml import DefusedXmlException
from defusedxml.ElementTree import iterparse

MOST_BYTES: Final = 1_000_000
MOST_ELEMENTS: Final = 20_000
DEEPEST: Final = 60
"""Elements within each other; drawing programs nest a dozen."""

SVG: Final = "{http://www.w3.org/2000/svg}"
_GZIP: Final = b"\x1f\x8b"


def parse_svg(data: bytes) -> Element:
    r"""Return the root element of an SVG file.

    Args:
        data: The file's bytes.

    Raises:
        ValueError: The file is no SVG, too large, nested too deep, or has a document type: with
            one come entities that grow without end and references to other files.

    Example:
        >>> parse_svg(b'<svg xmlns="http://www.w3.org/2000/svg"/>').tag
        '{http://www.w3.org/2000/svg}svg'
        >>> parse_svg(b'<!DOCTYPE svg [<!ENTITY a "b">]><svg/>')
        Traceback (most recent call last):
        ValueError: the file has a document type, `<!DOCTYPE ...>`: take it out
    """
    if len(data) > MOST_BYTES:
        raise ValueError(f"the file has more than {MOST_BYTES:,} bytes (1 MB)")
    if data.startswith(_GZIP):
        raise ValueError("the file is compressed: save it as plain SVG")
    try:
        root = _counted(data)
    except DefusedXmlException:
        raise ValueError(
            "the file has a document type, `<!DOCTYPE ...>`: take it out"
        ) from None
    except ParseError as fault:
        line, column = fault.position
        raise ValueError(
            f"the file is not XML: line {line}, column {column + 1} cannot be read"
        ) from None
    except LookupError:
        raise ValueError("the file is in an unknown encoding: save it as UTF-8") from None
    if root is None or root.tag not in {f"{SVG}svg", "svg"}:
        raise ValueError("the file is not an SVG drawing: it does not begin with `<svg`")
    return root


def _counted(data: bytes) -> Element | None:
    """Read XML piece by piece, and stop where it is too much."""
    root: Element | None = None
    depth = count = 0
    stream = BytesIO(data)
    for event, element in iterparse(stream, events=("start", "end"), forbid_dtd=True):
        if event == "end":
            depth -= 1
            continue
        root = element if root is None else root
        depth, count = depth + 1, count + 1
        if depth > DEEPEST:
            raise ValueError(f"the file has more than {DEEPEST} elements within each other")
        if count > MOST_ELEMENTS:
            raise ValueError(f"the file has more than {MOST_ELEMENTS:,} elements")
    return root
