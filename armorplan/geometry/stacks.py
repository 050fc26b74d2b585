"""Joints against their fasteners: kind, hole size, and a post that fits the stack."""

from collections import defaultdict
from collections.abc import Iterator

from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Joint
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.fastening import choose_length, pinched_mm
from armorplan.workshop.shelf import Fastener, Shelf

HOLE_OFF_MM = 0.6
"""Tighter or looser than this the punch is the wrong one: fastener makers give 0.25–0.38 mm of
clearance, a turning joint about 0.5 mm (common practice, no source)."""


def _wrong_kind(joint: Joint, fastener: Fastener) -> Finding:
    return Finding(
        code="fastener-wrong-kind",
        severity=Severity.ERROR,
        text=f"Joint '{joint.id}' is a {joint.kind} but '{fastener.id}' is a {fastener.kind}.",
        remedy=f'Write kind = "{fastener.kind}", or name a {joint.kind} as its fastener.',
        about=(joint.id,),
    )


def _hole_sizes(pattern: Pattern, joint: Joint, fastener: Fastener) -> Iterator[Finding]:
    for hole in map(pattern.hole, dict.fromkeys(joint.stack)):
        off_mm = hole.diameter_mm - fastener.hole_mm
        if abs(off_mm) <= HOLE_OFF_MM:
            continue
        yield Finding(
            code="hole-wrong-size",
            severity=Severity.WARNING,
            text=(
                f"Hole '{hole.id}' in {pattern.part(hole.part).name} is {hole.diameter_mm:.1f} mm "
                f"wide, {abs(off_mm):.1f} mm {'looser' if off_mm > 0 else 'tighter'} than "
                f"{fastener.name} needs."
            ),
            remedy=f"Draw it {fastener.hole_mm:.1f} mm wide, or choose another fastener.",
            about=(hole.part, hole.id, joint.id),
        )


def _no_post(stack_mm: float, fastener: Fastener, joints: list[str]) -> Finding:
    least_mm, most_mm = (pinched_mm(stack_mm) + over for over in fastener.over_stack_mm)
    on_sale = ", ".join(f"{length:g}" for length in fastener.lengths_mm)
    return Finding(
        code="no-post-length",
        severity=Severity.WARNING,
        text=(
            f"Stack {stack_mm:.1f} mm, pinched {pinched_mm(stack_mm):.1f} mm: {fastener.name} "
            f"needs a post of {least_mm:.1f} to {most_mm:.1f} mm; posts on sale {on_sale} mm."
        ),
        remedy="Skive a layer, add a leather washer, or choose another fastener.",
        about=tuple(joints),
    )


def stack_findings(pattern: Pattern, shelf: Shelf) -> Iterator[Finding]:
    """Yield joints whose fastener is of another kind, needs another hole, or has no post for them.

    Joints with the same stack and fastener share one finding about their posts.
    """
    no_post: dict[tuple[str, float], list[str]] = defaultdict(list)
    for joint in pattern.joints:
        fastener = shelf.fastener(joint.fastener)
        if fastener is None:
            continue
        if fastener.kind != joint.kind:
            yield _wrong_kind(joint, fastener)
        yield from _hole_sizes(pattern, joint, fastener)
        layers = pattern.stack_parts(joint.id)
        stack_mm = round(sum(pattern.part(part).thickness_mm for part in layers), 3)
        if choose_length(stack_mm, fastener) is None:
            no_post[fastener.id, stack_mm].append(joint.id)
    by_id = {fastener.id: fastener for fastener in shelf.fasteners}
    for (fastener_id, stack_mm), joints in no_post.items():
        yield _no_post(stack_mm, by_id[fastener_id], joints)
