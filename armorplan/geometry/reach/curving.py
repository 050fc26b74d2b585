"""Whether a finished shell may curve inwards somewhere: in doubt it does.

Along a row each plate's edge turns towards its leather or away from it. Where both together turn
away the leather is drawn into a saddle (Gauss and Bonnet): the waist of an hourglass. Where they
turn towards it, or one as much as the other turns away, the shell curves outwards or not at all.
A plate that is laid on another by a row that fits it changes nothing. Reflex corners of an outline
on a free edge are only a wavy mouth; on a row they are the tip of a gore: a saddle. A shell with
three mouths or more has a fork in it as a rule.
"""

from collections.abc import Iterator, Sequence
from math import atan2, degrees, dist

from armorplan.geometry.placing import fit
from armorplan.geometry.reach.frames import frames
from armorplan.geometry.reach.part_net import leather
from armorplan.geometry.reach.rims import Mouth
from armorplan.geometry.reach.shells import Cut, Leg, Line, ShellCut
from armorplan.pattern.parts import Point

SADDLE_DEG = 8.0
"""Rows are punched by hand: so much of a turn away from the leather means nothing."""
FITS_MM = 1.0
"""A row whose holes miss by less than this is laid on without drawing anything."""
TIP_DEG = 25.0
"""A corner on a row that points into its plate by more than this is a gore's."""
MOUTH_MM = 60.0
"""A shorter mouth is a gap at the end of a row."""
_MOUTHS = 3
_TIP_OFF_MM = 30.0
_LEAST_TURN = 3


def curves_inwards(cut: ShellCut, found: Sequence[Mouth]) -> bool:
    """Tell whether a shell curves inwards, or may: then nothing of it is ever called *cannot*."""
    if cut.doubtful or sum(mouth.rim.length_mm >= MOUTH_MM for mouth in found) >= _MOUTHS:
        return True
    cuts = {part.part: part for part in cut.parts}
    if len(cuts) > 1 and _loosely_held(cut):
        return True
    if any(_is_saddle(line, cuts) for line in cut.lines):
        return True
    return any(_has_tip(part, cut, found) for part in cut.parts)


def _loosely_held(cut: ShellCut) -> bool:
    """Tell whether a plate hangs on single joints only, so that shapes do not tell how it lies."""
    laid = {frame.here[0] for frame in frames(cut)}
    return any(part.part not in laid for part in cut.parts)


def _is_saddle(line: Line, cuts: dict[str, Cut]) -> bool:
    legs = list(dict.fromkeys(leg for rung in line.rungs for leg, _ in rung.legs))
    whole = [leg for leg in legs if all(rung.on(leg) for rung in line.rungs)]
    if len(whole) < len(legs):
        return len(line.rungs) >= _LEAST_TURN
    rows = {leg: [spot for rung in line.rungs if (spot := rung.on(leg))] for leg in whole}
    first, *others = whole
    for other in others:
        unlike = cuts[first[0]].turned != cuts[other[0]].turned
        faced = [(x, -y) for x, y in rows[other]] if unlike else rows[other]
        laid = fit(rows[first], faced)
        if laid is not None and laid.worst_mm > FITS_MM and _turns_away(first, other, rows, cuts):
            return True
    return False


def _turns_away(one: Leg, other: Leg, rows: dict[Leg, list[Point]], cuts: dict[str, Cut]) -> bool:
    turns = []
    for leg in (one, other):
        side = _side(cuts[leg[0]], rows[leg])
        if side == 0:
            return True
        turns.append([side * turn for turn in _turns_deg(rows[leg])])
    sum_deg = most_deg = 0.0
    for first, second in zip(*turns, strict=True):
        sum_deg += first + second
        most_deg = max(most_deg, sum_deg)
        if sum_deg < most_deg - SADDLE_DEG:
            return True
    return False


def _turns_deg(row: Sequence[Point]) -> Iterator[float]:
    """Yield by how much a row turns at each of its inner holes, in degrees."""
    for a, b, c in zip(row, row[1:], row[2:], strict=False):
        ux, uy, wx, wy = b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]
        yield degrees(atan2(ux * wy - uy * wx, ux * wx + uy * wy))


def _side(part: Cut, row: Sequence[Point]) -> int:
    """Return on which side of a row its plate's leather lies, as the sign of a turn towards it.

    0 where leather lies on both sides much alike: the row is no edge of the plate.
    """
    from shapely import LineString

    whole = leather(part.ring)
    ends = [spot for at, spot in enumerate(row) if not at or dist(spot, row[at - 1]) > 0]
    if whole is None or len(ends) <= 1:
        return 0
    off_mm = 25.0
    way = LineString(ends)
    areas = [
        whole.area.intersection(way.buffer(side * off_mm, single_sided=True)).area
        for side in (1, -1)
    ]
    if min(areas) > 0.75 * max(areas):
        return 0
    # Shapely's left is that of y up; a turn counts positive in the sense in which cross is.
    return 1 if areas[0] > areas[1] else -1


def _has_tip(part: Cut, cut: ShellCut, found: Sequence[Mouth]) -> bool:
    """Tell whether an outline points into its plate where a row runs, away from every mouth.

    Where the plate is closed on itself there, its corner is the tip of a cone: no leather is added.
    """
    from shapely import LineString, MultiLineString, Point, distance

    whole = leather(part.ring)
    if whole is None or not whole.reflex or not cut.lines:
        return False
    free = [LineString(a.spots) for mouth in found for a in mouth.arcs if a.part == part.part]
    edge = MultiLineString(free)
    held = [frame for frame in frames(cut) if frame.here[0] == part.part]
    for spot in _sharp(whole.ring, whole.reflex):
        nearest = min(held, key=lambda frame: frame.from_mm(spot), default=None)
        round_itself = nearest is not None and nearest.there[0] == part.part
        if not round_itself and (not free or distance(edge, Point(spot)) > _TIP_OFF_MM):
            return True
    return False


def _sharp(ring: Sequence[Point], reflex: Sequence[Point]) -> Iterator[Point]:
    held = set(reflex)
    for a, b, c in zip((ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True):
        if b in held and any(abs(turn) > TIP_DEG for turn in _turns_deg((a, b, c))):
            yield b
