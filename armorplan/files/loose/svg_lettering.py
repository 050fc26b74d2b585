"""The texts of an SVG: what they say, where they begin, how high they are."""

from collections.abc import Iterator
from math import hypot

from armorplan.files.loose.looks import Chain, chain_of, inherited
from armorplan.files.svg_tree import Element
from armorplan.files.svg_walk import Placed
from armorplan.files.transforms import NUMBER
from armorplan.geometry.brought.model import Lettering
from armorplan.pattern.parts import Point

_USUAL = 16.0
"""CSS's medium size in px, where none is written."""
_LONGEST = 200
_PER_PX = {"pt": 96 / 72, "mm": 96 / 25.4, "cm": 96 / 2.54, "in": 96.0, "pc": 16.0}


def lettering_of(placed: Placed, by_id: dict[str, Element], layer: str) -> Lettering | None:
    """Return what a text says, or ``None`` where it says nothing."""
    chain = chain_of(placed.element, placed.above)
    words = " ".join("".join(_words(placed.element)).split())
    if not words:
        return None
    size = _size(chain)
    at = _begin(placed.element, by_id) or (0.0, 0.0)
    across, down = placed.to_mm.transformVector((0.0, size))
    return Lettering(
        text=words[:_LONGEST],
        at=placed.to_mm.transformPoint(at),
        height=hypot(across, down),
        layer=layer,
    )


def _words(element: Element) -> Iterator[str]:
    yield element.words
    for child in element.children:
        if child.tag in {"tspan", "textPath", "a"}:
            # A line of its own is a word of its own.
            yield " " if "y" in child.attrs or "dy" in child.attrs else ""
            yield from _words(child)
        yield child.after


def _begin(text: Element, by_id: dict[str, Element]) -> Point | None:
    """Return where the first letter stands, in the numbers of the text."""
    for element in _inner(text):
        if "x" in element.attrs or "y" in element.attrs:
            return _first(element.attrs.get("x")), _first(element.attrs.get("y"))
        if element.tag == "textPath":
            along = by_id.get(element.attrs.get("href", "").removeprefix("#"))
            found = NUMBER.findall(along.attrs.get("d", "")[:_LONGEST]) if along else []
            return (float(found[0]), float(found[1])) if len(found) > 1 else None
    return None


def _inner(element: Element) -> Iterator[Element]:
    yield element
    for child in element.children:
        yield from _inner(child)


def _first(numbers: str | None) -> float:
    found = NUMBER.match((numbers or "").strip())
    return float(found[0]) if found else 0.0


def _size(chain: Chain) -> float:
    said = inherited(chain, "font-size").lower()
    found = NUMBER.match(said)
    if found is None:
        return _USUAL
    unit = said[found.end() :].strip()
    if unit in {"em", "rem", "%"}:
        return _USUAL * float(found[0]) * (0.01 if unit == "%" else 1)
    return float(found[0]) * _PER_PX.get(unit, 1.0)
