"""Rows of joints between plates that grow: the innermost layer leads, the others follow its spacing.

Layers that lay flat on each other stay so: all of them get one shape, the mean of what each would have.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import NamedTuple

from armorplan.geometry.rows.bundles import Bundle, bundles
from armorplan.geometry.rows.rungs import Row
from armorplan.geometry.sizing.flat import hand_of, moved_onto, shared_shape
from armorplan.geometry.sizing.model import AddedJoint, RowSized
from armorplan.geometry.sizing.naming import Namer
from armorplan.geometry.sizing.spacing import Curve, count_for, gaps_mm, is_by_rule
from armorplan.pattern.parts import Hole, Point
from armorplan.pattern.pattern import Pattern

_DIGITS = 3
"""Centres are written to thousandths of a millimetre."""
_LEAST_ROWS = 2
EVEN_MM = 0.2
"""Spacings that differ by no more are meant to be alike."""
_SYMMETRIC = 5
"""A row of so many holes, if they are odd, keeps the one in its middle."""


class Place(NamedTuple):
    """A joint of a row as it is now: its place in the row before, ``None`` of a new one."""

    former: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class RowMade:
    """A row as it is now: what is told of it, where its holes lie, what is new and what is gone."""

    told: RowSized
    holes: Mapping[str, Hole]
    added: tuple[AddedJoint, ...]
    dropped: tuple[str, ...]


def matched(
    pattern: Pattern,
    spots: dict[str, Point],
    growing: Collection[str],
    named: Collection[str],
    held: Collection[Collection[str]] = (),
) -> Iterator[RowMade]:
    """Yield each row whose layers grow, with its spacing matched; ``spots`` is brought up to date.

    Args:
        pattern: as it was drawn.
        spots: by hole, where it comes to lie if it only goes with its own part.
        growing: ids of the parts that grow in width or height.
        named: joints that something of the maker's names: they are never taken out.
        held: ids of holes that move as one.
    """
    settled: set[str] = set()
    namer = Namer(pattern)
    for bundle in bundles(pattern):
        row = _Matching(bundle, spots, settled, held)
        if not row.is_between(growing):
            continue
        made = row.made(pattern, named, namer)
        spots.update({hole.id: hole.centre for hole in made.holes.values()})
        settled.update(made.holes)
        yield made


class _Matching:
    """One row under matching."""

    def __init__(
        self,
        bundle: Bundle,
        spots: Mapping[str, Point],
        settled: Collection[str],
        held: Collection[Collection[str]],
    ) -> None:
        self._bundle = bundle
        self._spots = spots
        self._held = held
        full = [row for row in bundle.rows if len(bundle.holes(row)) == len(bundle.joints)]
        # What an earlier row settled leads; else the innermost layer does.
        first = [row for row in full if any(h.id in settled for h in bundle.holes(row))]
        self.rows = [*first, *(row for row in reversed(full) if row not in first)]
        self._is_led = bool(first)

    def is_between(self, growing: Collection[str]) -> bool:
        """Tell whether two or more layers pass all of it, and all of these grow."""
        several = len(self.rows) >= _LEAST_ROWS and len(self._bundle.joints) > 1
        return several and all(row.part in growing for row in self.rows)

    def made(self, pattern: Pattern, named: Collection[str], namer: Namer) -> RowMade:
        """Return the row in its new size."""
        lead = self.rows[0]
        before = self._before(lead)
        now = self._evened(lead)
        fixed = _fixed(self._bundle, self.rows, pattern, named)
        places, spots = [Place(0)], [now[0]]
        recount = (
            self._bundle.sewn
            and is_by_rule(gaps_mm(before))
            and _like(self._bundle, self.rows, pattern)
        )
        curve = Curve(now)
        for start, end in pairwise(fixed):
            stretch, count, inner = now[start : end + 1], end - start, now[start + 1 : end]
            if recount and not is_by_rule(gaps_mm(stretch)):
                count = count_for(gaps_mm(stretch))
                inner = curve.even(now[start], now[end], count)
            places += [*(Place(former) for former in _formers(start, end, count)), Place(end)]
            spots += [*inner, now[end]]
        return self._finished(pattern, namer, places, spots)

    def _finished(
        self, pattern: Pattern, namer: Namer, places: list[Place], lead: list[Point]
    ) -> RowMade:
        layers = self._layers(places, lead)
        layers = {row: [_rounded(spot) for spot in spots] for row, spots in layers.items()}
        like = _like(self._bundle, self.rows, pattern)
        joints, holes, added = list[str](), dict[str, Hole](), list[AddedJoint]()
        for at, place in enumerate(places):
            if place.former is not None:
                joints.append(self._bundle.joints[place.former])
                holes |= self._moved(place.former, layers, at)
                continue
            new, fresh = self._new(pattern, namer, like or "", joints[-1])
            joints.append(new.id)
            added.append(new)
            holes |= {hole.id: _at(hole, layers[row][at]) for row, hole in fresh.items()}
        kept = {place.former for place in places}
        gone = tuple(j for n, j in enumerate(self._bundle.joints) if n not in kept)
        return RowMade(
            told=self._told(tuple(joints), places, layers),
            holes=holes,
            added=tuple(added),
            dropped=gone,
        )

    def _layers(self, places: list[Place], lead: list[Point]) -> dict[Row, list[Point]]:
        """Return where the holes of each layer lie, by the spacing of the leading one."""
        first, others = self.rows[0], self.rows[1:]
        hands = {row: hand_of(self._before(first), self._before(row)) for row in others}
        free = {row: self._stepped(row, places, lead) for row in others}
        flat = [(free[row], hand) for row, hand in hands.items() if hand]
        if flat and not self._is_led:
            lead = shared_shape(lead, flat)
        found = {first: lead}
        for row, hand in hands.items():
            if hand:
                found[row] = moved_onto(lead, free[row], hand)
            else:
                found[row] = self._stepped(row, places, lead)
        return found

    def _stepped(self, row: Row, places: list[Place], lead: list[Point]) -> list[Point]:
        return Curve(self._now(row)).stepped(self._gaps(row, places, gaps_mm(lead)))

    def _evened(self, row: Row) -> list[Point]:
        """Return where the holes of the leading layer lie: evenly where they did, on their curve."""
        now, before = self._now(row), gaps_mm(self._before(row))
        own = {hole.id for hole in self._bundle.holes(row)}
        held = any(len(own.intersection(group)) > 1 for group in self._held)
        if self._is_led or held or max(before) - min(before) > EVEN_MM:
            return now
        return [now[0], *Curve(now).even(now[0], now[-1], len(before)), now[-1]]

    def _moved(self, former: int, layers: Mapping[Row, list[Point]], at: int) -> dict[str, Hole]:
        rung = self._bundle.rungs[former]
        return {rung[row].id: _at(rung[row], spots[at]) for row, spots in layers.items()}

    def _new(
        self, pattern: Pattern, namer: Namer, like: str, after: str
    ) -> tuple[AddedJoint, dict[Row, Hole]]:
        rung = self._bundle.rungs[self._bundle.joints.index(like)]
        rows = {hole.id: row for row, hole in rung.items()}
        ids = {hole: namer.next_hole(hole) for hole in pattern.joint(like).stack}
        seam = self._bundle.id
        joint = AddedJoint(
            id=namer.next_joint(like), seam=seam, like=like, after=after, stack=tuple(ids.values())
        )
        fresh = {row: _named(rung[row], ids[hole]) for hole, row in rows.items()}
        return joint, fresh

    def _before(self, row: Row) -> list[Point]:
        return [hole.centre for hole in self._bundle.holes(row)]

    def _now(self, row: Row) -> list[Point]:
        return [self._spots[hole.id] for hole in self._bundle.holes(row)]

    def _gaps(self, row: Row, places: Sequence[Place], lead: Sequence[float]) -> list[float]:
        own, led = gaps_mm(self._before(row)), gaps_mm(self._before(self.rows[0]))
        return _following(own, led, places, lead)

    def _told(
        self, joints: tuple[str, ...], places: Sequence[Place], layers: Mapping[Row, list[Point]]
    ) -> RowSized:
        lead = gaps_mm(layers[self.rows[0]])
        before = gaps_mm(self._before(self.rows[0]))
        off = [
            abs(gap - asked)
            for row in self.rows[1:]
            for gap, asked in zip(gaps_mm(layers[row]), self._gaps(row, places, lead), strict=True)
        ]
        return RowSized(
            seam=self._bundle.id if self._bundle.sewn else "",
            name=self._bundle.name,
            parts=tuple(row.part for row in self.rows),
            joints=joints,
            count=len(self._bundle.joints),
            before_mm=(min(before), max(before)),
            after_mm=(min(lead), max(lead)),
            residual_mm=max(off),
        )


def _following(
    own: Sequence[float], led: Sequence[float], places: Sequence[Place], lead: Sequence[float]
) -> list[float]:
    """Return the spacing of a layer: the leading one's, and by as much other as it was.

    Where holes were added or taken out, the difference of the stretch is shared evenly.
    """
    found: list[float] = []
    for start, end in pairwise(n for n, p in enumerate(places) if p.former is not None):
        first, last = places[start].former or 0, places[end].former or 0
        more = sum(own[first:last]) - sum(led[first:last])
        found += [lead[n] + more / (end - start) for n in range(start, end)]
    return found


def _like(bundle: Bundle, rows: Sequence[Row], pattern: Pattern) -> str | None:
    """Return a joint that passes just the layers of the row, which new ones are made like."""
    for joint, rung in zip(bundle.joints, bundle.rungs, strict=True):
        if {rung[row].id for row in rows} == set(pattern.joint(joint).stack):
            return joint
    return None


def _fixed(
    bundle: Bundle, rows: Sequence[Row], pattern: Pattern, named: Collection[str]
) -> list[int]:
    """Return the places of joints that stay: ends, the middle of an odd row, and special ones."""
    last = len(bundle.joints) - 1
    stays = {0, last}
    if last + 1 >= _SYMMETRIC and last % 2 == 0:
        stays.add(last // 2)
    for at, joint in enumerate(bundle.joints):
        held = {bundle.rungs[at][row].id for row in rows}
        if joint in named or held != set(pattern.joint(joint).stack):
            stays.add(at)
    return sorted(stays)


def _formers(start: int, end: int, count: int) -> list[int | None]:
    """Return which former joints stand inside a stretch that now has so many gaps."""
    had = end - start
    if count <= had:
        return [start + round(n * had / count) for n in range(1, count)]
    found: list[int | None] = [None] * (count - 1)
    for n in range(1, had):
        found[round(n * count / had) - 1] = start + n
    return found


def _rounded(spot: Point) -> Point:
    return round(spot[0], _DIGITS), round(spot[1], _DIGITS)


def _at(hole: Hole, centre: Point) -> Hole:
    return replace(hole, centre=centre)


def _named(hole: Hole, name: str) -> Hole:
    return replace(hole, id=name)
