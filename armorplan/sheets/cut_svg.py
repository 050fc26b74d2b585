"""A bed as an SVG drawing for the cutter, one unit a millimetre."""

from collections.abc import Iterable, Iterator
from html import escape

from armorplan.needs.cutting.model import CutShape, CutterBed
from armorplan.pattern.parts import Ring
from armorplan.sheets.cut_layers import GUIDE, INSIDE, LETTER_MM, OUTLINE, CutLayer, layers_words

_THIN_MM = 0.1


def cut_svg(bed: CutterBed) -> bytes:
    """Return a bed as SVG; every text in it is escaped, for names come out of patterns."""
    wide, high = _number(bed.wide_mm), _number(bed.high_mm)
    lines = (
        '<?xml version="1.0" encoding="UTF-8"?>',
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" '
            f'viewBox="0 0 {wide} {high}">'
        ),
        f"<title>{escape(f'{bed.pattern}: {bed.title}')}</title>",
        f"<desc>In mm. {escape(layers_words())}</desc>",
        *_layer(INSIDE, (line for shape in bed.shapes for line in _inside(shape))),
        *_layer(OUTLINE, (_ring(shape.outline) for shape in bed.shapes)),
        *_layer(GUIDE, (line for shape in bed.shapes for line in _guides(shape))),
        "</svg>",
        "",
    )
    return "\n".join(lines).encode("utf-8")


def _layer(layer: CutLayer, lines: Iterable[str]) -> Iterator[str]:
    yield (
        f'<g id="layer_{layer.name}" fill="none" stroke="{layer.colour}" stroke-width="{_THIN_MM}">'
    )
    yield from lines
    yield "</g>"


def _inside(shape: CutShape) -> Iterator[str]:
    yield from (
        f'<circle cx="{_number(x)}" cy="{_number(y)}" r="{_number(diameter / 2)}"/>'
        for (x, y), diameter in shape.holes
    )
    yield from map(_ring, shape.slots)


def _guides(shape: CutShape) -> Iterator[str]:
    yield from (
        f'<line x1="{_number(x1)}" y1="{_number(y1)}" x2="{_number(x2)}" y2="{_number(y2)}"/>'
        for (x1, y1), (x2, y2) in shape.guides
    )
    x, y = shape.label_at
    yield (
        f'<text x="{_number(x)}" y="{_number(y)}" font-size="{LETTER_MM:g}" font-family="sans-serif" '
        f'text-anchor="middle" fill="{GUIDE.colour}" stroke="none">{escape(shape.name)}</text>'
    )


def _ring(ring: Ring) -> str:
    corners = " ".join(f"{_number(x)},{_number(y)}" for x, y in ring)
    return f'<polygon points="{corners}"/>'


def _number(mm: float) -> str:
    """Return a length to a thousandth of a mm, never in powers of ten."""
    return f"{mm:.3f}".rstrip("0").rstrip(".")
