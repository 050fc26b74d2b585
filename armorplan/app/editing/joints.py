"""Edits of joints and rows: what is joined, and which layer lies outside."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.pending import NotTakenError, Pending, an_edit
from armorplan.files.faults import listed
from armorplan.geometry.matching.model import RowMatch
from armorplan.pattern.joining import JointKind, Motion

_LEAST_LAYERS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """How new joints hold.

    Attributes:
        kind: by what.
        fastener: its id in the catalogues; empty: that of most joints of this kind here.
        motion: how the parts may move on them.
    """

    kind: JointKind = JointKind.RIVET
    fastener: str = ""
    motion: Motion = Motion.FIXED


RIVETED = Holding()


@an_edit
def join(
    draft: Draft, holes: Sequence[str], *, how: Holding = RIVETED, joint: str = ""
) -> Draft | Refused:
    """Join holes by one fastener.

    Args:
        draft: the pattern.
        holes: the holes it goes through, the outermost layer first; of a joint that slides one is
            the closed outline that it slides in.
        how: how it holds.
        joint: its id; empty: one is made of the first hole's.
    """
    pending = Pending(draft)
    told = _told(pending, how)
    _add_joint(pending, joint or pending.free_id("joints", holes[0]), holes, told)
    _tell_of(pending, holes, how)
    return pending.taken()


@an_edit
def join_row(
    draft: Draft,
    stacks: Sequence[Sequence[str]],
    *,
    name: str,
    how: Holding = RIVETED,
    seam: str = "",
) -> Draft | Refused:
    """Join holes by a row of fasteners that is worked as one.

    Pivots and slides are no row: each is a joint by itself.

    Args:
        draft: the pattern.
        stacks: the holes of each joint, the outermost layer first, in their order along the row.
        name: what the row is called.
        how: how its joints hold.
        seam: its id; empty: one is made of its name.
    """
    pending = Pending(draft)
    told = _told(pending, how)
    row = seam or pending.free_id("seams", name or "row")
    joints = []
    for at, stack in enumerate(stacks, start=1):
        joints.append(pending.free_id("joints", f"{row}_{at}"))
        _add_joint(pending, joints[-1], stack, told)
    if how.motion is Motion.FIXED:
        pending.add("seams", row, {"name": name, "joints": joints})
    _tell_of(pending, stacks[0], how)
    return pending.taken()


def joints_from_match(
    draft: Draft,
    match: RowMatch,
    *,
    is_first_outside: bool,
    how: Holding = RIVETED,
    name: str = "",
) -> Draft | Refused:
    """Join what a suggestion says belongs together: one joint, or a row of them.

    Args:
        draft: the pattern.
        match: the suggestion.
        is_first_outside: the first of its two parts lies outside the second.
        how: how the joints hold.
        name: what the row is called; empty: one is made of the two parts' names.
    """
    stacks = [pair if is_first_outside else pair[::-1] for pair in match.pairs]
    if len(stacks) == 1:
        return join(draft, stacks[0], how=how)
    return join_row(draft, stacks, name=name or _row_name(draft, match), how=how)


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


def _told(pending: Pending, how: Holding) -> dict[str, Any]:
    """Return what is written of each joint that holds so, but for its stack."""
    told: dict[str, Any] = {
        "kind": how.kind.value,
        "fastener": how.fastener or _usual(pending, how),
    }
    if how.motion is not Motion.FIXED:
        told["motion"] = how.motion.value
    return told


def _usual(pending: Pending, how: Holding) -> str | None:
    """Return the fastener that most joints of this kind have, those that move alike before others."""
    alike = [j for j in pending.pattern.joints if j.kind is how.kind and j.fastener]
    alike = [j for j in alike if j.motion is how.motion] or alike
    counts = Counter(joint.fastener for joint in alike)
    if counts:
        return counts.most_common(1)[0][0]
    shelf = pending.draft.bench.shelf
    return next((each.id for each in shelf.fasteners if each.kind == how.kind.value), None)


def _add_joint(
    pending: Pending, joint: str, stack: Sequence[str], told: Mapping[str, Any]
) -> None:
    if len(set(stack)) < _LEAST_LAYERS:
        text = "A joint goes through two holes or more."
        raise NotTakenError(text, "Choose the holes of all its layers, the outermost first.")
    slides = told.get("motion") == Motion.SLIDING.value
    for hole in stack:
        if slides and not pending.has_hole(hole):
            pending.drawings.of(hole)
        else:
            pending.hole(hole)
    _check_free(pending, stack)
    pending.add("joints", joint, {"kind": told["kind"], "stack": list(stack)} | dict(told))


def _tell_of(pending: Pending, stack: Sequence[str], how: Holding) -> None:
    """Tell what else is to be said of parts that are joined now."""
    parts = [pending.hole(hole).part for hole in stack if pending.has_hole(hole)]
    names = [pending.part(part).name for part in dict.fromkeys(parts)]
    moved = (set(movement.parts) for movement in pending.pattern.movements)
    if how.motion is not Motion.FIXED and not any(set(parts) <= together for together in moved):
        pending.tell(
            f"How far {listed(names)} move on each other is said in a movement: "
            "Ctrl+E, Add, Movement."
        )
    pieces = dict.fromkeys(pending.part(part).piece for part in parts)
    if len(pieces) > 1:
        pending.tell(
            f"{listed(names)} are of {len(pieces)} pieces, which are dyed and tried on one by "
            "one. V on the drawing table puts a part to another piece."
        )


def _check_free(pending: Pending, holes: Sequence[str]) -> None:
    for joint, told in pending.values.get("joints", {}).items():
        taken = [hole for hole in holes if hole in told.get("stack", ())]
        if taken and not told.get("only_with") and told.get("made_on", "both") == "both":
            text = f'{listed(taken)} is in the joint "{joint}" already.'
            raise NotTakenError(text, "Take it out there first, or add a layer to that joint.")


def _stack(pending: Pending, joint: str) -> list[str]:
    return list(pending.entry("joints", joint).get("stack", ()))
