"""Draws shapes of a drawing again on a sheet of their own, moved or turned over, under other ids."""

from collections.abc import Iterator, Mapping
from xml.sax.saxutils import escape, quoteattr

from fontTools.misc.transform import Identity, Transform

from armorplan.files.svg_places import Drawn, DrawnText
from armorplan.files.svg_write import LOOKS, number_words, transform_words

_SHAPE = ("d", "points", "x", "y", "width", "height", "rx", "ry", "cx", "cy", "r")
_ENDS = ("x1", "y1", "x2", "y2")


class SheetCopy:
    """A sheet in mm, turned over about an upright line, so that it lies beside what it is made of.

    Args:
        text: the drawing it is made of.
        title: of the sheet.
        edge_mm: where that line lies, from the left of the page.

    Raises:
        UnpatchableError: the drawing cannot be read, or a shape is not drawn by itself.
    """

    def __init__(self, text: str, title: str, edge_mm: float) -> None:
        self._drawn = DrawnText(text)
        self._title = title
        self._edge_mm = edge_mm
        self._lines: list[str] = []

    @property
    def over(self) -> Transform:
        """The motion that turns the drawing over onto the sheet."""
        return Identity.translate(2 * self._edge_mm, 0.0).scale(-1, 1)

    def draw(self, shape_id: str, name: str, motion: Transform) -> None:
        """Draw a shape again by another id, moved on the page in mm."""
        drawn = self._drawn.shape(shape_id)
        words = " ".join(f"{key}={quoteattr(value)}" for key, value in _told(drawn, name, motion))
        self._lines.append(f"    <{drawn.shape.tag} {words}/>")

    @property
    def text(self) -> str:
        """The sheet as SVG, its lines ended as in the drawing it is made of."""
        size_mm = (2 * self._edge_mm, self._drawn.size_mm[1])
        across, down = (number_words(length, 1.0) for length in size_mm)
        shapes = "\n".join(self._lines)
        text = (
            '<?xml version="1.0" encoding="UTF-8"?>\n'
            '<svg xmlns="http://www.w3.org/2000/svg"\n'
            f'     width="{across}mm" height="{down}mm" viewBox="0 0 {across} {down}">\n'
            f"  <title>{escape(self._title)}</title>\n"
            '  <g fill="none" stroke="#000000" stroke-width="0.3">\n'
            f"{shapes}\n"
            "  </g>\n"
            "</svg>\n"
        )
        return text.replace("\n", "\r\n") if b"\r\n" in self._drawn.data else text


def _told(drawn: Drawn, name: str, motion: Transform) -> Iterator[tuple[str, str]]:
    """Yield the attributes of a shape that is drawn again."""
    to_mm, attrs = motion.transform(drawn.to_mm), drawn.shape.attrs
    yield "id", name
    if drawn.is_circle:
        x, y = to_mm.transformPoint(drawn.centre)
        yield "cx", number_words(x, 1.0)
        yield "cy", number_words(y, 1.0)
        for key in ("r",) if drawn.shape.tag == "circle" else ("rx", "ry"):
            yield key, number_words(drawn.diameter_mm / 2, 1.0)
        to_mm = Identity
    else:
        yield from ((key, attrs[key]) for key in (*_SHAPE, *_ENDS) if key in attrs)
    moved = transform_words(to_mm)
    if moved:
        yield "transform", moved
    looks: Mapping[str, str] = drawn.named.attrs
    yield from ((key, looks[key]) for key in LOOKS if key in looks)
