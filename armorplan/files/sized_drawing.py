"""Draws a pattern's drawing anew in another size: curves stay curves, ids stay, page and places move.

Lines that only decorate go with the part they lie in. Lettering is not drawn.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from xml.sax.saxutils import quoteattr

from armorplan.files.budget import Budget, OverBudgetError
from armorplan.files.faults import Faults
from armorplan.files.moving_pen import Moved, MovingPen, plain
from armorplan.files.path_data import draw_path
from armorplan.files.shapes import Round, trace
from armorplan.files.svg_page import page_transform
from armorplan.files.svg_tree import Element, read_tree
from armorplan.files.svg_walk import Placed, Walk
from armorplan.files.transforms import ShapeFaultError, numbers, plain_length
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.findings import Place
from armorplan.pattern.parts import Hole, Point, Ring

_MARGIN_MM = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Resized:
    """What of a pattern's drawings is drawn otherwise.

    Attributes:
        outlines: by id of an outline, the part it is of.
        rings: the outlines of the parts as they were, by part.
        stretches: by part, where each of its spots comes to lie on the page.
        holes: by id, where a round hole is now; new ones among them.
        slots: by id of a slot, where its spots come to lie.
        axes: by id of a drawn line, the part it bends.
        gone: ids of holes that are no longer there.
    """

    outlines: Mapping[str, str]
    rings: Mapping[str, Ring]
    stretches: Mapping[str, Moved]
    holes: Mapping[str, Hole]
    slots: Mapping[str, Moved]
    axes: Mapping[str, str]
    gone: Collection[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    """One shape of the new drawing: what is written, and how far it reaches."""

    text: str
    spots: tuple[Point, ...]


def resized(name: str, text: str, changes: Resized, *, title: str) -> str:
    """Return a drawing in its new size, as a text.

    Args:
        name: the file's name, for what goes wrong.
        text: the drawing as it was.
        changes: what is drawn otherwise.
        title: what the new one is called.

    Raises:
        ArmorplanError: the drawing cannot be read.
    """
    return _page(_Drawing(name, changes).drawn(text), title)


def _page(shapes: Iterable[_Drawn], title: str) -> str:
    drawn = tuple(shapes)
    spots = [spot for shape in drawn for spot in shape.spots] or [(0.0, 0.0)]
    # The page begins where it did: points that tables name are counted from there.
    wide = max(x for x, _ in spots) + _MARGIN_MM
    high = max(y for _, y in spots) + _MARGIN_MM
    words = title.replace("&", "&amp;").replace("<", "&lt;")
    return "\n".join(
        (
            '<?xml version="1.0" encoding="UTF-8"?>',
            '<svg xmlns="http://www.w3.org/2000/svg"',
            f'     width="{wide:.3f}mm" height="{high:.3f}mm"',
            f'     viewBox="0 0 {wide:.3f} {high:.3f}">',
            f"  <title>{words}</title>",
            '  <g fill="none" stroke="#000000" stroke-width="0.3">',
            *(f"    {shape.text}" for shape in drawn),
            "  </g>",
            "</svg>",
            "",
        )
    )


class _Drawing:
    """One drawing under way."""

    def __init__(self, name: str, changes: Resized) -> None:
        self._name, self._changes, self._budget = name, changes, Budget()
        self._drawn: set[str] = set()
        self._here: set[str] = set()
        """The parts on this sheet."""

    def drawn(self, text: str) -> Iterator[_Drawn]:
        """Yield what is on the new page, in the order of the old one, new holes last of a part."""
        shapes = self._placed(text)
        parts = {self._changes.outlines.get(placed.id or "", "") for placed in shapes}
        self._here = parts
        for placed in shapes:
            try:
                shape = self._shape(placed)
            except ShapeFaultError:
                continue
            if shape is not None:
                yield shape
        fresh = (h for h in self._changes.holes.values() if h.id not in self._drawn)
        for hole in fresh:
            if hole.part in parts:
                yield _circle(hole.id, hole.centre, hole.diameter_mm)

    def _placed(self, text: str) -> list[Placed]:
        try:
            root = read_tree(self._name, text, self._budget)
            place = Place(file=self._name)
            to_mm = page_transform(root, place, Faults())
            by_id = {one.id: one for one in reversed(list(_all(root))) if one.id}
            walk = Walk(by_id, budget=self._budget, tell=lambda _fault, _element: None)
            walk.start(root, to_mm)
        except OverBudgetError as error:
            raise ArmorplanError(f"{self._name} holds {error}, more than is read.") from error
        return walk.placed

    def _shape(self, placed: Placed) -> _Drawn | None:
        changes, name = self._changes, placed.id or ""
        if name in changes.gone:
            return None
        if name in changes.slots:
            return self._path(placed, changes.slots[name])
        if name in changes.holes:
            hole = changes.holes[name]
            self._drawn.add(name)
            return _circle(name, hole.centre, hole.diameter_mm)
        part = changes.outlines.get(name) or changes.axes.get(name)
        if part is not None:
            return self._path(placed, changes.stretches[part])
        return self._beside(placed)

    def _beside(self, placed: Placed) -> _Drawn | None:
        """Return what nothing of the pattern names: it goes with the part it lies in."""
        pen = MovingPen(placed.to_mm)
        self._draw(placed, pen)
        part = self._part_around(pen.spots[0]) if pen.spots else None
        if part is None:
            return None
        moved = self._changes.stretches[part]
        if placed.element.tag == "circle":
            found = trace(placed.element, placed.to_mm, self._budget)
            if isinstance(found, Round):
                return _circle(placed.id or "", moved(found.centre), found.diameter_mm)
        return self._path(placed, moved)

    def _part_around(self, spot: Point) -> str | None:
        from shapely import Point as Spot
        from shapely import Polygon

        here = Spot(spot)
        around = [
            (Polygon(ring).area, part)
            for part, ring in self._changes.rings.items()
            if part in self._here and Polygon(ring).covers(here)
        ]
        return min(around)[1] if around else None

    def _path(self, placed: Placed, moved: Moved) -> _Drawn | None:
        pen = MovingPen(placed.to_mm, moved)
        self._draw(placed, pen)
        if not pen.spots:
            return None
        name = f"id={quoteattr(placed.id)} " if placed.id else ""
        return _Drawn(text=f'<path {name}d="{" ".join(pen.words)}"/>', spots=tuple(pen.spots))

    def _draw(self, placed: Placed, pen: MovingPen) -> None:
        """Draw an element with a pen; what has no lines of its own as its corners."""
        element = placed.element
        if element.tag == "path":
            draw_path(element.attrs.get("d", ""), pen)
        elif element.tag == "line":
            ends = [
                (plain_length(element.attrs, f"x{n}"), plain_length(element.attrs, f"y{n}"))
                for n in (1, 2)
            ]
            pen.polyline(ends, closed=False)
        elif element.tag in {"polyline", "polygon"}:
            flat = numbers(element.attrs.get("points", ""), "points")
            points = list(zip(flat[::2], flat[1::2], strict=False))
            pen.polyline(points, closed=element.tag == "polygon")
        else:
            self._corners(placed, pen)

    def _corners(self, placed: Placed, pen: MovingPen) -> None:
        found = trace(placed.element, placed.to_mm, self._budget)
        if isinstance(found, Round):
            (x, y), half = found.centre, found.diameter_mm / 2
            pen.spots += [(x - half, y - half), (x + half, y + half)]
        elif found is not None:
            pen.in_mm(found)


def _circle(name: str, centre: Point, diameter_mm: float) -> _Drawn:
    (x, y), half = centre, diameter_mm / 2
    told = f"id={quoteattr(name)} " if name else ""
    return _Drawn(
        text=f'<circle {told}cx="{plain(x)}" cy="{plain(y)}" r="{plain(half)}"/>',
        spots=((x - half, y - half), (x + half, y + half)),
    )


def _all(root: Element) -> Iterator[Element]:
    waiting = [root]
    while waiting:
        element = waiting.pop()
        yield element
        waiting.extend(reversed(element.children))
