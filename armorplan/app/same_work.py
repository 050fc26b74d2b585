"""Which steps of a changed pattern are the same work as before, so that what was ticked holds."""

from armorplan.app.derived import Derived
from armorplan.steps.model import SETS_JOINT, Step, StepKind


def tail(step_id: str) -> str:
    """Return a step's id without its build."""
    return step_id.partition("/")[2]


def same_steps(old: Derived, new: Derived) -> dict[str, str]:
    """Return the ids of the new steps that are the same work as before, by their tails.

    Compared are kind, parts and joints; what is put on, its colour and coat; of a joint that is set
    its fastener, how it moves, and how many holes it passes; of hardware, what and how many. A
    drying is the same only if what it follows is, and a casing only if what it serves is. What
    differs in shape is no other work: leather stays as it was cut.
    """
    same: dict[str, str] = {}
    for step in new.work.steps:
        _settle(tail(step.id), old, new, same)
    return same


def _settle(key: str, old: Derived, new: Derived, same: dict[str, str]) -> bool:
    if key in same:
        return True
    was, now = f"{_build(old)}/{key}", f"{_build(new)}/{key}"
    if not (old.work.has(was) and new.work.has(now)):
        return False
    one, other = old.work.step(was), new.work.step(now)
    if _work(one, old) != _work(other, new):
        return False
    leads = [lead for lead in (other.after, other.serves) if lead is not None]
    if all(_settle(tail(lead), old, new, same) for lead in leads):
        same[key] = now
    return key in same


def _build(derived: Derived) -> str:
    return derived.assembly.build


def _work(step: Step, derived: Derived) -> tuple[object, ...]:
    # Dipped or wiped, the coat is on; the colour is what counts.
    bath = (step.batch_key or "").removesuffix("|dip")
    return (
        step.kind,
        frozenset(step.parts),
        frozenset(step.joints),
        (step.treatment, step.coat, bath),
        tuple(tail(lead) for lead in (step.after or "", step.serves or "")),
        _fastened(step, derived),
    )


def _fastened(step: Step, derived: Derived) -> tuple[object, ...]:
    """Return what a step sets or puts on: it cannot be had by ticking, only by doing it anew."""
    if step.kind in SETS_JOINT:
        joints = (derived.assembly.joint(joint) for joint in step.joints)
        return tuple((j.joint.fastener, j.joint.motion, len(j.stack)) for j in joints)
    if step.kind is StepKind.MOUNT:
        put_on = (h for h in derived.assembly.hardware if step.id.endswith(f"/{h.id}"))
        return tuple((sided.hardware.use, sided.hardware.count) for sided in put_on)
    return ()
