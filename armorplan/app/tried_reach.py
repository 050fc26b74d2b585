"""A trial of a tool at the bench, as a maker names it: the joint, the tool, what was set before."""

from dataclasses import dataclass
from difflib import get_close_matches

from armorplan.app.derived import Derived
from armorplan.app.named_work import NamedWork, WorkKind, named_work
from armorplan.app.set_before import plain_joints, set_before
from armorplan.files.catalogue import TOOLS_FILE
from armorplan.geometry.told import listed
from armorplan.kernel.errors import ArmorplanError
from armorplan.steps.model import Step
from armorplan.workshop.shelf import ToolEntry

_NAMED = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What a maker says was tried.

    Attributes:
        joint: its id, plain or with its side.
        did_reach: the tool got there and set it.
        tool: its id; empty: the one that by the model gets there best.
        after: joints and rows that were set before; ``None``: all that the order sets before it.
        made: the same as plain ids of joints, where they are known already; goes before ``after``.
    """

    joint: str
    did_reach: bool
    tool: str = ""
    after: tuple[str, ...] | None = None
    made: frozenset[str] | None = None


def joint_named(derived: Derived, written: str) -> tuple[str, Step]:
    """Return the plain id of the joint named, and the step that sets it for good.

    What else is named stands for its joint where it has but one.
    """
    found = named_work(derived, written)
    if found.kind is not WorkKind.JOINT:
        found = named_work(derived, f"{WorkKind.JOINT}:{_only_joint(derived, written, found)}")
    step = derived.work.step(next(ids[0] for ids in found.by_side.values() if ids))
    plain = {j.joint.id for j in derived.assembly.joints if found.id in (j.id, j.joint.id)}
    return min(plain), step


def _only_joint(derived: Derived, written: str, found: NamedWork) -> str:
    steps = (derived.work.step(id_) for ids in found.by_side.values() for id_ in ids)
    joints = list(dict.fromkeys(plain_joints(derived, steps)))
    if len(joints) == 1:
        return joints[0]
    mend = "Name one joint, by its id."
    if joints:
        mend = f"Name one of its joints: {listed(joints, named=_NAMED, last=' or ')}."
    message = f"'{written}' is a {found.kind}, not a joint. {mend}"
    raise ArmorplanError(message)


def made_before(derived: Derived, joint: str, step: Step, tried: Tried) -> frozenset[str]:
    """Return the plain ids of the joints that were set before."""
    if tried.made is not None:
        return tried.made - {joint}
    if tried.after is not None:
        works = [named_work(derived, written) for written in tried.after]
        steps = (
            derived.work.step(id_) for w in works for ids in w.by_side.values() for id_ in ids
        )
        return frozenset(plain_joints(derived, steps)) - {joint}
    if step.id not in derived.place:
        message = "No order keeps all relations of this pattern. Say what was set before: --after."
        raise ArmorplanError(message)
    return set_before(derived, derived.place[step.id], step.side) - {joint}


def tool_on_shelf(derived: Derived, joint: str, written: str) -> ToolEntry | None:
    """Return the tool named, whatever it serves; ``None`` where none is named.

    Raises:
        ArmorplanError: there is no such tool.
    """
    known = {tool.id: tool for tool in derived.shelf.tools}
    if not written or written in known:
        return known.get(written)
    near = get_close_matches(written, list(known), n=1)
    kind = derived.pattern.joint(joint).kind.value
    setting = [tool.id for tool in derived.shelf.tools if _sets(tool, kind)]
    others = f"Tools of known reach that set such a joint: {', '.join(setting) or 'none'}."
    mend = f"Perhaps '{near[0]}' is meant." if near else others
    message = f"There is no tool '{written}'. {mend}"
    raise ArmorplanError(message)


def _sets(tool: ToolEntry, kind: str) -> bool:
    return kind in tool.serves and tool.reach_mm is not None and not tool.takes_out


def tool_named(
    derived: Derived, joint: str, written: str, serving: tuple[ToolEntry, ...]
) -> ToolEntry:
    """Return the tool named; of none named the first that serves, since where it lies flat any does."""
    found = next((tool for tool in serving if tool.id == written or not written), None)
    if found is not None:
        return found
    offered = ", ".join(tool.id for tool in serving) or "none on the shelf has a reach"
    known = tool_on_shelf(derived, joint, written)
    if known is None:
        message = f"No tool of known reach serves joint '{joint}'. Write reach_mm for one."
    elif derived.pattern.joint(joint).kind.value not in known.serves:
        message = f"'{written}' does not set joint '{joint}'. Tools that do: {offered}."
    elif known.reach_mm is None:
        message = f"No reach is known of '{written}'. Write reach_mm for it in {TOOLS_FILE}."
    else:
        message = (
            f"'{written}' does not close the fastener of '{joint}'. Tools that do: {offered}."
        )
    raise ArmorplanError(message)
