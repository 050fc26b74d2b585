"""Holes that are not as wide as their fastener needs."""

from collections import defaultdict

from armorplan.geometry.stacks import POSTED
from armorplan.geometry.told import listed
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Joint, Motion
from armorplan.pattern.parts import Hole, Part
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import TURNS, Fastener, Shelf

HOLE_OFF_MM = 0.6
"""Tighter or looser than this the punch is the wrong one: fastener makers give 0.25–0.38 mm of
clearance (common practice, no source)."""
TURNING_MM = 0.5
"""So much wider is the hole of a joint that moves, so that it does not bind; a washer between the
layers does as well (common practice, no source; from memory)."""

_Needs = tuple[str, float]
"""A fastener's id, and how wide a hole it needs, in mm."""
Wrong = dict[_Needs, dict[Hole, list[str]]]
"""Holes that are not as wide, with the joints that pass them."""


def needed_mm(joint: Joint, fastener: Fastener) -> float:
    """Return how wide in mm a hole has to be for a joint: snug, or with play where it moves.

    A fastener made to turn has the play in its own hole.
    """
    moves = joint.motion is not Motion.FIXED and not joint.washer_mm
    return fastener.hole_mm + (TURNING_MM if moves and fastener.motion != TURNS else 0.0)


def wrong_holes(pattern: Pattern, shelf: Shelf) -> dict[str, Wrong]:
    """Return for each part its holes that are wider or tighter than a fastener through them needs.

    Of a slot that a joint slides in, the width counts.
    """
    found: dict[str, Wrong] = defaultdict(lambda: defaultdict(dict))
    by_id = {fastener.id: fastener for fastener in shelf.fasteners}
    for joint in pattern.joints:
        fastener = by_id.get(joint.fastener)
        if fastener is None or joint.kind not in POSTED:
            continue
        need_mm = needed_mm(joint, fastener)
        for hole in map(pattern.hole, dict.fromkeys(joint.stack)):
            if abs(hole.diameter_mm - need_mm) > HOLE_OFF_MM:
                at = found[hole.part][fastener.id, need_mm]
                at.setdefault(hole, []).append(joint.id)
    return found


def wrong_size(
    part: Part, fastener: Fastener, need_mm: float, wrong: dict[Hole, list[str]]
) -> Finding:
    """Return one finding for all holes of a part made for another fastener, the worst first."""
    holes = sorted(wrong, key=lambda hole: -abs(hole.diameter_mm - need_mm))
    hole = holes[0]
    off_mm = hole.diameter_mm - need_mm
    to_move = " where it has to move" if need_mm > fastener.hole_mm else ""
    if len(wrong) == 1:
        what = "Slot" if hole.travel_mm > 0 else "Hole"
        text = (
            f"{what} '{hole.id}' in {part.name} is {hole.diameter_mm:.1f} mm wide, "
            f"{abs(off_mm):.1f} mm {'looser' if off_mm > 0 else 'tighter'} than {fastener.name} "
            f"needs{to_move}."
        )
    else:
        words = [f"'{each.id}' {each.diameter_mm:.1f} mm" for each in holes]
        text = (
            f"{len(wrong)} holes in {part.name} are not as wide as {fastener.name} needs"
            f"{to_move}, {need_mm:.1f} mm: {listed(words)}."
        )
    it = "it" if len(wrong) == 1 else "them"
    joints = dict.fromkeys(joint for hole in holes for joint in wrong[hole])
    return Finding(
        code="hole-wrong-size",
        severity=Severity.WARNING,
        text=text,
        remedy=f"Draw {it} {need_mm:.1f} mm wide, or choose another fastener.",
        about=(part.id, *(each.id for each in holes), *joints),
    )
