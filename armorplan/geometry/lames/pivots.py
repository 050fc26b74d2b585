"""Whether the two pivots of a lame lie on one axis square to the limb, as an angle.

A pivot too high or too low hardly changes how far the two lie apart, so that spacing cannot see
it; what tells it is the lame's other pivots, the axis it is bent about and its own middle line.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import sqrt

from armorplan.geometry.lames.articulation import skew_deg
from armorplan.geometry.lames.cuts import reach_mm
from armorplan.geometry.lames.links import Link, PairKey
from armorplan.geometry.lames.margins import Around, around
from armorplan.geometry.lames.mirrors import Along, ways_along
from armorplan.geometry.lames.seats import Seat
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Hole, Part, Point, Ring
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

_SOURCE = "geometry; pivots directly opposite each other are common practice, no source"
_KEEPS, _LACKS = 0.25, 0.5
"""A pivot keeps a margin of others within so much of what is off, and lacks it beyond so much."""
_LEVEL_MM = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Skew:
    """Two pivots of a lame against one direction along the limb.

    Attributes:
        high_mm: how much higher the second pivot lies than the first.
    """

    seat: Seat
    along: Along
    high_mm: float

    @property
    def width_mm(self) -> float:
        """How far apart the pivots lie square to the limb, in mm."""
        return sqrt(max(0.0, self.seat.span_mm**2 - self.high_mm**2))

    @property
    def skew_deg(self) -> float:
        """How far the axis is off square, in degrees."""
        return skew_deg(abs(self.high_mm), self.width_mm)

    @property
    def spacing_mm(self) -> float:
        """By how much it makes the pivots lie further apart, in mm."""
        return self.seat.span_mm - self.width_mm


def seats_of(links: Mapping[PairKey, Link]) -> dict[str, tuple[Seat, ...]]:
    """Return the pairs of pivots of each plate, each pair of holes once."""
    found: dict[str, dict[frozenset[str], Seat]] = defaultdict(dict)
    for link in links.values():
        for seat in (link.outer, link.inner):
            found[seat.part.id].setdefault(frozenset((seat.first.id, seat.second.id)), seat)
    return {part: tuple(seats.values()) for part, seats in found.items()}


def _skew(seat: Seat, along: Along) -> Skew:
    (x0, y0), (x1, y1) = seat.first.centre, seat.second.centre
    high = (x1 - x0) * along.way[0] + (y1 - y0) * along.way[1]
    return Skew(seat=seat, along=along, high_mm=high)


def _judged(pattern: Pattern, seat: Seat, others: tuple[Seat, ...]) -> Skew | None:
    """Return the skew by the reference that speaks best for the pivots; ``None`` without any.

    A pivot is off only where nothing that tells the direction clears it.
    """
    ways = ways_along(pattern, seat, others)
    own = [way for way in ways if way.own]
    skews = [_skew(seat, way) for way in own or ways]
    return min(skews, key=lambda skew: abs(skew.high_mm), default=None)


def _off(skew: Skew, beside: tuple[Hole, ...], outlines: Mapping[str, Ring]) -> Hole | None:
    """Return which of two pivots is the one that is off: it alone keeps no margin others keep.

    ``None`` where it may be either.
    """
    way, high = skew.along.way, abs(skew.high_mm)
    usual = [reach_mm(outlines[hole.part], hole.centre, way) for hole in beside]
    if not usual:
        return None
    pivots = (skew.seat.first, skew.seat.second)
    first, second = (
        min(abs(reach_mm(skew.seat.part.outline, hole.centre, way) - each) for each in usual)
        for hole in pivots
    )
    if min(first, second) > high * _KEEPS or max(first, second) < high * _LACKS:
        return None
    return pivots[0] if first > second else pivots[1]


def _which(
    skew: Skew, tiers: Iterable[tuple[Hole, ...]], outlines: Mapping[str, Ring]
) -> Hole | None:
    """Return which pivot is off by the lame's other pivots, else its neighbours', else all."""
    own = (skew.seat.first, skew.seat.second)
    for tier in tiers:
        off = _off(skew, tuple(hole for hole in tier if hole not in own), outlines)
        if off is not None:
            return off
    return None


def _move(skew: Skew, hole: Hole) -> Point:
    """Return where a pivot would lie on the axis of the other."""
    by = skew.high_mm if hole == skew.seat.first else -skew.high_mm
    x, y = hole.centre
    return x + by * skew.along.way[0], y + by * skew.along.way[1]


def _way_words(skew: Skew, hole: Hole) -> str:
    rises = (hole == skew.seat.first) == (skew.high_mm > 0)
    return "up the limb" if rises else "down the limb"


def _gravity(skew: Skew) -> Severity:
    return Severity.NOTE if skew.along.weak else Severity.WARNING


def _finding(skew: Skew, off: Hole | None, constants: Constants) -> Finding:
    seat, high = skew.seat, abs(skew.high_mm)
    first, second = seat.first.id, seat.second.id
    play = constants.soft_play.value
    if off is None:
        subject = f"One of the pivots '{first}' and '{second}' of the {seat.part.name}"
        move = " or ".join(
            f"'{hole.id}' {high:.1f} mm {_way_words(skew, hole)}"
            for hole in (seat.first, seat.second)
        )
    else:
        subject = f"The pivot '{off.id}' of the {seat.part.name}"
        move = f"'{off.id}' {high:.1f} mm {_way_words(skew, off)}"
    return Finding(
        code="pivot-off-axis",
        severity=_gravity(skew),
        text=f"{subject} lies {high:.1f} mm off the axis: against {skew.along.words} the two are "
        f"{skew.skew_deg:.1f}° off square, and the lame binds. Soft leather forgives {play:g} mm.",
        remedy=f"Move {move}. In leather already cut, plug the hole and punch it anew, or make it oval.",
        about=(seat.part.id, first, second),
    )


def _figures(skews: Iterable[Skew]) -> Iterator[Figure]:
    for skew in skews:
        yield Figure(
            name=f"'{skew.seat.first.id}' and '{skew.seat.second.id}' off square",
            value=skew.skew_deg,
            unit="°",
            formula=f"atan({abs(skew.high_mm):.2f} / {skew.width_mm:.1f}) = {skew.skew_deg:.2f}°, "
            f"against {skew.along.words}",
            source=_SOURCE,
        )
        yield Figure(
            name="what their spacing shows of it",
            value=skew.spacing_mm,
            unit="mm",
            formula=f"{skew.seat.span_mm:.1f} - √({skew.seat.span_mm:.1f}² - {abs(skew.high_mm):.1f}²) "
            f"= {skew.spacing_mm:.2f} mm",
            source="circle geometry",
        )


def _marks(seats: tuple[Seat, ...], off: list[tuple[Skew, Hole | None]]) -> Iterator[Mark]:
    bad = {id(skew.seat): _gravity(skew) for skew, _ in off}
    for seat in seats:
        yield Mark(
            kind=MarkKind.LINE,
            part=seat.part.id,
            spots=(seat.first.centre, seat.second.centre),
            severity=bad.get(id(seat)),
        )
    for skew, hole in off:
        moved = hole or skew.seat.first
        yield Mark(
            kind=MarkKind.MOVE,
            part=skew.seat.part.id,
            spots=(moved.centre, _move(skew, moved)),
            label=f"{abs(skew.high_mm):.1f} mm",
            severity=_gravity(skew),
        )


def _of_part(
    seats: tuple[Seat, ...], skews: tuple[Skew, ...], near: Around, constants: Constants
) -> Measure:
    part = seats[0].part
    play = constants.soft_play.value
    off: list[tuple[Skew, Hole | None]] = []
    for skew in skews:
        if abs(skew.high_mm) > play and not _told(skew, off):
            mine = tuple(h for o in _others(skew.seat, seats) for h in (o.first, o.second))
            off.append((skew, _which(skew, (mine, *near.tiers), near.outlines)))
    worst = max(skews, key=lambda skew: abs(skew.high_mm), default=None)
    return Measure(
        id=f"lames:pivots:{part.id}",
        topic=Topic.LAMES,
        title=f"pivots of the {part.name}",
        verdict=_verdict(worst, off),
        text=_text(part, worst),
        figures=tuple(_figures(skews)),
        findings=tuple(_finding(skew, hole, constants) for skew, hole in off),
        marks=tuple(_marks(seats, off)),
        about=(part.id, *(h.id for seat in seats for h in (seat.first, seat.second))),
    )


def _told(skew: Skew, off: list[tuple[Skew, Hole | None]]) -> bool:
    """Tell whether two pairs are only askew to each other, which is told of the first."""
    return not skew.along.own and bool(off)


def _others(seat: Seat, seats: tuple[Seat, ...]) -> tuple[Seat, ...]:
    mine = {seat.first.id, seat.second.id}
    return tuple(each for each in seats if mine.isdisjoint((each.first.id, each.second.id)))


def _verdict(worst: Skew | None, off: list[tuple[Skew, Hole | None]]) -> str:
    if worst is None:
        return "nothing to hold them against"
    if not off:
        level = abs(worst.high_mm) < _LEVEL_MM
        return "on one axis" if level else f"on one axis, within {abs(worst.high_mm):.1f} mm"
    skew, hole = off[0]
    return f"{'a pivot' if hole is None else hole.id} is {abs(skew.high_mm):.1f} mm off its axis"


def _text(part: Part, worst: Skew | None) -> str:
    if worst is None:
        return (
            f"The {part.name} has no second pair of pivots, no bend with an axis and no middle line, "
            "so that the drawing does not tell whether its pivots lie square to the limb."
        )
    if abs(worst.high_mm) < _LEVEL_MM:
        return (
            f"Against {worst.along.words}, the pivots of the {part.name} lie square to the limb."
        )
    return (
        f"Against {worst.along.words}, one pivot of the {part.name} lies {abs(worst.high_mm):.1f} mm higher "
        f"than the other: {worst.skew_deg:.1f}° off square. Their spacing shows {worst.spacing_mm:.2f} mm "
        "of it."
    )


def skews_of(pattern: Pattern, links: Mapping[PairKey, Link]) -> dict[str, tuple[Skew, ...]]:
    """Return for each plate how each pair of its pivots lies; a pair that nothing tells is left out."""
    found: dict[str, tuple[Skew, ...]] = {}
    for part, seats in seats_of(links).items():
        judged = (_judged(pattern, seat, _others(seat, seats)) for seat in seats)
        found[part] = tuple(skew for skew in judged if skew is not None)
    return found


def askew_mm(skews: Mapping[str, tuple[Skew, ...]], constants: Constants) -> dict[str, float]:
    """Return by how much the middle of a plate's pivots is out where one of them is off its axis."""
    highest = {part: max((abs(s.high_mm) for s in of), default=0.0) for part, of in skews.items()}
    play = constants.soft_play.value
    return {part: high / 2 for part, high in highest.items() if high > play}


def pivot_measures(
    skews: Mapping[str, tuple[Skew, ...]], links: Mapping[PairKey, Link], constants: Constants
) -> Iterator[Measure]:
    """Yield for each plate on pivots whether each two of them lie on one axis."""
    near = around(links)
    for part, seats in sorted(seats_of(links).items()):
        yield _of_part(seats, skews[part], near[part], constants)
