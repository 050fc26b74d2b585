"""A pattern in another size: parts, holes, rows, straps, forms, each by what it follows."""

from collections.abc import Collection, Mapping
from dataclasses import replace
from types import MappingProxyType

from armorplan.geometry.sizing.clusters import clusters
from armorplan.geometry.sizing.depths import Deeper, deeper, left_of
from armorplan.geometry.sizing.drafted import Drafted
from armorplan.geometry.sizing.edges import kept_spots
from armorplan.geometry.sizing.ends import with_ends_kept
from armorplan.geometry.sizing.factors import LENGTHENED, NOBODY, factors_of
from armorplan.geometry.sizing.findings import findings_of
from armorplan.geometry.sizing.finishing import Finishing
from armorplan.geometry.sizing.model import Factors, WantedBy
from armorplan.geometry.sizing.moving import with_moving
from armorplan.geometry.sizing.pivots import nested
from armorplan.geometry.sizing.rows import matched
from armorplan.geometry.sizing.straps import lengthened
from armorplan.geometry.sizing.stretches import Still, Stretch, spread_of
from armorplan.kernel.findings import Finding
from armorplan.pattern.parts import Part, Point, Slot
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

_ROUNDS = 4


def sized(
    pattern: Pattern,
    wanted: WantedBy,
    constants: Constants,
    *,
    named: Collection[str] = (),
    apart: Mapping[str, WantedBy] = NOBODY,
) -> Drafted:
    """Return a pattern in another size.

    Args:
        pattern: as it was drawn, with all its parts, whatever the options choose.
        wanted: the measures it shall fit; parts whose measure is not among them keep their size.
        constants: how much should stay under a lame's neighbour.
        named: joints that the maker's own relations or the like name; they are never taken out.
        apart: by part, other measures that it follows: those of the right side.
    """
    factors, depths = factors_of(pattern, wanted, apart), Deeper()
    made = _Sizing(pattern, factors, named).made()
    for _ in range(_ROUNDS):
        more = deeper(pattern, made.sized.pattern, constants.kept_cover.value, depths)
        if more == depths:
            break
        depths = more
        made = _Sizing(pattern, _with_depths(factors, depths), named, depths.shifts).made()
    reaching = with_ends_kept(pattern, made.sized.pattern, _with_depths(factors, depths))
    made = _Sizing(pattern, reaching, named, depths.shifts).made()
    made = with_moving(pattern, made, factors)
    left, kept_mm = (left_of(pattern), left_of(made.sized.pattern)), constants.kept_cover.value
    told = findings_of(pattern, made.sized, wanted, left, kept_mm)
    found = (*made.sized.findings, *told)
    return replace(made, sized=replace(made.sized, findings=found))


def _with_depths(factors: Mapping[str, Factors], depths: Deeper) -> dict[str, Factors]:
    return {
        part: replace(one, along=one.along * depths.factors.get(part, 1.0))
        for part, one in factors.items()
    }


class _Sizing:
    """One pattern under sizing."""

    def __init__(
        self,
        pattern: Pattern,
        factors: Mapping[str, Factors],
        named: Collection[str],
        shifts: Mapping[str, Point] = MappingProxyType({}),
    ) -> None:
        self._shifts = shifts
        self._pattern = pattern
        self._factors = factors
        self._named = named
        self._stretches: dict[str, Stretch] = {part.id: Still() for part in pattern.parts}
        self._spots: dict[str, Point] = {
            hole.id: hole.centre for part in pattern.parts for hole in part.holes
        }
        self._slots: dict[str, Point] = {}
        """How far each slot moves."""
        self._findings: list[Finding] = []

    def made(self) -> Drafted:
        """Return the pattern in its new size."""
        plates = [p for p in self._pattern.parts if self._grows(p, lengthways=False)]
        for part in plates:
            self._spread(part)
        growing = frozenset(part.id for part in plates)
        held = clusters(self._pattern, growing)
        self._hold_together(held)
        before = dict(self._spots)
        rows = tuple(matched(self._pattern, self._spots, growing, self._named, held))
        self._take_along(held, before)
        nested(self._pattern, self._spots, growing)
        for part in self._pattern.parts:
            if self._grows(part, lengthways=True):
                self._lengthen(part)
        done = Finishing(
            pattern=self._pattern,
            factors=self._factors,
            stretches=self._stretches,
            spots=self._spots,
            slots=self._slots,
        )
        return Drafted(sized=done.finished(rows, tuple(self._findings)), stretches=self._stretches)

    def _grows(self, part: Part, *, lengthways: bool) -> bool:
        return part.id in self._factors and (part.kind in LENGTHENED) is lengthways

    def _spread(self, part: Part) -> None:
        """Let a plate grow; holes and slots near an edge stay as far from it."""
        spread = spread_of(part, self._factors[part.id])
        self._stretches[part.id] = spread
        middles = [_middle(slot) for slot in part.slots]
        centres = [hole.centre for hole in part.holes]
        spots = kept_spots(part.outline, [*centres, *middles], spread)
        for hole, (x, y) in zip(part.holes, spots, strict=False):
            by = self._shifts.get(hole.id, (0.0, 0.0))
            self._spots[hole.id] = (x + by[0], y + by[1])
        for slot, was, now in zip(part.slots, middles, spots[len(centres) :], strict=True):
            self._slots[slot.id] = (now[0] - was[0], now[1] - was[1])

    def _hold_together(self, held: Collection[Collection[str]]) -> None:
        """Move what meets something that does not grow as one, by the mean of its moves."""
        for group in held:
            moves = [self._move(name) for name in group]
            by = (sum(x for x, _ in moves) / len(moves), sum(y for _, y in moves) / len(moves))
            for name in group:
                if name in self._spots:
                    x, y = self._pattern.hole(name).centre
                    self._spots[name] = (x + by[0], y + by[1])
                else:
                    self._slots[name] = by

    def _take_along(self, held: Collection[Collection[str]], before: Mapping[str, Point]) -> None:
        """Let what moves as one follow a hole of it that its row has moved."""
        for group in held:
            places = [name for name in group if name in before]
            moved = [name for name in places if self._spots[name] != before[name]]
            if not moved:
                continue
            by = _mean_move(moved, before, self._spots)
            for name in group:
                if name in self._slots:
                    x, y = self._slots[name]
                    self._slots[name] = (x + by[0], y + by[1])
                elif name not in moved:
                    x, y = before[name]
                    self._spots[name] = (x + by[0], y + by[1])

    def _move(self, name: str) -> Point:
        if name in self._slots:
            return self._slots[name]
        (x, y), (was_x, was_y) = self._spots[name], self._pattern.hole(name).centre
        return x - was_x, y - was_y

    def _lengthen(self, part: Part) -> None:
        found = lengthened(self._pattern, part, self._factors[part.id], self._spots)
        self._findings += found.findings
        stretch = found.stretch
        self._stretches[part.id] = stretch
        self._spots.update({hole.id: stretch.at(hole.centre) for hole in part.holes})
        for slot in part.slots:
            was = _middle(slot)
            now = stretch.at(was)
            self._slots[slot.id] = (now[0] - was[0], now[1] - was[1])


def _mean_move(
    names: Collection[str], before: Mapping[str, Point], now: Mapping[str, Point]
) -> Point:
    across = sum(now[name][0] - before[name][0] for name in names) / len(names)
    down = sum(now[name][1] - before[name][1] for name in names) / len(names)
    return across, down


def _middle(slot: Slot) -> Point:
    xs, ys = [x for x, _ in slot.outline], [y for _, y in slot.outline]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
