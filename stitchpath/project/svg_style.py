"""What an SVG file says of how a shape looks, as far as it decides whether it is seen at all.

Presentation attributes, `style` attributes, and the rules of style sheets for an element's
name, class or id, each stronger than the one before (CSS cascade, simple selectors alone).
"""

from collections.abc import Mapping
from typing import Final
from xml.etree.ElementTree import Element

from stitchpath.project.svg_gate import SVG

READ: Final = ("display", "visibility", "fill", "stroke", "font-size")
"""The properties that count here."""


class StyleSheets:
    """The rules of a file's `<style>` elements."""

    def __init__(self, root: Element) -> None:
        """Read every style sheet of a file."""
        self._rules: dict[str, dict[str, str]] = {}
        self._own: dict[Element, dict[str, str]] = {}
        for element in root.iter():
            if element.tag in {f"{SVG}style", "style"}:
                self._read("".join(element.itertext()))

    def own_style(self, element: Element) -> Mapping[str, str]:
        """Return the properties that are set on an element itself, by name."""
        if element not in self._own:
            self._own[element] = self._find(element)
        return self._own[element]

    def _find(self, element: Element) -> dict[str, str]:
        name = element.tag.removeprefix(SVG)
        classes = element.get("class", "").split()
        selectors = [
            "*",
            name,
            *(f".{one}" for one in classes),
            *(f"{name}.{one}" for one in classes),
            f"#{element.get('id', '')}",
        ]
        found = {key: element.get(key, "") for key in READ if element.get(key)}
        for selector in selectors:
            found |= self._rules.get(selector, {})
        return found | _declarations(element.get("style", ""))

    def _read(self, text: str) -> None:
        first, *rest = text.split("/*")
        plain = first + "".join(part.partition("*/")[2] for part in rest)
        for block in plain.split("}"):
            selectors, _, body = block.partition("{")
            declared = _declarations(body)
            for selector in selectors.split(","):
                self._rules.setdefault(selector.strip(), {}).update(declared)


def _declarations(text: str) -> dict[str, str]:
    """Return the properties of a list such as `fill: none; stroke: teal`."""
    pairs = (part.partition(":") for part in text.split(";"))
    return {
        name.strip().lower(): value.partition("!")[0].strip()
        for name, _, value in pairs
        if name.strip().lower() in READ and value.strip()
    }
