"""The strokes of one SVG element, with their looks."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from armorplan.files.faults import brief
from armorplan.files.flatten import Fineness
from armorplan.files.loose.looks import chain_of, colour_of, group_of, layer_of, name_of
from armorplan.files.loose.stoppable import StoppableBudget
from armorplan.files.loose.strokes import FARTHEST, Keys, circle_ring, line_of
from armorplan.files.shapes import Round, drawn
from armorplan.files.svg_tree import Element
from armorplan.files.svg_walk import Placed
from armorplan.files.transforms import ShapeFaultError
from armorplan.geometry.brought.model import Stroke
from armorplan.kernel.findings import Place
from armorplan.kernel.stopping import ShouldStop, go_on

Made = list[Stroke] | ShapeFaultError
_CURVES = frozenset("CcSsQqTtAa")


class SvgTracing:
    """Makes strokes of elements; they are named once all are made."""

    def __init__(self, name: str, wrapping: frozenset[int], should_stop: ShouldStop) -> None:
        self._name = name
        self._wrapping = wrapping
        self._should_stop = should_stop
        self._budget = StoppableBudget(should_stop)

    def traced(self, placed: Placed, flat: float) -> Made:
        """Return what an element draws, or what is wrong with it.

        Args:
            placed: it, with the way to the numbers of the file.
            flat: how far a chord may lie off its curve.
        """
        fine = Fineness(flat=flat, farthest=FARTHEST, unit="units")
        try:
            found = drawn(placed.element, placed.to_mm, self._budget, fine)
        except ShapeFaultError as fault:
            return fault
        looks = self._looks(placed)
        if isinstance(found, Round):
            circle = found.centre, found.diameter_mm
            points = circle_ring(*circle, flat)
            for _ in points:
                self._budget.corner()
            return [replace(looks, points=points, closed=True, circle=circle)]
        lines = (line_of(line.corners, closed=line.closed) for line in found)
        return [replace(looks, points=points, closed=closed) for points, closed in lines if points]

    def named(self, placed: Sequence[Placed], made: Sequence[Made]) -> Iterator[Stroke]:
        """Yield all strokes, each with a name of its own."""
        keys = Keys()
        for each, strokes in zip(placed, made, strict=True):
            go_on(self._should_stop)
            if not isinstance(strokes, ShapeFaultError):
                for stroke in strokes:
                    yield replace(stroke, key=keys.fresh(each.id))

    def _looks(self, placed: Placed) -> Stroke:
        layer = layer_of(placed.above, self._wrapping)
        key = brief(placed.id) if placed.id else None
        return Stroke(
            key="",
            points=(),
            closed=False,
            layer=layer,
            colour=colour_of(chain_of(placed.element, placed.above)),
            label=name_of(placed.element, placed.id or ""),
            group=group_of(placed.above, layer),
            place=Place(file=self._name, line=placed.line, key=key),
        )


def is_curved(element: Element) -> bool:
    """Tell whether an element may draw curves, which are flattened."""
    if element.tag == "path":
        return not _CURVES.isdisjoint(element.attrs.get("d", ""))
    if element.tag == "rect":
        return "rx" in element.attrs or "ry" in element.attrs
    return element.tag in {"circle", "ellipse"}
