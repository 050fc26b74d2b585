"""The shapes of a drawing where they stand in its text, with the way from their numbers to mm."""

from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING
from xml.parsers import expat

from fontTools.misc.transform import Transform

from armorplan.files.budget import Budget, OverBudgetError
from armorplan.files.faults import Faults, brief
from armorplan.files.flatten import half_axes
from armorplan.files.shapes import ROUND_MM, Round, drawn
from armorplan.files.svg_page import page_transform
from armorplan.files.svg_tree import Element, read_tree
from armorplan.files.svg_walk import Placed, Walk
from armorplan.files.svg_write import TAG
from armorplan.files.toml_patch import UnpatchableError
from armorplan.files.transforms import (
    ShapeFaultError,
    physical_mm,
    plain_length,
    view_box,
)
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Place
from armorplan.pattern.parts import Point, Ring

if TYPE_CHECKING:
    import shapely

_MARK = "\ufeff"
ROUND_TAGS = frozenset({"circle", "ellipse"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Where an element stands, in bytes of the text as UTF-8, its mark left out.

    ``start`` is its ``<``, ``tag_end`` lies behind its start tag, ``end`` behind all of it.
    """

    start: int
    tag_end: int
    end: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A shape that is drawn by its own id, or by the id of the ``use`` that draws it.

    Attributes:
        named: the element that has the id.
        shape: the element that says what is drawn; another one only of a ``use``.
        at: where ``named`` stands.
        to_mm: the way from the shape's numbers to mm.
        above: the same of what ``named`` stands in, without its own transform.
    """

    id: str
    named: Element
    shape: Element
    at: Stretch
    to_mm: Transform
    above: Transform

    @property
    def is_use(self) -> bool:
        """Tell whether it is drawn by a ``use``."""
        return self.named is not self.shape

    @property
    def centre(self) -> Point:
        """The middle of a circle or ellipse, in its own numbers."""
        return length(self.shape.attrs, "cx"), length(self.shape.attrs, "cy")

    @property
    def half_axes_mm(self) -> tuple[float, float]:
        """The longer and the shorter half axis of a circle or ellipse, in mm."""
        across, down = ("rx", "ry") if self.shape.tag == "ellipse" else ("r", "r")
        ends = (length(self.shape.attrs, across), 0.0), (0.0, length(self.shape.attrs, down))
        return half_axes(*(self.to_mm.transformVector(end) for end in ends))

    @property
    def diameter_mm(self) -> float:
        """The diameter of a circle in mm."""
        return sum(self.half_axes_mm)

    @property
    def is_circle(self) -> bool:
        """Tell whether it is read as a circle."""
        if self.shape.tag not in ROUND_TAGS:
            return False
        longer, shorter = self.half_axes_mm
        return 2 * (longer - shorter) <= ROUND_MM


class DrawnText:
    """A drawing's text as bytes, with the shapes in it that have an id.

    Raises:
        UnpatchableError: it cannot be read.
    """

    def __init__(self, text: str) -> None:
        self.mark = _MARK if text.startswith(_MARK) else ""
        self.data = text.removeprefix(_MARK).encode()
        try:
            root = read_tree("drawing", text, Budget())
            self._stretch_of = dict(
                zip(map(id, _in_order(root)), _stretches(self.data), strict=True)
            )
            self._read(root)
        except UnreadableError as error:
            raise UnpatchableError(error.findings[0].text) from error
        except (OverBudgetError, expat.ExpatError, ValueError) as error:
            message = f"The drawing cannot be changed: {error}."
            raise UnpatchableError(message) from error

    def _read(self, root: Element) -> None:
        self._root = root
        self._by_id: dict[str, Element] = {}
        self._parent: dict[int, Element] = {}
        self.ids: set[str] = set()
        self._used: dict[str, int] = {}
        for element in _in_order(root):
            if element.id:
                self._by_id.setdefault(element.id, element)
                self.ids.add(element.id)
            if element.tag == "use":
                self._used[element.attrs.get("href", "")] = element.line
            self._parent.update((id(child), element) for child in element.children)
        self.page = page_transform(root, Place(file="drawing"), Faults())
        box = view_box(root.attrs) or (0.0, 0.0, 0.0, 0.0)
        self.size_mm = (
            physical_mm(root.attrs.get("width")) or self.page.xx * box[2],
            physical_mm(root.attrs.get("height")) or self.page.yy * box[3],
        )
        walk = Walk(self._by_id, budget=Budget(), tell=lambda _fault, _element: None)
        walk.start(root, self.page)
        self._placed = tuple(walk.placed)

    @property
    def has_shapes(self) -> bool:
        """Whether a shape with an id is drawn."""
        return any(each.id for each in self._placed)

    def draws(self, shape_id: str) -> bool:
        """Tell whether a shape is drawn by this id."""
        return any(each.id == shape_id for each in self._placed)

    def shape(self, shape_id: str) -> Drawn:
        """Return the shape that is drawn by an id.

        Raises:
            UnpatchableError: there is none, or more than one, or it is drawn again elsewhere.
        """
        placed = [each for each in self._placed if each.id == shape_id]
        name = brief(shape_id)
        if len(placed) != 1:
            why = "no shape" if not placed else f"{len(placed)} shapes"
            message = f'The drawing has {why} called "{name}".'
            raise UnpatchableError(message)
        found = self._drawn(placed[0])
        again = self._used_at(found.named)
        if again:
            message = (
                f'"{name}" is drawn a second time by a <use> in line {again}, which would change '
                "with it; unlink that one in the drawing first."
            )
            raise UnpatchableError(message)
        return found

    def within(self, ring: Ring) -> Iterator[Drawn]:
        """Yield all shapes drawn within an outline, with an id or without, that are drawn once."""
        import shapely

        area = shapely.Polygon(ring)
        shapely.prepare(area)
        box = shapely.box(*area.bounds)
        for placed, corners in self._corners:
            is_inside = box.covers(corners) and area.covers(corners)
            found = self._drawn(placed) if is_inside else None
            if found is not None and not self._used_at(found.named):
                yield found

    @cached_property
    def _corners(self) -> tuple[tuple[Placed, "shapely.MultiPoint"], ...]:
        """All shapes with their corners in mm; of a circle its centre."""
        import shapely

        found = []
        for placed in self._placed:
            with suppress(ShapeFaultError, OverBudgetError):
                lines = drawn(placed.element, placed.to_mm, Budget())
                corners = (
                    [lines.centre]
                    if isinstance(lines, Round)
                    else [corner for line in lines for corner in line.corners]
                )
                if corners:
                    found.append((placed, shapely.multipoints(corners)))
        return tuple(found)

    def stretch(self, element: Element) -> Stretch:
        """Return where an element stands."""
        return self._stretch_of[id(element)]

    def naming(self, shape_id: str) -> Iterator[Element]:
        """Yield the elements that draw another one by its id."""
        wanted = f"#{shape_id}"
        return (each for each in _in_order(self._root) if each.attrs.get("href") == wanted)

    def _drawn(self, placed: Placed) -> Drawn:
        shape = placed.element
        named = self._by_id.get(placed.id or "", shape)
        return Drawn(
            id=placed.id or "",
            named=named,
            shape=shape,
            at=self.stretch(named),
            to_mm=placed.to_mm,
            above=placed.stands_in,
        )

    def _used_at(self, element: Element) -> int:
        """Return the line of a ``use`` that draws an element, or what it lies in; 0 for none."""
        above: Element | None = element
        while above is not None:
            if above.id and f"#{above.id}" in self._used:
                return self._used[f"#{above.id}"]
            above = self._parent.get(id(above))
        return 0


def length(attrs: Mapping[str, str], key: str) -> float:
    """Return a length in user units; UnpatchableError where it is none."""
    try:
        return plain_length(dict(attrs), key)
    except ShapeFaultError as fault:
        raise UnpatchableError(fault.text) from fault


def _in_order(root: Element) -> Iterator[Element]:
    waiting = [root]
    while waiting:
        element = waiting.pop()
        yield element
        waiting.extend(reversed(element.children))


class _Stretches:
    """Notes where each element begins and ends, in the order they begin."""

    def __init__(self, data: bytes) -> None:
        self._data = data
        self._open: list[int] = []
        self.found: list[Stretch] = []
        self._parser = expat.ParserCreate("utf-8")
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._parser.Parse(data, True)  # noqa: FBT003 - expat's signature

    def _start(self, _name: str, _attrs: Mapping[str, str]) -> None:
        at = self._parser.CurrentByteIndex
        tag = TAG.match(self._data, at)
        end = tag.end() if tag else at
        self._open.append(len(self.found))
        self.found.append(Stretch(start=at, tag_end=end, end=end))

    def _end(self, _name: str) -> None:
        at = self._open.pop()
        found = self.found[at]
        if not self._data.endswith(b"/>", found.start, found.tag_end):
            end = self._data.find(b">", self._parser.CurrentByteIndex) + 1
            self.found[at] = Stretch(start=found.start, tag_end=found.tag_end, end=end)


def _stretches(data: bytes) -> list[Stretch]:
    return _Stretches(data).found
