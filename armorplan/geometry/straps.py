"""Straps: how those that carry weight are held, and whether their holes close the girths meant."""

from collections.abc import Iterator
from itertools import pairwise
from math import dist

from armorplan.geometry.stacks import POSTED
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Joint, JointKind, Motion
from armorplan.pattern.parts import PartKind
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.wearing import StrapPlace, Suspension
from armorplan.workshop.shelf import Shelf

HOLDS_ENOUGH = 2
"""Fasteners at the end of a strap that carries weight: one lets it turn and tear (common practice,
no source; from memory)."""
_SPREAD_SLACK_MM = 0.5


def strap_findings(pattern: Pattern, shelf: Shelf) -> Iterator[Finding]:
    """Yield load straps held too lightly, straps one rivet lets turn, and holes that close too little."""
    for suspension in pattern.suspensions:
        yield from _held_lightly(pattern, shelf, suspension)
    yield from _can_turn(pattern)
    for place in pattern.strap_places:
        yield from _closes_too_little(pattern, place)


def _holding(pattern: Pattern, part_id: str) -> list[Joint]:
    """Return the joints that hold a part to others; of a threaded one, also those on itself."""
    threaded = any(thread.part == part_id for thread in pattern.threads)
    found = []
    for joint in pattern.joints:
        parts = set(pattern.stack_parts(joint.id))
        if part_id in parts and (threaded or len(parts) > 1):
            found.append(joint)
    return found


def _bears_load(joint: Joint, shelf: Shelf) -> bool:
    """Tell whether a joint carries weight: glue does not, nor a rivet the shelf calls light."""
    fastener = shelf.fastener(joint.fastener)
    if joint.kind in POSTED:
        return fastener is None or fastener.load
    return joint.kind is not JointKind.GLUE


def _held_lightly(pattern: Pattern, shelf: Shelf, suspension: Suspension) -> Iterator[Finding]:
    """Yield a load strap with fewer than two fasteners that bear load; light ones beside do no harm.

    A stitched row counts for two: it holds along its length and does not turn.
    """
    holding = _holding(pattern, suspension.part)
    bearing = [joint for joint in holding if _bears_load(joint, shelf)]
    count = sum(HOLDS_ENOUGH if j.kind is JointKind.STITCH else 1 for j in bearing)
    if count >= HOLDS_ENOUGH:
        return
    light = [joint for joint in holding if joint not in bearing]
    words = f"{len(holding)} joint{'' if len(holding) == 1 else 's'}"
    weak = f", {len(light)} of them too light for a load" if light else ""
    piece = next((p.name for p in pattern.pieces if p.id == suspension.piece), suspension.piece)
    yield Finding(
        code="load-strap-held-lightly",
        severity=Severity.WARNING,
        text=(
            f"{pattern.part(suspension.part).name} carries {piece} from {suspension.hangs_from}, "
            f"but is held by {words}{weak}; {HOLDS_ENOUGH} that bear load are the least."
        ),
        remedy="Use copper rivets with burrs, tubular rivets or screw posts, two at least.",
        about=(suspension.part, *(joint.id for joint in holding)),
    )


def _can_turn(pattern: Pattern) -> Iterator[Finding]:
    """Yield straps that a single fixed post holds, and nothing else: they turn on it all the same."""
    threaded = {thread.part for thread in pattern.threads}
    carrying = {suspension.part for suspension in pattern.suspensions}
    for part in pattern.parts:
        if part.kind is not PartKind.STRAP or part.id in threaded | carrying:
            continue
        holding = _holding(pattern, part.id)
        if len(holding) != 1 or holding[0].kind not in POSTED:
            continue
        (joint,) = holding
        if joint.motion is Motion.FIXED:
            yield Finding(
                code="strap-can-turn",
                severity=Severity.NOTE,
                text=f"{part.name} is held by one {joint.kind} alone, '{joint.id}', and can turn "
                "on it.",
                remedy='Add a second one, or write motion = "turning" where it is meant to turn.',
                about=(part.id, joint.id),
            )


def _closes_too_little(pattern: Pattern, place: StrapPlace) -> Iterator[Finding]:
    if not place.holes:
        return
    centres = [pattern.hole(hole).centre for hole in place.holes]
    spread_mm = sum(dist(a, b) for a, b in pairwise(centres))
    least_mm, most_mm = place.girth_mm
    short_mm = most_mm - least_mm - spread_mm
    if short_mm > _SPREAD_SLACK_MM:
        yield Finding(
            code="strap-closes-too-little",
            severity=Severity.WARNING,
            text=(
                f"The holes of {place.name} spread over {spread_mm:.1f} mm from the first to the "
                f"last, but girths of {least_mm:g} to {most_mm:g} mm differ by "
                f"{most_mm - least_mm:.1f} mm."
            ),
            remedy=(
                f"Punch holes over {short_mm:.1f} mm more of {pattern.part(place.strap).name}, "
                "or write a narrower girth_mm."
            ),
            about=(place.strap, *place.holes),
        )
