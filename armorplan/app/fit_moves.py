"""By how much the holes at a seam move for the next cut, so that what was found at the fit is gone.

A gap or too much overlap is across the row: the hole of the inner layer moves in from its edge by
as much as the plates stood apart, or out. Too short or too long is along the row: it moves away
from the row's middle, or towards it. The outer layer, which is seen, stays as it is.
"""

from collections.abc import Iterable, Iterator, Mapping
from math import hypot

from armorplan.app.derived import Derived
from armorplan.app.fit_findings import FitFinding, FoundKind
from armorplan.app.fit_seams import fit_seams
from armorplan.assembly.model import SidedJoint
from armorplan.pattern.parts import Hole, Part, Point
from armorplan.steps.model import Step

_MEASURED = frozenset((FoundKind.GAP, FoundKind.OVERLAP, FoundKind.SHORT, FoundKind.LONG))
"""Holes move for these alone."""
_TINY_MM = 1e-6
_DIGITS = 1
"""A hole is moved by tenths of a millimetre: no calipers on leather tell more (common practice)."""


def joints_about(derived: Derived, fit: Step, about: str) -> tuple[SidedJoint, ...]:
    """Return the joints that a finding is about: one joint, or those of a seam of the fit."""
    joint = derived.assembly.joint
    if about in fit.joints:
        seam = next((s for s in fit_seams(derived, fit) if s.id == about), None)
        return tuple(map(joint, seam.joints)) if seam else (joint(about),)
    seams = (seam for seam in fit_seams(derived, fit) if seam.id == about)
    return tuple(joint(each) for seam in seams for each in seam.joints)


def moves_for(derived: Derived, fit: Step, found: FitFinding) -> Mapping[Point, tuple[str, ...]]:
    """Return the holes to move, by how far right and down the page in mm; empty where none follows."""
    moves: dict[Point, list[str]] = {}
    if found.mm <= 0 or found.kind not in _MEASURED:
        return {}
    for joint, hole in moving(derived, fit, found.about):
        move = _move(derived, joint, hole, found)
        if move is not None and hole not in moves.setdefault(move, []):
            moves[move].append(hole)
    return {move: tuple(holes) for move, holes in moves.items()}


def row_of(derived: Derived, fit: Step, about: str) -> tuple[SidedJoint, ...]:
    """Return all joints of a row in which a seam stands, where a finding is about the whole row."""
    seam = next((each for each in fit_seams(derived, fit) if each.id == about), None)
    row = derived.assembly.seam_of(seam.joints[0]) if seam else None
    if row is None or row.id != about:
        return ()
    return tuple(map(derived.assembly.joint, row.joints))


def moving(derived: Derived, fit: Step, about: str) -> Iterator[tuple[SidedJoint, str]]:
    """Yield joints with the hole of each that moves, in their order: the one in the inner layer.

    Of a whole row that is the layer in which its other holes move, at a joint too that takes in
    one part more, such as a strap's end beneath: the row stays straight.
    """
    joints = joints_about(derived, fit, about)
    layers = dict.fromkeys(joint.parts[-1] for joint in joints if len(joint.parts) > 1)
    for joint in row_of(derived, fit, about) or joints:
        if not joint.takes_pin or len(joint.parts) < 2:  # noqa: PLR2004 - two layers
            continue
        own = {part: hole for part, hole in joint.stack if part in layers}
        if own:
            yield joint, next(reversed(own.values()))


def _move(derived: Derived, joint: SidedJoint, hole_id: str, found: FitFinding) -> Point | None:
    hole = derived.pattern.hole(hole_id)
    part = derived.pattern.part(hole.part)
    inward = _towards(hole.centre, _middle(part.outline))
    row = _row_of(derived, joint, part)
    along = _along(row, hole)
    if found.kind in (FoundKind.GAP, FoundKind.OVERLAP):
        across = _across(along, inward)
        return _by(across, found.mm if found.kind is FoundKind.GAP else -found.mm)
    if along is None:
        return None
    outward = _away(along, hole.centre, _middle([each.centre for each in row]))
    return _by(outward, found.mm if found.kind is FoundKind.SHORT else -found.mm)


def _row_of(derived: Derived, joint: SidedJoint, part: Part) -> tuple[Hole, ...]:
    """Return the holes of a joint's row in one part, in their order."""
    row = derived.assembly.seam_of(joint.id)
    joints = map(derived.assembly.joint, row.joints) if row else [joint]
    hole = derived.pattern.hole
    return tuple(
        hole(h) for each in joints for _, h in each.stack if h and hole(h).part == part.id
    )


def _along(row: tuple[Hole, ...], hole: Hole) -> Point | None:
    """Return the direction of a row at one of its holes; ``None`` where it has no other."""
    at = row.index(hole)
    before, after = row[max(at - 1, 0)].centre, row[min(at + 1, len(row) - 1)].centre
    return _towards(before, after)


def _across(along: Point | None, inward: Point | None) -> Point | None:
    """Return the direction across a row that leads into the part."""
    if along is None or inward is None:
        return inward
    across = (-along[1], along[0])
    return across if across[0] * inward[0] + across[1] * inward[1] >= 0 else (along[1], -along[0])


def _away(along: Point, place: Point, middle: Point) -> Point:
    outward = (place[0] - middle[0], place[1] - middle[1])
    ahead = along[0] * outward[0] + along[1] * outward[1] >= 0
    return along if ahead else (-along[0], -along[1])


def _towards(start: Point, end: Point) -> Point | None:
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy)
    return (dx / length, dy / length) if length > _TINY_MM else None


def _middle(points: Iterable[Point]) -> Point:
    found = list(points)
    return sum(x for x, _ in found) / len(found), sum(y for _, y in found) / len(found)


def _by(direction: Point | None, mm: float) -> Point | None:
    if direction is None:
        return None
    # Adding 0.0 turns -0.0 into 0.0, which is how a person writes it.
    move = tuple(round(each * mm, _DIGITS) + 0.0 for each in direction)
    return (move[0], move[1]) if any(move) else None
