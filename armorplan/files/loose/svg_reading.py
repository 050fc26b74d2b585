"""An SVG as loose lines: everything that is seen, in the numbers of the file."""

from collections.abc import Iterator
from dataclasses import replace
from math import dist

from armorplan.files.budget import OverBudgetError
from armorplan.files.faults import brief
from armorplan.files.flatten import FLATTEN_MM, Fineness, Line
from armorplan.files.loose.left_out import LeftOut
from armorplan.files.loose.looks import (
    chain_of,
    colour_of,
    group_of,
    is_seen,
    layer_of,
    name_of,
    wrapping_groups,
)
from armorplan.files.loose.stoppable import StoppableBudget
from armorplan.files.loose.strokes import Keys, circle_ring, over_limit
from armorplan.files.loose.style_sheets import dress, everything
from armorplan.files.loose.svg_lettering import lettering_of
from armorplan.files.loose.svg_units import SvgPage, page_of, plain_lengths
from armorplan.files.loose.units import guessed, said, sizes_of
from armorplan.files.shapes import SHAPE_TAGS, Round, drawn
from armorplan.files.svg_tree import Element, read_tree
from armorplan.files.svg_walk import Placed, Walk
from armorplan.files.transforms import ShapeFaultError
from armorplan.geometry.brought.model import (
    Lettering,
    LooseDrawing,
    Stroke,
    Sureness,
    UnitGuess,
)
from armorplan.kernel.findings import Place
from armorplan.kernel.stopping import ShouldStop

_FARTHEST = 1e7
_SHARE = 1 / 4000
"""How fine curves are looked at for the size of a drawing without a unit, in pages."""
_TAGS = SHAPE_TAGS | {"text", "image", "foreignObject"}


def read_svg(name: str, text: str, should_stop: ShouldStop) -> LooseDrawing:
    """Read an SVG text.

    Raises:
        UnreadableError: it is no sound SVG, or holds more than is read.
        StoppedError: the reading was no longer wanted.
    """
    try:
        root = read_tree(name, text, StoppableBudget(should_stop))
        return _Reading(name, root, should_stop).read()
    except OverBudgetError as error:
        raise over_limit(name, str(error)) from error


class _Reading:
    def __init__(self, name: str, root: Element, should_stop: ShouldStop) -> None:
        self._name = name
        self._root = root
        self._should_stop = should_stop
        self._left_out = LeftOut(name)
        dress(root)
        self._page = page_of(root, Place(file=name, line=root.line), self._left_out.faults)
        plain_lengths(root, self._page)
        self._by_id: dict[str, Element] = {}
        for element in everything(root):
            if element.id:
                self._by_id.setdefault(element.id, element)
        self._wrapping = wrapping_groups(root)

    def read(self) -> LooseDrawing:
        placed = [each for each in self._walked() if self._is_wanted(each)]
        shapes = [each for each in placed if each.element.tag != "text"]
        flat = FLATTEN_MM / self._page.mm_each if self._page.mm_each else self._coarse()
        strokes, flaws = self._strokes(shapes, flat)
        unit = _unit(self._page, strokes)
        widest = max(unit.mm_each, *unit.others[:2], 0.0, 0.0)
        finest = FLATTEN_MM / (unit.mm_each if unit.sureness is Sureness.SAID else widest)
        if finest < flat:
            strokes, flaws = self._strokes(shapes, finest)
        for fault, place in flaws:
            self._left_out.flaw(fault.code, fault.text, fault.mend, place)
        return LooseDrawing(
            name=self._name,
            strokes=tuple(strokes),
            lettering=tuple(self._lettering(placed)),
            unit=unit,
            findings=self._left_out.findings,
        )

    def _coarse(self) -> float:
        return max(*self._page.size, 1.0) * _SHARE

    def _walked(self) -> list[Placed]:
        walk = Walk(
            self._by_id,
            budget=StoppableBudget(self._should_stop),
            tell=self._tell,
            tags=_TAGS,
            pass_by=self._hidden,
        )
        walk.start(self._root, self._page.stretch)
        return walk.placed

    def _tell(self, fault: ShapeFaultError, element: Element) -> None:
        self._left_out.flaw(fault.code, fault.text, fault.mend, self._place(element))

    def _hidden(self, element: Element) -> None:
        if element.tag in {*SHAPE_TAGS, "g", "use", "text", "svg"}:
            self._left_out.count(
                "hidden",
                "Hidden layers or shapes",
                "Show them in the drawing program if they belong to the pattern.",
                self._place(element),
            )

    def _place(self, of: Element | Placed) -> Place:
        return Place(file=self._name, line=of.line, key=brief(of.id) if of.id else None)

    def _is_wanted(self, placed: Placed) -> bool:
        tag = placed.element.tag
        if tag == "image":
            self._left_out.count(
                "picture-inside",
                "Pictures of dots",
                "Draw the outlines over them as lines; a picture has no lines to cut.",
                self._place(placed),
            )
        elif tag == "foreignObject":
            self._left_out.count(
                "foreign-object",
                "Boxes of another language than SVG",
                "Write the text in them as plain text of the drawing.",
                self._place(placed),
            )
        elif is_seen(chain_of(placed.element, placed.above)):
            return True
        else:
            self._left_out.count(
                "unseen",
                "Shapes with neither line nor fill",
                "Give them a line if they belong to the pattern.",
                self._place(placed),
            )
        return False

    def _strokes(
        self, placed: list[Placed], flat: float
    ) -> tuple[list[Stroke], list[tuple[ShapeFaultError, Place]]]:
        budget = StoppableBudget(self._should_stop)
        fine = Fineness(flat=flat, farthest=_FARTHEST, unit="units")
        keys = Keys()
        strokes: list[Stroke] = []
        flaws: list[tuple[ShapeFaultError, Place]] = []
        for each in placed:
            try:
                found = drawn(each.element, each.to_mm, budget, fine)
            except ShapeFaultError as fault:
                flaws.append((fault, self._place(each)))
                continue
            looks = self._looks(each)
            strokes += (
                replace(
                    looks, key=keys.fresh(each.id), points=points, closed=closed, circle=circle
                )
                for points, closed, circle in _lines(found, flat)
            )
        return strokes, flaws

    def _looks(self, placed: Placed) -> Stroke:
        layer = layer_of(placed.above, self._wrapping)
        return Stroke(
            key="",
            points=(),
            closed=False,
            layer=layer,
            colour=colour_of(chain_of(placed.element, placed.above)),
            label=name_of(placed.element, placed.id or ""),
            group=group_of(placed.above, layer),
            place=self._place(placed),
        )

    def _lettering(self, placed: list[Placed]) -> Iterator[Lettering]:
        for each in placed:
            if each.element.tag == "text":
                layer = layer_of(each.above, self._wrapping)
                found = lettering_of(each, self._by_id, layer)
                if found is not None:
                    yield found


def _lines(
    found: Round | list[Line], flat: float
) -> Iterator[
    tuple[tuple[tuple[float, float], ...], bool, tuple[tuple[float, float], float] | None]
]:
    """Yield corners, whether they are closed, and the circle, of each line with a length."""
    if isinstance(found, Round):
        circle = found.centre, found.diameter_mm
        yield circle_ring(*circle, flat), True, circle
        return
    for line in found:
        corners = [line.corners[0]]
        corners += (to for to in line.corners[1:] if to != corners[-1])
        closed = line.closed or (len(corners) > 3 and dist(corners[0], corners[-1]) <= flat / 5)  # noqa: PLR2004
        while closed and len(corners) > 1 and dist(corners[0], corners[-1]) <= flat / 5:
            corners.pop()
        if len(corners) > 1:
            yield tuple(corners), closed and len(corners) > 2, None  # noqa: PLR2004


def _unit(page: SvgPage, strokes: list[Stroke]) -> UnitGuess:
    sizes = sizes_of(strokes)
    if page.mm_each is None:
        return guessed(sizes, usual=page.usual)
    return said(page.mm_each, page.how, sizes)
