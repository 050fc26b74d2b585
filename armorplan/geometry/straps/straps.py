"""Straps: how those that carry weight are held, and whether their holes close the girths meant."""

from collections.abc import Iterator
from itertools import combinations
from math import dist

from armorplan.geometry.stacks import POSTED
from armorplan.geometry.straps.sizes import strap_size_findings
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Joint, JointKind, Motion
from armorplan.pattern.parts import MadeOn, PartKind
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.wearing import StrapPlace, Suspension
from armorplan.workshop.shelf import Shelf

HOLDS_ENOUGH = 2
"""Fasteners at the end of a strap that carries weight: one lets it turn and tear (common practice,
no source; from memory)."""
_SPREAD_SLACK_MM = 0.5
GIRTHS_MM = (150.0, 2_000.0)
"""No girth over padding lies outside: in ANSUR II (2012) the wrist, the least of all, is 154.8 mm of
women in the mean (sd 7.8), and no girth comes near two metres."""


def strap_findings(pattern: Pattern, shelf: Shelf) -> Iterator[Finding]:
    """Yield load straps held too lightly, straps that can turn, and what is wrong in their sizes."""
    for suspension in pattern.suspensions:
        yield from _held_lightly(pattern, shelf, suspension)
    yield from _can_turn(pattern)
    yield from strap_size_findings(pattern, shelf)
    for place in pattern.strap_places:
        yield from _strange_girth(place)
        yield from _closes_too_little(pattern, place)
        yield from _tip_last(pattern, place)


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

    A stitched row counts for two: it holds along its length and does not turn. A strap made once
    that carries a left and a right piece has to be held at each of them.
    """
    holding = _holding(pattern, suspension.part)
    sided = {joint.made_on for joint in holding} - {MadeOn.BOTH}
    wanted = (suspension.made_on,) if suspension.made_on is not MadeOn.BOTH else tuple(MadeOn)[1:]
    for side in wanted if sided else (MadeOn.BOTH,):
        here = [
            joint
            for joint in holding
            if side is MadeOn.BOTH or joint.made_on in (side, MadeOn.BOTH)
        ]
        yield from _too_few(pattern, shelf, suspension, here, side=side)


def _too_few(
    pattern: Pattern, shelf: Shelf, suspension: Suspension, holding: list[Joint], *, side: MadeOn
) -> Iterator[Finding]:
    bearing = [joint for joint in holding if _bears_load(joint, shelf)]
    count = sum(HOLDS_ENOUGH if j.kind is JointKind.STITCH else 1 for j in bearing)
    if count >= HOLDS_ENOUGH:
        return
    light = [joint for joint in holding if joint not in bearing]
    words = f"{len(holding)} joint{'' if len(holding) == 1 else 's'}"
    weak = f", {len(light)} of them too light for a load" if light else ""
    piece = next((p.name for p in pattern.pieces if p.id == suspension.piece), suspension.piece)
    on_side = "" if side is MadeOn.BOTH else f" on the {side}"
    yield Finding(
        code="load-strap-held-lightly",
        severity=Severity.WARNING,
        text=(
            f"{pattern.part(suspension.part).name} carries {piece} from {suspension.hangs_from}, "
            f"but is held by {words}{on_side}{weak}; {HOLDS_ENOUGH} that bear load are the least."
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
    spread_mm = max((dist(a, b) for a, b in combinations(centres, 2)), default=0.0)
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


def _strange_girth(place: StrapPlace) -> Iterator[Finding]:
    least_mm, most_mm = place.girth_mm
    if GIRTHS_MM[0] <= most_mm <= GIRTHS_MM[1]:
        return
    yield Finding(
        code="strange-girth",
        severity=Severity.WARNING,
        text=f"The girth of {place.name} is {least_mm:g} to {most_mm:g} mm: is this in cm or "
        "inches?",
        remedy="Write girth_mm in millimetres: 1 cm is 10 mm, 1 inch 25.4 mm.",
        about=(place.strap,),
    )


def _tip_last(pattern: Pattern, place: StrapPlace) -> Iterator[Finding]:
    """Yield holes that begin at the end where the strap is held; told only if all its joints say so."""
    if len(place.holes) < HOLDS_ENOUGH:
        return
    first, last = (pattern.hole(place.holes[at]).centre for at in (0, -1))
    held = [
        pattern.hole(hole)
        for joint in pattern.joints
        for hole in joint.stack
        if hole not in place.holes
    ]
    own = [hole.centre for hole in held if hole.part == place.strap]
    if own and all(dist(first, spot) < dist(last, spot) for spot in own):
        yield Finding(
            code="holes-tip-last",
            severity=Severity.WARNING,
            text=f"The holes of {place.name} are listed from the held end: '{place.holes[0]}' is "
            f"nearer to where {pattern.part(place.strap).name} is fixed than '{place.holes[-1]}'.",
            remedy="List them the other way round, the one nearest to the strap's tip first.",
            about=(place.strap, *place.holes),
        )
