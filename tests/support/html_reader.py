"""Reads back HTML strictly: every element that opens has to close, in order."""

from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Final

from typing_extensions import override

_VOID: Final = frozenset(
    "area base br col embed hr img input link meta source track wbr".split()  # noqa: SIM905
)
"""Source: HTML (WHATWG), 13.1.2, void elements."""


@dataclass(slots=True)
class Element:
    """An element with its attributes and all text inside it."""

    name: str
    attributes: dict[str, str | None]
    texts: list[str] = field(default_factory=list)

    @property
    def text(self) -> str:
        """All text inside, on one line."""
        return " ".join("".join(self.texts).split())


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[Element] = []
        self.open: list[Element] = []

    @override
    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert len(dict(attrs)) == len(attrs), f"<{tag}> has an attribute twice"
        element = Element(tag, dict(attrs))
        self.elements.append(element)
        if tag not in _VOID:
            self.open.append(element)

    @override
    def handle_endtag(self, tag: str) -> None:
        assert self.open, f"</{tag}> closes nothing"
        assert self.open.pop().name == tag, f"</{tag}> closes something else"

    @override
    def handle_data(self, data: str) -> None:
        for element in self.open:
            element.texts.append(data)


def read_html(text: str) -> list[Element]:
    """Return all elements in order; fail where they do not nest."""
    reader = _Reader()
    reader.feed(text)
    reader.close()
    assert not reader.open, f"<{reader.open[-1].name}> is never closed"
    return reader.elements
