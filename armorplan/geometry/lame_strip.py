"""A strip of positions: a chain of lames seen from the side, from the straight limb to the bent one.

Each plate keeps its pivots, and turns about those it shares with the plate above it. Its edge at
the back runs round the pivots as the plate's back does, at the lever of the inner plate, so that
what is seen of an overlap is what is reckoned: overlap less lever × angle.
"""

from dataclasses import replace
from math import cos, radians, sin

from armorplan.geometry.lame_chains import Chain, Turn
from armorplan.geometry.lame_overlaps import capacity_deg, gravity, left_mm
from armorplan.geometry.lame_seats import Seat
from armorplan.geometry.pictures import Bar, LamesPicture, Overlap, Position
from armorplan.pattern.parts import Point

_SHARES = (0.0, 0.25, 0.5, 0.75, 1.0)
_USUAL_DEG = 90.0


def _round(lever_mm: float, up_mm: float) -> Point:
    """Return an edge that lies so far up from the pivots, carried round them; y runs down."""
    if lever_mm <= 0:
        return 0.0, -up_mm
    angle = up_mm / lever_mm
    return lever_mm * cos(angle), -lever_mm * sin(angle)


def _turned(spot: Point, about: Point, angle_deg: float) -> Point:
    """Turn a spot so that what lies at the back moves down the limb."""
    x, y, angle = spot[0] - about[0], spot[1] - about[1], radians(angle_deg)
    return (
        about[0] + x * cos(angle) - y * sin(angle),
        about[1] + x * sin(angle) + y * cos(angle),
    )


class _Plate:
    """A plate with its two edges and its pivots before anything turns, in mm down from the first."""

    def __init__(self, part: str, name: str) -> None:
        self.part, self.name = part, name
        self.top: Point = (0.0, 0.0)
        self.low: Point = (0.0, 0.0)
        self.pivots: list[Point] = []


def _plates(turns: tuple[Turn, ...]) -> list[_Plate] | None:
    """Return the plates of a chain where each lies at rest; ``None`` where a link is missing."""
    found: list[_Plate] = []
    at_mm = 0.0
    for place, turn in enumerate(turns):
        if turn.link is None or turn.overlap_mm is None:
            return None
        upper, lower = turn.link.seat(turn.upper), turn.link.seat(turn.lower)
        if not found:
            found.append(_first(turn, upper))
        else:
            before = turns[place - 1].link
            last = None if before is None else before.seat(turn.upper)
            at_mm += 0.0 if last is None else -last.height_mm(upper)
        lever = turn.link.lever_mm
        edge = (upper.edges_mm() or (0.0, 0.0))[0]
        x, y = _round(lever, edge)
        found[-1].low = x, y + at_mm
        found[-1].pivots.append((0.0, at_mm))
        found.append(_next(turn, lower, at_mm))
    return found


def _first(turn: Turn, seat: Seat) -> _Plate:
    plate = _Plate(turn.upper, seat.part.name)
    lever = 0.0 if turn.link is None else turn.link.lever_mm
    plate.top = lever, -(seat.edges_mm() or (0.0, 0.0))[1]
    return plate


def _next(turn: Turn, seat: Seat, at_mm: float) -> _Plate:
    plate = _Plate(turn.lower, seat.part.name)
    lever = 0.0 if turn.link is None else turn.link.lever_mm
    low, high = seat.edges_mm() or (0.0, 0.0)
    x, y = _round(lever, high)
    plate.top = x, y + at_mm
    plate.low = lever, at_mm - low
    plate.pivots = [(0.0, at_mm)]
    return plate


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
                back=(laid(plate.top), laid(plate.low)),
                pivots=tuple(map(laid, plate.pivots)),
            )
        )
    return tuple(bars)


def strip(chain: Chain, kept_mm: float) -> LamesPicture | None:
    """Return the positions of a chain; ``None`` where not all of it hangs on pivots.

    Where no movement is declared, it is bent until the first gap would open, each pair as far.
    """
    plates = _plates(chain.turns)
    if plates is None:
        return None
    ends = [_end_deg(turn) for turn in chain.turns]
    return LamesPicture(
        positions=tuple(
            Position(
                angle_deg=sum(ends) * share,
                bars=_bars(plates, [end * share for end in ends]),
                overlaps=tuple(
                    _overlap(turn, end, share, kept_mm)
                    for turn, end in zip(chain.turns, ends, strict=True)
                ),
            )
            for share in _SHARES
        )
    )


def _end_deg(turn: Turn) -> float:
    if turn.turn_deg is not None:
        return turn.turn_deg
    return min(_USUAL_DEG, capacity_deg(turn))


def _overlap(turn: Turn, end_deg: float, share: float, kept_mm: float) -> Overlap:
    left = left_mm(replace(turn, turn_deg=end_deg), share) or 0.0
    outer, inner = (turn.upper, turn.lower) if turn.link is None else turn.link.parts
    return Overlap(outer=outer, inner=inner, overlap_mm=left, severity=gravity(left, kept_mm))
