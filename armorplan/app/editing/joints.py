"""Edits of joints and rows: what is joined, and which layer lies outside."""

from collections import Counter
from collections.abc import Collection, Sequence
from typing import Any

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.pending import NotTakenError, Pending, an_edit
from armorplan.files.faults import listed
from armorplan.geometry.matching.model import RowMatch
from armorplan.pattern.joining import JointKind, Motion

_LEAST_LAYERS = 2


@an_edit
def join(
    draft: Draft,
    holes: Sequence[str],
    *,
    kind: JointKind = JointKind.RIVET,
    fastener: str = "",
    motion: Motion = Motion.FIXED,
    joint: str = "",
) -> Draft | Refused:
    """Join holes by one fastener.

    Args:
        draft: the pattern.
        holes: the holes it goes through, the outermost layer first.
        kind: how it holds.
        fastener: its id in the catalogues; empty: that of most joints of this kind here.
        motion: how the parts may move on it.
        joint: its id; empty: one is made of the first hole's.
    """
    pending = Pending(draft)
    how = _Fastening(pending, kind, fastener, motion)
    _add_joint(pending, joint or pending.free_id("joints", holes[0]), holes, how)
    return pending.taken()


@an_edit
def join_row(
    draft: Draft,
    stacks: Sequence[Sequence[str]],
    *,
    name: str,
    kind: JointKind = JointKind.RIVET,
    fastener: str = "",
    seam: str = "",
) -> Draft | Refused:
    """Join holes by a row of fasteners that is worked as one.

    Args:
        draft: the pattern.
        stacks: the holes of each joint, the outermost layer first, in their order along the row.
        name: what the row is called.
        kind: how its joints hold.
        fastener: its id in the catalogues; empty: that of most joints of this kind here.
        seam: its id; empty: one is made of its name.
    """
    pending = Pending(draft)
    how = _Fastening(pending, kind, fastener, Motion.FIXED)
    row = seam or pending.free_id("seams", name or "row")
    joints = []
    for at, stack in enumerate(stacks, start=1):
        joints.append(pending.free_id("joints", f"{row}_{at}"))
        _add_joint(pending, joints[-1], stack, how)
    pending.add("seams", row, {"name": name, "joints": joints})
    return pending.taken()


def joints_from_match(
    draft: Draft,
    match: RowMatch,
    *,
    is_first_outside: bool,
    kind: JointKind = JointKind.RIVET,
    fastener: str = "",
    name: str = "",
) -> Draft | Refused:
    """Join what a suggestion says belongs together: one joint, or a row of them.

    Args:
        draft: the pattern.
        match: the suggestion.
        is_first_outside: the first of its two parts lies outside the second.
        kind: how the joints hold.
        fastener: its id in the catalogues; empty: that of most joints of this kind here.
        name: what the row is called; empty: one is made of the two parts' names.
    """
    stacks = [pair if is_first_outside else pair[::-1] for pair in match.pairs]
    if len(stacks) == 1:
        return join(draft, stacks[0], kind=kind, fastener=fastener)
    return join_row(
        draft, stacks, name=name or _row_name(draft, match), kind=kind, fastener=fastener
    )


def _row_name(draft: Draft, match: RowMatch) -> str:
    names = [draft.entry("parts", part).get("name", part) for part in (match.first, match.second)]
    return " to ".join(dict.fromkeys(names))


@an_edit
def add_layer(draft: Draft, joint: str, hole: str, *, at: int = 0) -> Draft | Refused:
    """Take one more hole into a joint's stack; ``at``: its place, 0 is outermost."""
    pending = Pending(draft)
    stack = _stack(pending, joint)
    _check_free(pending, [hole])
    pending.put(("joints", joint, "stack"), [*stack[:at], hole, *stack[at:]])
    return pending.taken()


@an_edit
def drop_joints(draft: Draft, joints: Collection[str]) -> Draft | Refused:
    """Take joints out wherever they are named; their holes stay drawn."""
    pending = Pending(draft)
    for joint in dict.fromkeys(joints):
        pending.entry("joints", joint)
        pending.drop("joints", joint)
    return pending.taken()


@an_edit
def make_row(draft: Draft, joints: Sequence[str], *, name: str) -> Draft | Refused:
    """Work joints that are there as one row, in their order along it; they leave other rows."""
    pending = Pending(draft)
    for joint in joints:
        pending.entry("joints", joint)
    for seam, told in list(pending.values.get("seams", {}).items()):
        left = [joint for joint in told.get("joints", ()) if joint not in joints]
        if not left:
            pending.drop(
                "seams", seam, words=f'The row "{told.get("name", seam)}" is now part of it.'
            )
        elif len(left) < len(told["joints"]):
            pending.put(("seams", seam, "joints"), left)
    row = pending.free_id("seams", name or "row")
    pending.add("seams", row, {"name": name, "joints": list(joints)})
    return pending.taken()


@an_edit
def set_stack_order(draft: Draft, joint: str, holes: Sequence[str]) -> Draft | Refused:
    """Put the layers of one joint into another order, the outermost first."""
    pending = Pending(draft)
    if sorted(_stack(pending, joint)) != sorted(holes):
        text = f'The joint "{joint}" goes through {listed(_stack(pending, joint))}.'
        raise NotTakenError(text, "Give just these, in another order.")
    pending.put(("joints", joint, "stack"), list(holes))
    return pending.taken()


@an_edit
def set_layers_order(draft: Draft, joint: str, parts: Sequence[str]) -> Draft | Refused:
    """Put the layers of a glued or stitched joint into another order, the outermost first."""
    pending = Pending(draft)
    layers = list(pending.entry("joints", joint).get("layers", ()))
    if sorted(layers) != sorted(parts):
        text = f'The joint "{joint}" joins {listed(layers) if layers else "no layers"}.'
        raise NotTakenError(text, "Give just these, in another order.")
    pending.put(("joints", joint, "layers"), list(parts))
    return pending.taken()


@an_edit
def set_row_order(draft: Draft, seam: str, parts: Sequence[str]) -> Draft | Refused:
    """Put the layers of all joints of a row into an order of parts, the outermost first.

    Of a part that is not among them the layer stays where it is.
    """
    pending = Pending(draft)
    for joint in pending.entry("seams", seam).get("joints", ()):
        stack = pending.entry("joints", joint).get("stack")
        if stack:
            pending.put(("joints", joint, "stack"), _in_order(pending, stack, parts))
    return pending.taken()


def _in_order(pending: Pending, stack: Sequence[str], parts: Sequence[str]) -> list[str]:
    part_of = {hole: pending.hole(hole).part for hole in stack}
    told = [hole for hole in stack if part_of[hole] in parts]
    told.sort(key=lambda hole: parts.index(part_of[hole]))
    turn = iter(told)
    return [next(turn) if part_of[hole] in parts else hole for hole in stack]


class _Fastening:
    """How new joints hold."""

    def __init__(self, pending: Pending, kind: JointKind, fastener: str, motion: Motion) -> None:
        self.kind = kind.value
        self.values: dict[str, Any] = {"fastener": fastener or _usual(pending, kind, motion)}
        if motion is not Motion.FIXED:
            self.values["motion"] = motion.value


def _usual(pending: Pending, kind: JointKind, motion: Motion) -> str | None:
    """Return the fastener that most joints of this kind have, those that move alike before others."""
    alike = [j for j in pending.pattern.joints if j.kind is kind and j.fastener]
    alike = [j for j in alike if j.motion is motion] or alike
    counts = Counter(joint.fastener for joint in alike)
    if counts:
        return counts.most_common(1)[0][0]
    shelf = pending.draft.bench.shelf
    return next((each.id for each in shelf.fasteners if each.kind == kind.value), None)


def _add_joint(pending: Pending, joint: str, stack: Sequence[str], how: _Fastening) -> None:
    if len(set(stack)) < _LEAST_LAYERS:
        text = "A joint goes through two holes or more."
        raise NotTakenError(text, "Choose the holes of all its layers, the outermost first.")
    for hole in stack:
        pending.hole(hole)
    _check_free(pending, stack)
    pending.add("joints", joint, {"kind": how.kind, "stack": list(stack)} | how.values)


def _check_free(pending: Pending, holes: Sequence[str]) -> None:
    for joint, told in pending.values.get("joints", {}).items():
        taken = [hole for hole in holes if hole in told.get("stack", ())]
        if taken and not told.get("only_with") and told.get("made_on", "both") == "both":
            text = f'{listed(taken)} is in the joint "{joint}" already.'
            raise NotTakenError(text, "Take it out there first, or add a layer to that joint.")


def _stack(pending: Pending, joint: str) -> list[str]:
    return list(pending.entry("joints", joint).get("stack", ()))
