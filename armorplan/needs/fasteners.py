"""Fasteners by kind and post length, washers, hardware, and pins for the dry fit."""

from armorplan.assembly.model import Assembly, SidedJoint
from armorplan.geometry.stacks import POSTED, joint_post, joint_stack
from armorplan.needs.measures import priced, spares
from armorplan.needs.model import HardwareNeed, PostNeed, TrialPins, WasherNeed
from armorplan.steps.model import StepKind, Work
from armorplan.workshop.shelf import Shelf


def post_needs(assembly: Assembly, shelf: Shelf) -> tuple[PostNeed, ...]:
    """Return rivets and screw posts; joints that no post on sale fits stand in rows of their own."""
    groups: dict[tuple[str, str, float | None], list[SidedJoint]] = {}
    for joint in assembly.joints:
        if joint.joint.kind not in POSTED:
            continue
        post = joint_post(assembly.pattern, shelf, joint.joint)
        length_mm = post.length_mm if post else joint.joint.post_mm
        key = (joint.joint.kind.value, joint.joint.fastener, length_mm)
        groups.setdefault(key, []).append(joint)
    order = sorted(groups, key=lambda key: (key[0], key[1], key[2] is None, key[2] or 0.0))
    return tuple(_post(assembly, shelf, key, groups[key]) for key in order)


def _post(
    assembly: Assembly,
    shelf: Shelf,
    key: tuple[str, str, float | None],
    joints: list[SidedJoint],
) -> PostNeed:
    kind, fastener_id, length_mm = key
    fastener = shelf.fastener(fastener_id)
    stacks = [joint_stack(assembly.pattern, joint.joint) for joint in joints]
    more = spares(len(joints)) if length_mm is not None else 0
    buy = len(joints) + more if length_mm is not None else 0
    return PostNeed(
        fastener=fastener_id,
        name=fastener.name if fastener else fastener_id or kind,
        kind=kind,
        length_mm=length_mm,
        joints=tuple(joint.id for joint in joints),
        stack_mm=(min(s.least_mm for s in stacks), max(s.most_mm for s in stacks)),
        spares=more,
        buy=buy,
        cost=priced(buy, fastener.price_each) if fastener and buy else None,
    )


def washer_needs(assembly: Assembly) -> tuple[WasherNeed, ...]:
    """Return washers and spacers by their thickness; two thin ones may make up one thick."""
    counts: dict[float, int] = {}
    for joint in assembly.joints:
        if joint.joint.washer_mm > 0:
            counts[joint.joint.washer_mm] = counts.get(joint.joint.washer_mm, 0) + 1
    return tuple(
        WasherNeed(thickness_mm=t, count=n, spares=spares(n), buy=n + spares(n))
        for t, n in sorted(counts.items())
    )


def trial_pins(assembly: Assembly, work: Work) -> TrialPins | None:
    """Return the pins for the largest dry fit: one for each joint that has its holes by then."""
    held = {
        step.id: sum(assembly.joint(joint).takes_pin for joint in step.joints)
        for step in work.of_kind(StepKind.DRY_FIT)
    }
    if not held:
        return None
    largest = work.step(max(held, key=lambda step: held[step]))
    if not held[largest.id]:
        return None
    return TrialPins(count=held[largest.id], dry_fit=largest.title)


def hardware_needs(assembly: Assembly, shelf: Shelf) -> tuple[HardwareNeed, ...]:
    """Return buckles, rings, loops and studs, in the order of their ids."""
    counts: dict[str, int] = {}
    for sided in assembly.hardware:
        use = sided.hardware.use
        counts[use] = counts.get(use, 0) + sided.hardware.count
    found = []
    for use, count in sorted(counts.items()):
        entry = shelf.hardware_entry(use)
        found.append(
            HardwareNeed(
                use=use,
                name=entry.name if entry else use,
                count=count,
                cost=priced(count, entry.price_each if entry else None),
            )
        )
    return tuple(found)
