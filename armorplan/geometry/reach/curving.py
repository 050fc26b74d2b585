"""Whether a finished shell may curve inwards somewhere: in doubt it does.

Along a row each plate's edge turns towards its leather or away from it. Where both together turn
away the leather is drawn into a saddle (Gauss and Bonnet): the waist of an hourglass, a neck
that flares over the shoulders. Where they turn towards it, or one as much as the other turns away,
the shell curves outwards or not at all. A row that goes on over several plates is read stretch by
stretch, and where two of them meet by the corners that come together there.
A plate that is laid on another by a row that fits it changes nothing. Reflex corners of an outline
on a free edge are only a wavy mouth; on a row they are the tip of a gore: a saddle. A shell with
three mouths or more has a fork in it as a rule.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import atan2, degrees, dist, inf, sqrt
from statistics import median

from armorplan.geometry.placing import fit
from armorplan.geometry.reach.frames import frames
from armorplan.geometry.reach.laps import deep_mm
from armorplan.geometry.reach.part_net import leather
from armorplan.geometry.reach.rims import Mouth
from armorplan.geometry.reach.shells import Cut, Leg, Line, Rung, ShellCut
from armorplan.pattern.parts import Point

SADDLE_DEG = 8.0
"""Rows are punched by hand: so much of a turn away from the leather means nothing."""
FITS_MM = 1.0
"""A row whose holes miss by less than this is laid on without drawing anything: so well one punches."""
FITS = 0.01
"""The same as a share of the row's length: a bow of so much turns it by less than ``SADDLE_DEG``."""
TIP_DEG = 25.0
"""A corner on a row that points into its plate by more than this is a gore's."""
MOUTH = 0.1
"""A mouth shorter than this share of the longest is a gap at the end of a row."""
LAP = 0.4
"""A lap is no wider beyond its row than this share of its plate's usual width, 2 A / edge."""
ALIKE = 0.75
"""Leather that goes on this share as far on one side of a row as on the other lies on both."""
TIP_OFF = 0.25
"""So far from a free edge a corner is no tip but of that edge, as a share of √A."""
_MOUTHS = 3
_LEAST_TURN = 3


def curves_inwards(cut: ShellCut, found: Sequence[Mouth]) -> bool:
    """Tell whether a shell curves inwards, or may: then nothing of it is ever called *cannot*."""
    if cut.doubtful or _is_forked(found):
        return True
    cuts = {part.part: part for part in cut.parts}
    if len(cuts) > 1 and _loosely_held(cut):
        return True
    if any(_is_saddle(line, cuts, cut.lines) for line in cut.lines):
        return True
    return any(_has_tip(part, cut, found) for part in cut.parts)


def _is_forked(found: Sequence[Mouth]) -> bool:
    lengths = [mouth.rim.length_mm for mouth in found]
    return sum(length >= MOUTH * max(lengths) for length in lengths) >= _MOUTHS


def _loosely_held(cut: ShellCut) -> bool:
    """Tell whether a plate hangs on single joints only, so that shapes do not tell how it lies."""
    laid = {frame.here[0] for frame in frames(cut)}
    return any(part.part not in laid for part in cut.parts)


def _is_saddle(line: Line, cuts: dict[str, Cut], lines: Sequence[Line]) -> bool:
    """Tell whether a row draws its plates into a saddle, on a stretch or where its plates change."""
    legs = list(dict.fromkeys(leg for rung in line.rungs for leg, _ in rung.legs))
    return any(
        _falls(_along_pair(line, one, other, cuts))
        for at, one in enumerate(legs)
        for other in legs[at + 1 :]
    ) or any(_falls(_past_changes(line, leg, cuts, lines)) for leg in legs)


def _falls(turns: Iterable[float]) -> bool:
    """Tell whether turns towards the leather, added up, fall back: there it turns away from it."""
    sum_deg = most_deg = 0.0
    for turn in turns:
        sum_deg += turn
        most_deg = max(most_deg, sum_deg)
        if sum_deg < most_deg - SADDLE_DEG:
            return True
    return False


def _along_pair(line: Line, one: Leg, other: Leg, cuts: dict[str, Cut]) -> list[float]:
    """Return the turns of both plates together at the holes of a stretch; none where it fits."""
    both = [(a, b) for rung in line.rungs if (a := rung.on(one)) and (b := rung.on(other))]
    if len(both) < _LEAST_TURN:
        return []
    rows = [a for a, _ in both], [b for _, b in both]
    unlike = cuts[one[0]].turned != cuts[other[0]].turned
    laid = fit(rows[0], [(x, -y) for x, y in rows[1]] if unlike else rows[1])
    length_mm = sum(dist(a, b) for a, b in pairwise(rows[0]))
    if laid is None or laid.worst_mm <= max(FITS_MM, FITS * length_mm):
        return []
    sides = [_side(cuts[leg[0]], row) for leg, row in zip((one, other), rows, strict=True)]
    if 0 in sides:
        return [-inf]
    turns = zip(*map(_turns_deg, rows), strict=True)
    return [sides[0] * first + sides[1] * second for first, second in turns]


def _past_changes(
    line: Line, leg: Leg, cuts: dict[str, Cut], lines: Sequence[Line]
) -> list[float]:
    """Return the turns where a row goes on over one plate and its other plate changes.

    There the turn of the plate that goes on is held against the corners of the two that meet; where
    no row joins these, a slit runs up to the spot, and nothing is drawn there.
    """
    through = [(rung, spot) for rung in line.rungs if (spot := rung.on(leg))]
    side = _side(cuts[leg[0]], [spot for _, spot in through])
    found = []
    for at in range(len(through) - 3):
        four = through[at : at + 4]
        corners = _corners_deg([rung for rung, _ in four], leg, lines)
        if corners is not None:
            turned = side * sum(_turns_deg([spot for _, spot in four]))
            found.append(turned + 180.0 - corners if side else -inf)
    # Each change is looked at for itself: between two of them the stretch is.
    return [min(found)] if found else []


def _corners_deg(rungs: Sequence[Rung], leg: Leg, lines: Sequence[Line]) -> float | None:
    """Return both plates' corners together where the second and third of four joints part them."""
    legs = [{held for held, _ in rung.legs if held != leg} for rung in rungs]
    if legs[1] & legs[2]:
        return None
    for one in sorted(legs[0] & legs[1]):
        for other in sorted(legs[2] & legs[3]):
            corner = _meeting(rungs, one, other, lines)
            if corner is not None:
                return corner
    left, right = legs[0] & legs[1], legs[2] & legs[3]
    joined = any(_shares(row, left or legs[1], right or legs[2]) for row in lines)
    return inf if joined else None


def _shares(row: Line, some: set[Leg], others: set[Leg]) -> bool:
    parts = {leg[0] for rung in row.rungs for leg, _ in rung.legs}
    return any(leg[0] in parts for leg in some) and any(leg[0] in parts for leg in others)


def _meeting(rungs: Sequence[Rung], one: Leg, other: Leg, lines: Sequence[Line]) -> float | None:
    for row in lines:
        seam = [rung for rung in row.rungs if rung.on(one) and rung.on(other)]
        if len(seam) > 1 and not {rung.joint for rung in seam} & {rung.joint for rung in rungs}:
            return sum(
                _corner(seam, leg, [s for r in pair if (s := r.on(leg))])
                for leg, pair in ((one, rungs[1::-1]), (other, rungs[2:]))
            )
    return None


def _corner(seam: list[Rung], leg: Leg, pair: list[Point]) -> float:
    """Return the angle of a plate between a seam, from its end near the row, and the row."""
    way = [spot for rung in seam if (spot := rung.on(leg))]
    if dist(way[-1], pair[0]) < dist(way[0], pair[0]):
        way.reverse()
    ux, uy, wx, wy = (
        way[1][0] - way[0][0],
        way[1][1] - way[0][1],
        pair[1][0] - pair[0][0],
        pair[1][1] - pair[0][1],
    )
    return degrees(abs(atan2(ux * wy - uy * wx, ux * wx + uy * wy)))


def _turns_deg(row: Sequence[Point]) -> Iterator[float]:
    """Yield by how much a row turns at each of its inner holes, in degrees."""
    for a, b, c in zip(row, row[1:], row[2:], strict=False):
        ux, uy, wx, wy = b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]
        yield degrees(atan2(ux * wy - uy * wx, ux * wx + uy * wy))


def _side(part: Cut, row: Sequence[Point]) -> int:
    """Return on which side of a row its plate's leather lies, as the sign of a turn towards it.

    0 where it goes on for long on both sides: the row is no edge of the plate.
    """
    whole = leather(part.ring)
    ends = [spot for at, spot in enumerate(row) if not at or dist(spot, row[at - 1]) > 0]
    if whole is None or len(ends) <= 1:
        return 0
    left_mm, right_mm = (median(deep_mm(whole.area, ends, sign)) for sign in (1, -1))
    lap_mm, wide_mm = sorted((left_mm, right_mm))
    if lap_mm > min(ALIKE * wide_mm, LAP * 2 * whole.area.area / whole.area.length):
        return 0
    return 1 if left_mm > right_mm else -1


def _has_tip(part: Cut, cut: ShellCut, found: Sequence[Mouth]) -> bool:
    """Tell whether an outline points into its plate where a row runs, away from every mouth.

    Where the plate is closed on itself there, its corner is the tip of a cone: no leather is added.
    """
    from shapely import LineString, MultiLineString, Point, distance

    whole = leather(part.ring)
    if whole is None or not whole.reflex or not cut.lines:
        return False
    free = [LineString(a.spots) for mouth in found for a in mouth.arcs if a.part == part.part]
    edge, off_mm = MultiLineString(free), TIP_OFF * sqrt(whole.area.area)
    held = [frame for frame in frames(cut) if frame.here[0] == part.part]
    for spot in _sharp(whole.ring, whole.reflex):
        nearest = min(held, key=lambda frame: frame.from_mm(spot), default=None)
        round_itself = nearest is not None and nearest.there[0] == part.part
        if not round_itself and (not free or distance(edge, Point(spot)) > off_mm):
            return True
    return False


def _sharp(ring: Sequence[Point], reflex: Sequence[Point]) -> Iterator[Point]:
    held = set(reflex)
    for a, b, c in zip((ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True):
        if b in held and any(abs(turn) > TIP_DEG for turn in _turns_deg((a, b, c))):
            yield b
