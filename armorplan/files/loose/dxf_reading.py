"""A DXF as loose lines, in the numbers of the file, y turned to run down."""

from collections.abc import Iterator
from itertools import chain
from math import isfinite
from typing import TYPE_CHECKING, Any

from armorplan.files.budget import OverBudgetError
from armorplan.files.flatten import FLATTEN_MM
from armorplan.files.loose.dxf_file import Loaded, loaded
from armorplan.files.loose.dxf_lines import Traced, traced
from armorplan.files.loose.dxf_walk import DxfWalk, Put, is_lettering
from armorplan.files.loose.left_out import LeftOut
from armorplan.files.loose.stoppable import StoppableBudget
from armorplan.files.loose.strokes import FARTHEST, Keys, line_of, over_limit
from armorplan.files.loose.units import LEAST_PART_MM, guessed, said, sizes_of, widest_mm
from armorplan.geometry.brought.model import Lettering, LooseDrawing, Stroke, UnitGuess
from armorplan.kernel.findings import Place
from armorplan.kernel.stopping import ShouldStop
from armorplan.kernel.units import MM_PER_INCH
from armorplan.pattern.parts import Point

if TYPE_CHECKING:
    from ezdxf.document import Drawing

_Flaw = tuple[str, str, str, Place]
_NO_LENGTH = "It has no length.", "If a scale of 0 made it so, write the true scale."
_LONGEST = 200
_UNITS = {
    1: (MM_PER_INCH, "inches"),
    2: (12 * MM_PER_INCH, "feet"),
    4: (1.0, "mm"),
    5: (10.0, "cm"),
    6: (1000.0, "m"),
    8: (MM_PER_INCH / 1e6, "microinches"),
    9: (MM_PER_INCH / 1000, "mils"),
    10: (36 * MM_PER_INCH, "yards"),
    13: (0.001, "microns"),
    14: (100.0, "decimetres"),
}
"""$INSUNITS, as the DXF reference lists it."""


def read_dxf(name: str, data: bytes, *, binary: bool, should_stop: ShouldStop) -> LooseDrawing:
    """Read a DXF file.

    Raises:
        UnreadableError: it is no sound DXF, or holds more than is read.
        StoppedError: the reading was no longer wanted.
    """
    found = loaded(name, data, binary=binary, should_stop=should_stop)
    try:
        return _Reading(name, found, should_stop).read()
    except OverBudgetError as error:
        raise over_limit(name, str(error)) from error


class _Reading:
    def __init__(self, name: str, found: Loaded, should_stop: ShouldStop) -> None:
        self._name = name
        self._drawing = found.drawing
        self._damaged = found.damaged
        self._should_stop = should_stop

    def read(self) -> LooseDrawing:
        left_out = LeftOut(self._name)
        _tell_damaged(self._damaged, left_out)
        puts = list(DxfWalk(self._drawing, left_out, StoppableBudget(self._should_stop)).walked())
        factor = _header_mm(self._drawing)
        strokes, flaws = self._strokes(puts, FLATTEN_MM / factor)
        unit = _unit(self._drawing, strokes, self._should_stop)
        if widest_mm(unit) > factor:
            strokes, flaws = self._strokes(puts, FLATTEN_MM / widest_mm(unit))
        for flaw in flaws:
            left_out.flaw(*flaw)
        return LooseDrawing(
            name=self._name,
            strokes=tuple(strokes),
            lettering=tuple(chain.from_iterable(map(_lettering, puts))),
            unit=unit,
            findings=left_out.findings,
        )

    def _strokes(self, puts: list[Put], flat: float) -> tuple[list[Stroke], list[_Flaw]]:
        budget = StoppableBudget(self._should_stop)
        keys = Keys()
        strokes: list[Stroke] = []
        flaws: list[_Flaw] = []
        for put in puts:
            if is_lettering(put.entity):
                continue
            place = Place(file=self._name, key=put.handle or None)
            found = _traced(put, flat)
            for _ in found.points if found else ():
                budget.corner()
            if found is None or not all(map(_is_sound, found.points)):
                flaws.append((*_why_not(put, found), place))
                continue
            stroke = _stroke(put, found, keys.fresh(put.handle), place)
            if stroke is None:
                flaws.append(("no-length", *_NO_LENGTH, place))
            else:
                strokes.append(stroke)
        return strokes, flaws


def _tell_damaged(damaged: tuple[str, ...], left_out: LeftOut) -> None:
    if damaged:
        count = len(damaged)
        several = "1 number is" if count == 1 else f"{count} numbers are"
        left_out.faults.warning(
            "damaged-number",
            f"{several} damaged, the first {damaged[0]}; each is read as far as it is one.",
            mend="Look whether the lines are as long as they were drawn, or save the drawing anew.",
            place=Place(file=left_out.name),
        )


def _why_not(put: Put, found: Traced | None) -> tuple[str, str, str]:
    kind = put.entity.dxftype()
    if found is None:
        return (
            "not-a-line",
            f"The {kind} cannot be read.",
            "Explode it to lines where it was drawn.",
        )
    return "not-a-number", f"A number of the {kind} is not finite, or too large.", "Draw it anew."


def _traced(put: Put, flat: float) -> Traced | None:
    try:
        return traced(put.entity, flat)
    except Exception:  # noqa: BLE001 - a damaged entity sets off anything; it is told
        return None


def _is_sound(point: Point) -> bool:
    return all(isfinite(value) and abs(value) <= FARTHEST for value in point)


def _stroke(put: Put, found: Traced, key: str, place: Place) -> Stroke | None:
    points, closed = line_of([(x, -y) for x, y in found.points], closed=found.closed)
    if not points:
        return None
    circle = found.circle and ((found.circle[0][0], -found.circle[0][1]), found.circle[1])
    return Stroke(
        key=key,
        points=points,
        closed=closed,
        circle=circle,
        layer=put.layer,
        colour=put.colour,
        group=put.group,
        place=place,
    )


def _lettering(put: Put) -> Iterator[Lettering]:
    entity = put.entity
    if not is_lettering(entity):
        return
    words, at, height = _words(entity)
    words = " ".join(words.split())
    if words and _is_sound(at):
        yield Lettering(text=words[:_LONGEST], at=(at[0], -at[1]), height=height, layer=put.layer)


def _words(entity: Any) -> tuple[str, Point, float]:
    if entity.dxftype() == "MTEXT":
        spot = entity.dxf.insert
        return entity.plain_text(), (spot.x, spot.y), float(entity.dxf.get("char_height", 1.0))
    moved = entity.dxf.get("halign", 0) or entity.dxf.get("valign", 0)
    spot = entity.dxf.get("align_point") if moved else None
    spot = entity.ocs().to_wcs(spot or entity.dxf.insert)
    return entity.plain_text(), (spot.x, spot.y), float(entity.dxf.get("height", 1.0))


def _header_mm(drawing: "Drawing") -> float:
    return _UNITS.get(_header(drawing, "$INSUNITS"), (MM_PER_INCH, ""))[0]


def _header(drawing: "Drawing", key: str) -> int:
    try:
        return int(drawing.header.get(key, 0))
    except (TypeError, ValueError):
        return 0


def _unit(drawing: "Drawing", strokes: list[Stroke], should_stop: ShouldStop) -> UnitGuess:
    sizes = sizes_of(strokes, should_stop)
    known = _UNITS.get(_header(drawing, "$INSUNITS"))
    if known is not None:
        how = f"The file says that its numbers are {known[1]}"
        return said(known[0], how, sizes, least_mm=LEAST_PART_MM)
    metric = _header(drawing, "$MEASUREMENT") == 1
    return guessed(sizes, usual=(1.0, MM_PER_INCH) if metric else (MM_PER_INCH, 1.0))
