"""Joints against their fasteners: kind, hole size, and a post that fits the stack."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from math import ceil
from typing import NamedTuple

from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Joint, JointKind
from armorplan.pattern.parts import Hole, Part
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.fastening import choose_length, pinched_mm, post_window_mm
from armorplan.workshop.shelf import Fastener, Shelf

HOLE_OFF_MM = 0.6
"""Tighter or looser than this the punch is the wrong one: fastener makers give 0.25–0.38 mm of
clearance, a turning joint about 0.5 mm (common practice, no source)."""
POSTED = frozenset({JointKind.RIVET, JointKind.SCREW})
"""Joints with a post through holes; glue, stitches and laces have none."""
_NAMED = 3
"""So many joints or parts are named in a message; the rest are counted."""
_DIGITS = 3


class Stack(NamedTuple):
    """What a fastener goes through, in mm unpinched: at the lower and at the upper end.

    The two differ where leather is sold as a range. ``washer_mm`` is in both.
    """

    least_mm: float
    most_mm: float
    washer_mm: float = 0.0


def stack_of(layers: Iterable[Part], washer_mm: float = 0.0) -> Stack:
    """Return the stack of layers, repeats kept, with washers or spacers of a thickness in mm."""
    most = least = washer_mm
    for part in layers:
        most += part.thickness_mm
        least += part.thickness_mm if part.least_mm is None else part.least_mm
    return Stack(round(least, _DIGITS), round(most, _DIGITS), washer_mm)


def joint_stack(pattern: Pattern, joint: Joint) -> Stack:
    """Return the stack of one joint of a pattern, its washers included."""
    return stack_of(map(pattern.part, pattern.stack_parts(joint.id)), joint.washer_mm)


WORTH_TELLING_MM = 0.1
"""Leather is not measured finer: a post too long by less says nothing to a maker."""


def _wrong_kind(joint: Joint, fastener: Fastener) -> Finding:
    return Finding(
        code="fastener-wrong-kind",
        severity=Severity.ERROR,
        text=f"Joint '{joint.id}' is a {joint.kind} but '{fastener.id}' is a {fastener.kind}.",
        remedy=f'Write kind = "{fastener.kind}", or name a {joint.kind} as its fastener.',
        about=(joint.id,),
    )


def _wrong_size(pattern: Pattern, hole: Hole, joint: Joint, fastener: Fastener) -> Finding:
    off_mm = hole.diameter_mm - fastener.hole_mm
    what = "Slot" if hole.travel_mm > 0 else "Hole"
    return Finding(
        code="hole-wrong-size",
        severity=Severity.WARNING,
        text=(
            f"{what} '{hole.id}' in {pattern.part(hole.part).name} is {hole.diameter_mm:.1f} mm "
            f"wide, {abs(off_mm):.1f} mm {'looser' if off_mm > 0 else 'tighter'} than "
            f"{fastener.name} needs."
        ),
        remedy=f"Draw it {fastener.hole_mm:.1f} mm wide, or choose another fastener.",
        about=(hole.part, hole.id, joint.id),
    )


def _hole_sizes(pattern: Pattern, joint: Joint, fastener: Fastener) -> Iterator[Finding]:
    for hole in map(pattern.hole, dict.fromkeys(joint.stack)):
        # Of a slot that a joint slides in, the diameter is the width.
        if abs(hole.diameter_mm - fastener.hole_mm) > HOLE_OFF_MM:
            yield _wrong_size(pattern, hole, joint, fastener)


def _who(pattern: Pattern, joints: list[str]) -> str:
    """Name joints and what they hold, as far as a sentence bears it."""
    parts = dict.fromkeys(p for joint in joints for p in pattern.stack_parts(joint))
    names = _listed([pattern.part(part).name for part in parts])
    if len(joints) == 1:
        return f"Joint '{joints[0]}' ({names})"
    quoted = _listed([f"'{joint}'" for joint in joints])
    return f"{len(joints)} joints ({quoted}; in {names})"


def _listed(names: list[str]) -> str:
    more = len(names) - _NAMED
    return ", ".join(names[:_NAMED]) + (f" and {more} more" if more > 0 else "")


def _stack_words(stack: Stack) -> str:
    washer = f" with {stack.washer_mm:g} mm of washers" if stack.washer_mm else ""
    pinched = f"{pinched_mm(stack.most_mm):.1f} mm pinched"
    return f"the stack is {stack.most_mm:.1f} mm{washer}, {pinched}"


def _no_post(who: str, stack: Stack, fastener: Fastener, joints: list[str]) -> Finding:
    least_mm, most_mm = post_window_mm(stack.most_mm, fastener)
    on_sale = ", ".join(f"{length:g}" for length in fastener.lengths_mm)
    return Finding(
        code="no-post-length",
        severity=Severity.WARNING,
        text=(
            f"{who}: {_stack_words(stack)}; {fastener.name} needs a post of {least_mm:.1f} to "
            f"{most_mm:.1f} mm; posts on sale {on_sale} mm."
        ),
        remedy=_mend(stack, fastener),
        about=tuple(joints),
    )


def _mend(stack: Stack, fastener: Fastener) -> str:
    """Say what would make the next longer post fit, or the longest where the stack is too thick."""
    least_mm, most_mm = post_window_mm(stack.most_mm, fastener)
    for_one_mm = pinched_mm(1.0)
    longer = [length for length in fastener.lengths_mm if length > most_mm]
    if longer:
        washer_mm = (min(longer) - (least_mm + most_mm) / 2) / for_one_mm
        return (
            f"Add {washer_mm:.1f} mm of washers (washer_mm) and the {min(longer):g} mm post fits, "
            "skive a layer, or choose another fastener."
        )
    off_mm = ceil(10 * (least_mm - max(fastener.lengths_mm)) / for_one_mm) / 10
    return f"Skive {off_mm:.1f} mm off the layers, or choose another fastener."


def _too_long(
    who: str, stack: Stack, fastener: Fastener, length_mm: float, joints: list[str]
) -> Finding:
    _, most_mm = post_window_mm(stack.least_mm, fastener)
    shorter = choose_length(stack.least_mm, fastener)
    thin = f"a {shorter:g} mm post" if shorter else "no post on sale without a washer"
    return Finding(
        code="measure-before-buying",
        severity=Severity.NOTE,
        text=(
            f"{who}: the {length_mm:g} mm post of {fastener.name} is for the upper end of the "
            f"leather, {stack.most_mm:.1f} mm; at the lower end, {stack.least_mm:.1f} mm, it is "
            f"{length_mm - most_mm:.1f} mm too long, and {thin} fits."
        ),
        remedy="Measure the stack before you buy the posts.",
        about=tuple(joints),
    )


def stack_findings(pattern: Pattern, shelf: Shelf) -> Iterator[Finding]:
    """Yield joints whose fastener is of another kind, needs another hole, or has no post for them.

    Posts are chosen for the upper end of leather sold as a range. Joints with the same stack and
    fastener share one finding about their posts.
    """
    alike: dict[tuple[str, Stack], list[str]] = defaultdict(list)
    for joint in pattern.joints:
        fastener = shelf.fastener(joint.fastener)
        if fastener is None:
            continue
        if fastener.kind != joint.kind:
            yield _wrong_kind(joint, fastener)
        if joint.kind in POSTED:
            yield from _hole_sizes(pattern, joint, fastener)
            alike[fastener.id, joint_stack(pattern, joint)].append(joint.id)
    by_id = {fastener.id: fastener for fastener in shelf.fasteners}
    for (fastener_id, stack), joints in alike.items():
        yield from _posts(pattern, stack, by_id[fastener_id], joints)


def _posts(
    pattern: Pattern, stack: Stack, fastener: Fastener, joints: list[str]
) -> Iterator[Finding]:
    length_mm = choose_length(stack.most_mm, fastener)
    if length_mm is None:
        yield _no_post(_who(pattern, joints), stack, fastener, joints)
    elif length_mm > post_window_mm(stack.least_mm, fastener)[1] + WORTH_TELLING_MM:
        yield _too_long(_who(pattern, joints), stack, fastener, length_mm, joints)
