"""What is closed off, in sentences: out of reach, too late, hidden, for good."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from armorplan.app.closing_order import ClosingOrder
from armorplan.app.closing_reach import Harder, Loss
from armorplan.app.derived import Derived
from armorplan.geometry.told import listed
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import lowered, with_side

THIS = "this"
FOR_GOOD = {
    StepKind.CUT: "what is cut stays cut",
    StepKind.FREE: "what is cut stays cut",
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
NOTHING = "Nothing is closed off by this."
NOTHING_ELSE = {
    StepKind.RIVET: "Only drilling undoes it. All else stays open.",
    StepKind.GLUE: "Glue does not let go again. All else stays open.",
}
"""What is said in its place of what sets a joint for good (common practice, no source)."""
_OPENS_AGAIN = frozenset((StepKind.SCREW, StepKind.LACE))
_NAMED = 3
_NUMBER = re.compile(r", \d+ of \d+$")
"""Behind the title of one step of several alike."""


@dataclass(frozen=True, slots=True)
class Line:
    """A sentence, the joints it is about, and whether something can then not be done any more."""

    text: str
    joints: tuple[str, ...] = ()
    is_grave: bool = False


def nothing_words(steps: Iterable[Step]) -> str:
    """Say that nothing is closed off but what each of these kinds always does."""
    return next((NOTHING_ELSE[s.kind] for s in steps if s.kind in NOTHING_ELSE), NOTHING)


def harder_lines(
    derived: Derived, order: ClosingOrder, found: Iterable[Harder], after: str = THIS
) -> Iterator[Line]:
    """Yield what gets harder to get at, by what it comes to and by tool, the gravest first."""
    by: dict[tuple[Loss, str], list[str]] = {}
    for one in found:
        by.setdefault((one.loss, one.tool), []).append(one.joint)
    for (loss, tool), joints in sorted(by.items()):
        words = _loss_words(loss, order.tool_names.get(tool, tool), len(joints))
        text = f"After {after}, {words}: {joint_names(derived, joints)}."
        yield Line(text, tuple(joints), is_grave=loss is Loss.OUT)


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


def late_lines(
    derived: Derived,
    late: Iterable[str],
    under: Iterable[str],
    after: str = THIS,
    before: str = "first",
) -> Iterator[Line]:
    """Yield the heads that lie hidden before they are set, and the steps that come too late.

    Args:
        derived: the build.
        late: steps that then come too late, but for
        under: those whose heads are then hidden.
        after: what closes them off.
        before: when they have to be done instead.
    """
    heads = joints_of(derived, under)
    if heads:
        told, those = (
            ("1 head lies", "it") if len(heads) == 1 else (f"{len(heads)} heads lie", "those")
        )
        names = joint_names(derived, heads)
        text = f"After {after}, {told} hidden and not set: {names}. Set {those} {before}."
        yield Line(text, heads, is_grave=True)
    # What stands next to it in the order is what was forgotten; the rest follows from that.
    nearest = sorted(set(late), key=lambda one: -derived.place.get(one, 0))
    if nearest:
        titles = [f"'{derived.work.step(one).title}'" for one in nearest]
        text = f"After {after} it is too late for {listed(titles, named=_NAMED)}."
        yield Line(text, joints_of(derived, nearest), is_grave=True)


def hidden_lines(derived: Derived, chosen: Iterable[Step], under: Iterable[str]) -> Iterator[Line]:
    """Yield how many heads that are set lie hidden then, and whether for good."""
    joints = joints_of(derived, under)
    if joints:
        heads = "1 head" if len(joints) == 1 else f"{len(joints)} heads"
        opens = all(step.kind in _OPENS_AGAIN for step in chosen)
        until = "until it is undone again" if opens else "for good"
        yield Line(f"This hides {heads} {until}: {joint_names(derived, joints)}.", joints)


def for_good_lines(chosen: Iterable[Step]) -> Iterator[Line]:
    """Yield what nobody takes back of what is done."""
    told = dict.fromkeys(FOR_GOOD[step.kind] for step in chosen if step.kind in FOR_GOOD)
    if told:
        yield Line(f"This cannot be taken back: {listed(list(told))}.")


def joints_of(derived: Derived, steps: Iterable[str]) -> tuple[str, ...]:
    """Return the joints that steps set, each once."""
    work = derived.work
    found = (joint for step in dict.fromkeys(steps) for joint in work.sets(work.step(step)))
    return tuple(dict.fromkeys(found))


def joint_names(derived: Derived, joints: Iterable[str]) -> str:
    """Return joints in a few words: those of a row together, others by what their step is called."""
    rows: dict[str, list[str]] = {}
    for joint in joints:
        seam = derived.assembly.seam_of(joint)
        step = derived.work.setting(joint)
        title = step.title if step else joint
        row = f"'{_NUMBER.sub('', title)}'"
        if seam is not None:
            row = title = with_side(lowered(seam.seam.name), seam.side)
        rows.setdefault(row, []).append(title if seam is not None else f"'{title}'")
    words = [
        names[0] if len(names) == 1 else f"{len(names)} of {row}" for row, names in rows.items()
    ]
    return listed(words, named=_NAMED)
