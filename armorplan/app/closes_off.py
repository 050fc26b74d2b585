"""What a step closes off, in a line before the blow: what is then out of reach, hidden, or for good."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from armorplan.app.closing_order import ClosingOrder
from armorplan.app.closing_reach import Loss, harder_after
from armorplan.app.derived import Derived
from armorplan.geometry.told import listed
from armorplan.relations.index import first_and_members, is_plain
from armorplan.relations.model import Relation
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import lowered, with_side

NOTHING = "Nothing is closed off by this."
HIDES = "hidden-before-cover"
"""The rule whose relations say which cover lies on which head."""
FOR_GOOD = {
    StepKind.CUT: "what is cut stays cut",
    StepKind.BEVEL: "what is taken off an edge is gone",
    StepKind.SKIVE: "leather that is skived stays thin",
    StepKind.PUNCH: "a hole stays a hole",
    StepKind.PUNCH_MARKED: "a hole stays a hole",
    StepKind.TOOL: "what is tooled into the leather stays in it",
    StepKind.HARDEN: "leather that is hardened stays hard",
    StepKind.DYE: "dye only ever gets darker",
    StepKind.OIL: "oil does not come out again",
    StepKind.FINISH: "no dye gets through a finish any more",
}
"""What nobody takes back, by kind of step (common practice, no source)."""
_OPENS_AGAIN = frozenset((StepKind.SCREW, StepKind.LACE))
_NAMED = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosesOff:
    """What is closed off.

    Attributes:
        text: one line, the gravest of it.
        more: further lines, in the order of weight.
        joints: sided ids of the joints that the lines are about.
        by: ids of the steps that close them off.
        is_grave: something can then not be done any more as it should.
    """

    text: str
    more: tuple[str, ...] = ()
    joints: tuple[str, ...] = ()
    by: tuple[str, ...] = ()
    is_grave: bool = False


@dataclass(frozen=True, slots=True)
class _Line:
    text: str
    joints: tuple[str, ...] = ()
    is_grave: bool = False


def closes_off(
    derived: Derived,
    order: ClosingOrder,
    done_joints: Collection[str],
    steps: Iterable[str],
    *,
    done: Collection[str] = (),
) -> ClosesOff:
    """Return what doing steps closes off, in a line.

    Args:
        derived: the build.
        order: reach along its order, which names the tools.
        done_joints: the joints that are set, with their sides.
        steps: what is done next, in one go.
        done: further steps that stand, for what is then too late; those that set joints are known.
    """
    work = derived.work
    chosen = tuple(work.step(one) for one in dict.fromkeys(steps) if work.has(one))
    setting = tuple(joint for step in chosen for joint in work.sets(step))
    harder = tuple(_harder(derived, order, frozenset(done_joints), setting))
    out = frozenset(joint for line in harder if line.is_grave for joint in line.joints)
    standing = _standing(derived, done_joints, done)
    lines = [*harder, *_hidden_or_late(derived, chosen, standing, out), *_for_good(chosen)]
    lines.sort(key=lambda line: not line.is_grave)
    if not lines:
        return ClosesOff(text=NOTHING)
    return ClosesOff(
        text=lines[0].text,
        more=tuple(line.text for line in lines[1:]),
        joints=tuple(dict.fromkeys(joint for line in lines for joint in line.joints)),
        by=tuple(step.id for step in chosen),
        is_grave=lines[0].is_grave,
    )


def _standing(derived: Derived, done_joints: Iterable[str], done: Iterable[str]) -> frozenset[str]:
    setting = (derived.work.setting(joint) for joint in done_joints)
    return frozenset(done) | {step.id for step in setting if step is not None}


def _harder(
    derived: Derived, order: ClosingOrder, made: frozenset[str], setting: tuple[str, ...]
) -> Iterator[_Line]:
    if not setting:
        return
    found = harder_after(derived, made, setting)
    for loss in Loss:
        tools = sorted({one.tool for one in found if one.loss is loss})
        for tool in tools:
            joints = tuple(one.joint for one in found if (one.loss, one.tool) == (loss, tool))
            words = _loss_words(loss, order.tool_names.get(tool, tool), len(joints))
            text = f"After this, {words}: {joint_names(derived, joints)}."
            yield _Line(text, joints, is_grave=loss is Loss.OUT)


def _loss_words(loss: Loss, tool: str, count: int) -> str:
    """Return what becomes of some joints."""
    joints, are = ("1 joint", "is") if count == 1 else (f"{count} joints", "are")
    named = f"the {lowered(tool)}" if tool else "a tool"
    return {
        Loss.OUT: f"{joints} {are} out of reach of every tool you have",
        Loss.ONE_TOOL: f"{joints} {are} out of reach of everything but {named}",
        Loss.END: f"{joints} {are} at the very end of reach of {named}",
        Loss.INSIDE: f"{joints} {are} set from deep inside, with {named}",
    }[loss]


def _hidden_or_late(
    derived: Derived, chosen: tuple[Step, ...], standing: frozenset[str], told: frozenset[str]
) -> Iterator[_Line]:
    """Yield the heads that are then covered, and the steps that then come too late.

    Of what sets joints that are told to be out of reach that is enough.
    """
    after = standing | {step.id for step in chosen}
    shut = tuple(_shut_by(derived, chosen, after))
    hidden = [first for first, relation in shut if relation.reason.rule == HIDES]
    under = [first for first in hidden if first in after]
    late = [
        first
        for first, _ in shut
        if first not in after and not told.intersection(_joints_of(derived, (first,)))
    ]
    if late:
        # What stands next to it in the order is what was forgotten; the rest follows from that.
        nearest = sorted(set(late), key=lambda one: -derived.place.get(one, 0))
        titles = [f"'{derived.work.step(one).title}'" for one in nearest]
        joints = _joints_of(derived, late)
        yield _Line(
            f"After this it is too late for {listed(titles, named=_NAMED)}.", joints, is_grave=True
        )
    if under:
        joints = _joints_of(derived, under)
        heads = "1 head" if len(joints) == 1 else f"{len(joints)} heads"
        opens = all(step.kind in _OPENS_AGAIN for step in chosen)
        until = "until it is undone again" if opens else "for good"
        yield _Line(f"This hides {heads} {until}: {joint_names(derived, joints)}.", joints)


def _shut_by(
    derived: Derived, chosen: tuple[Step, ...], after: frozenset[str]
) -> Iterator[tuple[str, Relation]]:
    """Yield relations of which the last of those that come after stands now, with what comes first."""
    index = derived.index
    now = {index.number[step.id] for step in chosen if step.id in index.number}
    touched = sorted({at for number in now for at in index.by_member[number]})
    for at in touched:
        relation = index.relations[at]
        if relation.reason.binds and is_plain(relation):
            first, members = first_and_members(relation)
            if members <= after and not (first in after and relation.reason.rule != HIDES):
                yield first, relation


def _joints_of(derived: Derived, steps: Iterable[str]) -> tuple[str, ...]:
    work = derived.work
    found = (joint for step in dict.fromkeys(steps) for joint in work.sets(work.step(step)))
    return tuple(dict.fromkeys(found))


def _for_good(chosen: tuple[Step, ...]) -> Iterator[_Line]:
    told = dict.fromkeys(FOR_GOOD[step.kind] for step in chosen if step.kind in FOR_GOOD)
    if told:
        yield _Line(f"This cannot be taken back: {listed(list(told))}.")


def joint_names(derived: Derived, joints: Iterable[str]) -> str:
    """Return joints in a few words: those of a row together, others by what their step is called."""
    rows: dict[str, int] = {}
    for joint in joints:
        seam = derived.assembly.seam_of(joint)
        step = derived.work.setting(joint)
        name = f"'{step.title}'" if step else joint
        if seam is not None:
            name = with_side(lowered(seam.seam.name), seam.side)
        rows[name] = rows.get(name, 0) + 1
    words = [name if count == 1 else f"{count} of {name}" for name, count in rows.items()]
    return listed(words, named=_NAMED)
