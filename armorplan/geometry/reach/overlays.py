"""Which plates only lie on another, held flat to it: a badge, a star, a doubler. They are no walls.

All that holds such a plate goes through one and the same other, larger plate; by these holes it is
laid on it without being bent, and there it lies on that one's leather. Beneath it there is nothing
to get in to.
"""

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from math import cos, pi, sin
from typing import TYPE_CHECKING

from armorplan.geometry.covers.places import WELL_MM
from armorplan.geometry.placing import Fit, fit
from armorplan.geometry.reach.part_net import leather
from armorplan.pattern.joining import Joint, Motion
from armorplan.pattern.parts import Part, Point, Ring
from armorplan.pattern.pattern import Pattern

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

LAID_ON = 0.8
"""A plate is an overlay where this share of it lies on the other: one that hangs over is a wall."""
SMALLER = 0.75
"""It is no larger than this share of the other: two like plates make a pouch, or a doubled wall."""
_TURNS = 8
"""A plate held by one joint may lie turned: so many turns are looked at."""

_Pairs = tuple[tuple[Point, Point], ...]
"""Where joints pass the one and the other plate."""


def overlays(pattern: Pattern, walls: Mapping[str, Sequence[str]]) -> dict[str, str]:
    """Return by overlay the plate that it lies on, which may be an overlay itself.

    ``walls`` tells by joint the stiff parts it passes, in their order.
    """
    found: dict[str, str] = {}
    held = [each for each in pattern.joints if each.motion is Motion.FIXED and walls[each.id]]
    left = True
    while left:
        left = False
        for part, joints in _held_by(held, walls, found).items():
            on = _lies_on(pattern, part, joints)
            if on:
                found[part], left = on, True
    return found


def _held_by(
    joints: Iterable[Joint], walls: Mapping[str, Sequence[str]], gone: Mapping[str, str]
) -> dict[str, list[tuple[Joint, list[str]]]]:
    """Return by plate what joins it to others, overlays found apart, each with what it passes."""
    held: dict[str, list[tuple[Joint, list[str]]]] = {}
    for joint in joints:
        passed = [part for part in walls[joint.id] if part not in gone]
        if len(passed) > 1:
            for part in dict.fromkeys(passed):
                held.setdefault(part, []).append((joint, passed))
    return held


def _lies_on(pattern: Pattern, part: str, joints: Sequence[tuple[Joint, list[str]]]) -> str:
    """Return the plate that a plate lies on; empty where it is no overlay."""
    if any(passed.count(part) > 1 for _, passed in joints):
        return ""
    common = set.intersection(*(set(passed) for _, passed in joints)) - {part}
    return next((on for on in sorted(common) if _is_laid(pattern, part, on, joints)), "")


def _is_laid(
    pattern: Pattern, part: str, on: str, joints: Sequence[tuple[Joint, list[str]]]
) -> bool:
    pairs = []
    for joint, _ in joints:
        holes = [pattern.hole(hole) for hole in joint.stack]
        mine = [hole.centre for hole in holes if hole.part == part]
        its = [hole.centre for hole in holes if hole.part == on]
        if len(mine) != 1 or len(its) != 1:
            return False
        pairs.append((mine[0], its[0]))
    over, under = pattern.part(part), pattern.part(on)
    return is_laid_on(_seen(over), _seen(under), _as_seen(over, under, pairs))


def _seen(part: Part) -> Ring:
    return tuple(_from_face(part, spot) for spot in part.outline)


def _as_seen(over: Part, under: Part, pairs: Iterable[tuple[Point, Point]]) -> _Pairs:
    return tuple((_from_face(over, a), _from_face(under, b)) for a, b in pairs)


def _from_face(part: Part, spot: Point) -> Point:
    return (-spot[0], spot[1]) if part.drawn_from_inside else spot


@lru_cache(maxsize=1024)
def is_laid_on(over: Ring, under: Ring, pairs: _Pairs) -> bool:
    """Tell whether a plate lies flat on another, larger one, by the holes that hold it there."""
    mine, its = leather(over), leather(under)
    if mine is None or its is None or mine.area.area > SMALLER * its.area.area:
        return False
    holes = [its_spot for _, its_spot in pairs]
    laid = [_on_leather(mine.area, way, its.area, holes) for way in _ways(pairs)]
    return bool(laid) and min(laid) >= LAID_ON * mine.area.area


def _on_leather(
    over: "BaseGeometry", way: "_Way", under: "BaseGeometry", holes: Sequence[Point]
) -> float:
    """Return how much of a plate lies on another in mm², in one piece with all holes in it; else 0.

    A bar across a notch lies on two pieces: it makes a mouth of the notch.
    """
    from shapely import MultiPoint, get_parts
    from shapely.affinity import affine_transform

    pieces = get_parts(affine_transform(over, way).intersection(under))
    whole = max(pieces, key=lambda piece: piece.area, default=None)
    if whole is None or not whole.buffer(WELL_MM).covers(MultiPoint(holes)):
        return 0.0
    return float(whole.area)


_Way = tuple[float, float, float, float, float, float]


def _ways(pairs: _Pairs) -> Iterable[_Way]:
    """Yield how a plate may come to lie on another; none where its holes do not fit there."""
    if len(pairs) == 1:
        ((a, b),) = pairs
        for turn in range(_TURNS):
            c, s = cos(2 * pi * turn / _TURNS), sin(2 * pi * turn / _TURNS)
            yield c, -s, s, c, b[0] - c * a[0] + s * a[1], b[1] - s * a[0] - c * a[1]
        return
    found = fit([b for _, b in pairs], [a for a, _ in pairs])
    if found is not None and found.worst_mm <= WELL_MM:
        yield _matrix(found)


def _matrix(laid: Fit) -> _Way:
    x, y = laid.place((0.0, 0.0))
    (a, d), (b, e) = laid.place((1.0, 0.0)), laid.place((0.0, 1.0))
    return a - x, b - x, d - y, e - y, x, y
