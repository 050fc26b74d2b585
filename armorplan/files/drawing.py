"""Reads one SVG drawing: circles and closed outlines by id, in mm, y downward.

One user unit is what ``width`` and ``viewBox`` make of it. What is hidden (``display: none``) is
not read, so that what a maker sees is what is cut; style sheets are not read, and a drawing whose
style sheet hides or moves something is told. Elements without an id are left out, but for circles,
which may be forgotten holes.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache

from armorplan.files.budget import Budget, OverBudgetError
from armorplan.files.faults import Faults, brief
from armorplan.files.shapes import SHAPE_TAGS, OpenLineError, Round, trace
from armorplan.files.svg_page import page_transform
from armorplan.files.svg_tree import Element, read_tree
from armorplan.files.svg_walk import Placed, Walk
from armorplan.files.transforms import ShapeFaultError
from armorplan.geometry.areas import ring_shape
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Place, Severity
from armorplan.pattern.parts import Point, Ring

_LEAST_MM2 = 1e-3
_STYLED = re.compile(r"display\s*:|transform\s*:")
_SPOT = re.compile(r"\[([-\d.e+]+) ([-\d.e+]+)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle as drawn: a hole where it lies in a part. Lengths in mm.

    ``moved_by`` is the place of the correction that moved it, if any did.
    """

    id: str | None
    centre: Point
    diameter_mm: float
    place: Place
    moved_by: Place | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A closed outline with an id: a part, a slot in one, or neither. Corners in mm.

    ``moved_by`` is the place of the correction that moved it, if any did.
    """

    id: str
    ring: Ring
    place: Place
    moved_by: Place | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnLine:
    """A straight line of two points in mm with an id, which a form may bend about."""

    id: str
    ends: tuple[Point, Point]
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """Anything with an id that is neither circle nor outline, and what it is instead."""

    id: str
    what: str
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """What one SVG file draws.

    Attributes:
        readable: ``False`` where nothing could be read of it; the findings say why.
        flawed: by id, the fault of a shape that cannot serve as what it is drawn for. It matters
            only where the pattern names the shape.
        lines: straight open lines; as outlines they are flawed, and found there too.
        others: by id, whatever else has an id.
        findings: faults of the drawing as a whole.
    """

    name: str
    circles: tuple[Circle, ...] = ()
    outlines: tuple[Outline, ...] = ()
    flawed: dict[str, Finding] = field(default_factory=dict)
    lines: tuple[DrawnLine, ...] = ()
    others: tuple[Named, ...] = ()
    findings: tuple[Finding, ...] = ()
    readable: bool = True


def read_drawing(name: str, text: str, budget: Budget | None = None) -> Drawing:
    """Read an SVG text.

    Args:
        name: the file's name, for findings.
        text: the SVG.
        budget: what is left of the limits for all drawings of one pattern.
    """
    budget = budget or Budget()
    try:
        return _Reading(name, budget).read(read_tree(name, text, budget))
    except UnreadableError as error:
        return Drawing(name=name, findings=error.findings, readable=False)
    except OverBudgetError as error:
        return Drawing(name=name, findings=(_limit_finding(name, error),), readable=False)


class _Reading:
    def __init__(self, name: str, budget: Budget) -> None:
        self._name = name
        self._budget = budget
        self._faults = Faults()
        self._circles: list[Circle] = []
        self._outlines: list[Outline] = []
        self._flawed: dict[str, Finding] = {}
        self._lines: list[DrawnLine] = []

    def read(self, root: Element) -> Drawing:
        to_mm = page_transform(root, self._place(root), self._faults)
        self._check_styles(root)
        by_id: dict[str, Element] = {}
        for element in _all(root):
            if element.id:
                by_id.setdefault(element.id, element)
        walk = Walk(by_id, budget=self._budget, tell=self._tell_group)
        walk.start(root, to_mm)
        self._trace_all(walk.placed)
        self._check_outlines()
        return Drawing(
            name=self._name,
            circles=tuple(self._circles),
            outlines=tuple(self._outlines),
            flawed=self._flawed,
            lines=tuple(self._lines),
            others=self._others(root),
            findings=self._faults.findings,
        )

    def _place(self, of: Element | Placed) -> Place:
        return Place(file=self._name, line=of.line, key=brief(of.id) if of.id else None)

    def _tell_group(self, fault: ShapeFaultError, element: Element) -> None:
        """Tell a fault that may move or lose every shape below it."""
        text = f"<{element.tag}>: {fault.text}"
        self._faults.error(fault.code, text, mend=fault.mend, place=self._place(element))

    def _trace_all(self, placed: list[Placed]) -> None:
        for each in placed:
            if each.id is None and each.element.tag not in {"circle", "ellipse"}:
                continue
            try:
                self._keep(each)
            except ShapeFaultError as fault:
                self._flaw(each, fault)

    def _keep(self, placed: Placed) -> None:
        shape = trace(placed.element, placed.to_mm, self._budget)
        place = self._place(placed)
        if isinstance(shape, Round):
            self._circles.append(
                Circle(
                    id=placed.id,
                    centre=shape.centre,
                    diameter_mm=shape.diameter_mm,
                    place=place,
                )
            )
        elif shape and placed.id:
            self._outlines.append(Outline(id=placed.id, ring=shape, place=place))

    def _flaw(self, placed: Placed, fault: ShapeFaultError) -> None:
        if not placed.id:
            return
        place = self._place(placed)
        self._flawed.setdefault(placed.id, _finding(fault, placed.id, place))
        if isinstance(fault, OpenLineError):
            self._lines.append(DrawnLine(id=placed.id, ends=fault.ends, place=place))

    def _check_outlines(self) -> None:
        """Set outlines aside that cross themselves or enclose nothing."""
        kept: list[Outline] = []
        for outline in self._outlines:
            fault = _outline_fault(outline.ring)
            if fault is None:
                kept.append(outline)
            else:
                self._flawed.setdefault(outline.id, _finding(fault, outline.id, outline.place))
        self._outlines = kept

    def _check_styles(self, root: Element) -> None:
        for element in _all(root):
            if element.tag == "style" and _STYLED.search(element.words):
                self._faults.warning(
                    "style-sheet",
                    f"The style sheet of {self._name} hides or moves something; it is not read.",
                    mend="Write display and transform as attributes, or delete hidden layers.",
                    place=self._place(element),
                )

    def _others(self, root: Element) -> tuple[Named, ...]:
        drawn = {c.id for c in self._circles} | {o.id for o in self._outlines}
        return tuple(
            Named(id=element.id, what=what, place=self._place(element))
            for element, what in _described(root)
            if element.id and element.id not in drawn and element.id not in self._flawed
        )


def _limit_finding(name: str, error: OverBudgetError) -> Finding:
    return Finding(
        code="drawing-limit",
        severity=Severity.ERROR,
        text=f"Up to {name} the drawings hold {error}, more than is read.",
        remedy="Take out what is not part of the pattern, or simplify the paths.",
        place=Place(file=name),
    )


def _all(root: Element) -> Iterator[Element]:
    waiting = [root]
    while waiting:
        element = waiting.pop()
        yield element
        waiting.extend(reversed(element.children))


def _described(root: Element) -> Iterator[tuple[Element, str]]:
    """Give each element with what keeps it from being a shape that is read."""
    waiting = [(root, "")]
    while waiting:
        element, above = waiting.pop()
        why = above or ("hidden" if element.is_hidden else "")
        yield element, f"<{element.tag or 'other'}>" + (f", {why}" if why else "")
        inside = why or ("" if element.tag in _DRAWN else f"inside <{element.tag}>")
        waiting.extend((child, inside) for child in reversed(element.children))


_DRAWN = SHAPE_TAGS | {"svg", "g", "a", "switch", "use"}


def _finding(fault: ShapeFaultError, shape_id: str, place: Place) -> Finding:
    return Finding(
        code=fault.code,
        severity=Severity.ERROR,
        text=f'The shape "{brief(shape_id)}": {fault.text}',
        remedy=fault.mend,
        about=(shape_id,),
        place=place,
    )


@lru_cache(maxsize=2048)
def _outline_fault(ring: Ring) -> ShapeFaultError | None:
    import shapely

    shape = ring_shape(ring)
    if not shape.is_valid:
        spot = _SPOT.search(shapely.is_valid_reason(shape))
        where = f" at ({float(spot[1]):.1f}, {float(spot[2]):.1f})" if spot else ""
        return ShapeFaultError(
            "crosses-itself",
            f"Its outline crosses or touches itself{where}.",
            "Draw it so that the line meets only at its ends.",
        )
    if shape.area < _LEAST_MM2:
        return ShapeFaultError(
            "no-area", "Its outline encloses no area.", "Draw an outline of three corners or more."
        )
    return None
