"""Writes a pattern that was brought in: a clean drawing in mm, and its tables with a word on each."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from uuid import NAMESPACE_OID, uuid5
from xml.sax.saxutils import escape, quoteattr

from armorplan.files.toml_values import TomlValue, key_text, value_text
from armorplan.pattern.parts import Point, Ring

MARGIN_MM = 10.0
"""Paper left round the drawing."""
_DECIMALS = 3
_LEAST_CORNERS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A shape to be written: ``ring`` closed or, of an engraved line, open; or a round hole.

    Attributes:
        id: what it is called in the drawing; empty: nobody names it, and it is only seen.
        ring: corners in mm.
        closed: whether the last corner joins the first.
        circle: centre and diameter in mm; then no ring is needed.
    """

    id: str = ""
    ring: Ring = ()
    closed: bool = True
    circle: tuple[Point, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A table to be written: its path, what stands above it, its values; ``None`` is left out."""

    path: tuple[str, ...]
    values: Mapping[str, TomlValue | None]
    above: str = ""


def corner_of(shapes: Iterable[Drawn]) -> Point:
    """Return what is taken off all coordinates so that the drawing begins at its margin, mm."""
    spots = [spot for shape in shapes for spot in _spots(shape)]
    if not spots:
        return (0.0, 0.0)
    return (
        round(min(x for x, _ in spots) - MARGIN_MM, _DECIMALS),
        round(min(y for _, y in spots) - MARGIN_MM, _DECIMALS),
    )


def svg_text(title: str, cut: Sequence[Drawn], engraved: Sequence[Drawn]) -> str:
    """Return a drawing in mm: what is cut by id, and what is engraved in a group of its own.

    Args:
        title: the pattern's name.
        cut: outlines, holes and slots, their coordinates from the corner of the page.
        engraved: lines that are not cut; those without an id are not read as anything.
    """
    spots = [spot for shape in (*cut, *engraved) for spot in _spots(shape)]
    wide = max((x for x, _ in spots), default=0.0) + MARGIN_MM
    high = max((y for _, y in spots), default=0.0) + MARGIN_MM
    size = f"{_number(wide)} {_number(high)}"
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<svg xmlns="http://www.w3.org/2000/svg"',
        f'     width="{_number(wide)}mm" height="{_number(high)}mm" viewBox="0 0 {size}">',
        f"  <title>{escape(title)}</title>",
        '  <g fill="none" stroke="#000000" stroke-width="0.3">',
        *(f"    {_shape(shape)}" for shape in cut),
        "  </g>",
    ]
    if engraved:
        lines += [
            '  <g fill="none" stroke="#0072b2" stroke-width="0.3" stroke-dasharray="2 1">',
            *(f"    {_shape(shape)}" for shape in engraved),
            "  </g>",
        ]
    return "\n".join([*lines, "</svg>", ""])


def toml_text(head: str, tables: Iterable[Written]) -> str:
    """Return the tables as text, each below what is said above it."""
    return head + "".join(_table(table) for table in tables)


def uuid_of(text: str) -> str:
    """Return a UUID made of a text, so that the same drawing is the same pattern."""
    return str(uuid5(NAMESPACE_OID, sha256(text.encode()).hexdigest()))


def _table(table: Written) -> str:
    above = "".join(f"# {line}\n" for line in table.above.splitlines())
    lines = [
        f"{key_text([key])} = {value_text(value)}"
        for key, value in table.values.items()
        if value is not None
    ]
    return "\n".join(["", f"{above}[{key_text(table.path)}]", *lines, ""])


def _spots(shape: Drawn) -> Ring:
    if shape.circle is None:
        return shape.ring
    (x, y), diameter_mm = shape.circle
    half_mm = diameter_mm / 2
    return ((x - half_mm, y - half_mm), (x + half_mm, y + half_mm))


def _number(value: float) -> str:
    return f"{value:.{_DECIMALS}f}".rstrip("0").rstrip(".") or "0"


def _shape(shape: Drawn) -> str:
    named = f" id={quoteattr(shape.id)}" if shape.id else ""
    if shape.circle is not None:
        (x, y), diameter_mm = shape.circle
        radius = _number(diameter_mm / 2)
        return f'<circle{named} cx="{_number(x)}" cy="{_number(y)}" r="{radius}"/>'
    spots = [f"{_number(x)},{_number(y)}" for x, y in shape.ring]
    kept = [spot for at, spot in enumerate(spots) if not at or spot != spots[at - 1]]
    if shape.closed and len(kept) > _LEAST_CORNERS and kept[0] == kept[-1]:
        kept.pop()
    return f'<path{named} d="M {" L ".join(kept)}{" Z" if shape.closed else ""}"/>'
