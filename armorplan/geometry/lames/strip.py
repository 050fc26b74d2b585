"""A strip of positions: a chain of lames seen from the side, from the straight limb to the bent one.

Each plate keeps its pivots, and turns about those it shares with the plate above it. Its edge at
the back runs round the pivots as the plate's back does, at the lever of the inner plate, so that
what is seen of an overlap is what is reckoned: overlap less lever × angle.
"""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil, cos, radians, sin

from armorplan.geometry.lames.chains import Turn
from armorplan.geometry.lames.left import capacity_deg, gravity, left_mm
from armorplan.geometry.lames.links import Link
from armorplan.geometry.pictures import Bar, LamesPicture, Overlap, Position
from armorplan.pattern.parts import Point
from armorplan.workshop.constants import Constants

_SHARES = (0.0, 0.25, 0.5, 0.75, 1.0)
_USUAL_DEG = 90.0
_MOST_ROUND = 1.3
"""A back runs round its pivots by no more than this many levers."""
_STEP = radians(15)
"""Between the spots of a back that runs round."""


def _turned(spot: Point, about: Point, angle_deg: float) -> Point:
    """Turn a spot so that what lies at the back moves down the limb."""
    x, y, angle = spot[0] - about[0], spot[1] - about[1], radians(angle_deg)
    return (
        about[0] + x * cos(angle) - y * sin(angle),
        about[1] + x * sin(angle) + y * cos(angle),
    )


@dataclass(kw_only=True)
class _Plate:
    """A plate before anything turns, in mm: its back from the upper to the lower edge, its pivots."""

    part: str
    name: str
    back: list[Point]
    pivots: list[Point]


def _round(radius_mm: float, lever_mm: float, ups_mm: tuple[float, float]) -> list[Point]:
    """Return the back of a plate round its pivots, from one height above them to another.

    A height is carried round at the lever that is reckoned with; the outer plate lies further out.
    A shallow lame, whose edge lies far from its pivots for its lever, is drawn straight along the limb.
    """
    if max(map(abs, ups_mm)) > lever_mm * _MOST_ROUND:
        return [(radius_mm, -up) for up in ups_mm]
    first, last = (up / lever_mm for up in ups_mm)
    steps = max(1, ceil(abs(first - last) / _STEP))
    angles = (first + (last - first) * n / steps for n in range(steps + 1))
    return [(radius_mm * cos(angle), -radius_mm * sin(angle)) for angle in angles]


def _radius_mm(link: Link, part: str) -> float:
    return link.lever_mm + (link.apart_mm if link.outer.part.id == part else 0.0)


def _above(turn: Turn, link: Link, at_mm: float) -> list[Point]:
    """Return the end of the upper plate's back, from the height of the pivots down to its edge."""
    low = (link.seat(turn.upper).edges_mm() or (0.0, 0.0))[0]
    ends = (0.0, low) if low <= 0 else (low, low)
    spots = _round(_radius_mm(link, turn.upper), link.lever_mm, ends)
    return [(x, y + at_mm) for x, y in spots]


def _below(turn: Turn, link: Link, at_mm: float) -> list[Point]:
    """Return the beginning of the lower plate's back, from its edge down to the pivots' height."""
    high = (link.seat(turn.lower).edges_mm() or (0.0, 0.0))[1]
    ends = (high, 0.0) if high >= 0 else (high, high)
    spots = _round(_radius_mm(link, turn.lower), link.lever_mm, ends)
    return [(x, y + at_mm) for x, y in spots]


def _plates(turns: tuple[Turn, ...]) -> list[_Plate] | None:
    """Return the plates of a chain where each lies at rest; ``None`` where a link is missing."""
    found: list[_Plate] = []
    at_mm, last = 0.0, None
    for turn in turns:
        link = turn.link
        if link is None or turn.overlap_mm is None:
            return None
        upper, lower = link.seat(turn.upper), link.seat(turn.lower)
        if last is None:
            top = (_radius_mm(link, turn.upper), -(upper.edges_mm() or (0.0, 0.0))[1])
            found.append(_Plate(part=turn.upper, name=upper.part.name, back=[top], pivots=[]))
        else:
            at_mm -= last.height_mm(upper)
            found[-1].back.pop()  # The foot of a last plate: this one is not the last.
        found[-1].back += _above(turn, link, at_mm)
        found[-1].pivots.append((0.0, at_mm))
        foot = (_radius_mm(link, turn.lower), at_mm - (lower.edges_mm() or (0.0, 0.0))[0])
        back = [*_below(turn, link, at_mm), foot]
        found.append(
            _Plate(part=turn.lower, name=lower.part.name, back=back, pivots=[(0.0, at_mm)])
        )
        last = lower
    return found


def _bars(plates: list[_Plate], angles_deg: list[float]) -> tuple[Bar, ...]:
    """Turn each plate about its upper pivots, after all the plates above it."""
    bars: list[Bar] = []
    turns: list[tuple[Point, float]] = []
    for place, plate in enumerate(plates):
        if place:
            turns.append((plate.pivots[0], angles_deg[place - 1]))

        def laid(spot: Point, done: tuple[tuple[Point, float], ...] = tuple(turns)) -> Point:
            for about, angle in reversed(done):
                spot = _turned(spot, about, angle)
            return spot

        bars.append(
            Bar(
                part=plate.part,
                name=plate.name,
                back=tuple(map(laid, plate.back)),
                pivots=tuple(map(laid, plate.pivots)),
            )
        )
    return tuple(bars)


@lru_cache(maxsize=1024)
def strip(turns: tuple[Turn, ...], constants: Constants) -> LamesPicture | None:
    """Return the positions of a chain; ``None`` where not all of it hangs on pivots.

    Where no movement is declared, it is bent until the first gap would open, each pair as far.
    """
    plates = _plates(turns)
    if plates is None:
        return None
    ends = [_end_deg(turn) for turn in turns]
    return LamesPicture(
        positions=tuple(
            Position(
                angle_deg=sum(ends) * share,
                bars=_bars(plates, [end * share for end in ends]),
                overlaps=tuple(
                    _overlap(turn, end, share, constants)
                    for turn, end in zip(turns, ends, strict=True)
                ),
            )
            for share in _SHARES
        )
    )


def _end_deg(turn: Turn) -> float:
    if turn.turn_deg is not None:
        return turn.turn_deg
    return min(_USUAL_DEG, capacity_deg(turn))


def _overlap(turn: Turn, end_deg: float, share: float, constants: Constants) -> Overlap:
    left = left_mm(replace(turn, turn_deg=end_deg), share) or 0.0
    outer, inner = (turn.upper, turn.lower) if turn.link is None else turn.link.parts
    return Overlap(outer=outer, inner=inner, overlap_mm=left, severity=gravity(left, constants))
