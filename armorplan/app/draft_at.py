"""From what is chosen at the bench to the entry of the pattern that says it."""

from armorplan.app.draft import Draft
from armorplan.app.rows import Selection
from armorplan.app.same_work import tail
from armorplan.relations.model import OWN, AfterAny, Before, BeforeAll, Relation
from armorplan.rules.own_names import step_name

Entry = tuple[str, str]
_TABLES = (
    "own_steps",
    "joints",
    "threads",
    "hardware",
    "forms",
    "treatments",
    "fit_checks",
    "parts",
    "pieces",
    "harness",
)
"""Where the subject of a step is looked for; ids are unique in a table only."""


def entry_at(draft: Draft, chosen: Selection) -> Entry | None:
    """Return the entry of what is chosen: a joint, a part, or the subject of a step.

    A part is chosen with the next step on it, which mostly touches other parts as well.
    """
    part = _known(draft, chosen.parts[0], ("parts",)) if len(chosen.parts) == 1 else None
    if len(chosen.steps) != 1:
        joint = chosen.joints[0] if len(chosen.joints) == 1 else ""
        return part or _known(draft, joint, ("joints",))
    if part and _parts_of(draft, chosen.steps[0]) != chosen.parts:
        return part
    return _known(draft, chosen.steps[0].rpartition("/")[2], _TABLES) or part


def _parts_of(draft: Draft, step_id: str) -> tuple[str, ...]:
    """Return the sided parts that a step touches; none where the draft has no such step."""
    steps = draft.derived.work.steps if draft.derived else ()
    return next((step.parts for step in steps if tail(step.id) == tail(step_id)), ())


def _known(draft: Draft, subject: str, tables: tuple[str, ...]) -> Entry | None:
    """Return the table that has the subject, without the marks of side and coat behind its id."""
    named = subject.partition(".")[0]
    return next(((table, named) for table in tables if draft.entry(table, named)), None)


def overruling(draft: Draft, rule: str, one: str, other: str) -> dict[str, str]:
    """Return what an overruling of a reason between two steps holds, the reason's first step first.

    Args:
        draft: the pattern.
        rule: the reason's rule.
        one: id of one step, of any build.
        other: id of the other, or empty for all that the reason speaks of.
    """
    told = {"rule": rule.removeprefix(OWN)}
    if draft.derived is None:
        return told
    names = {tail(step.id): step_name(step) for step in draft.derived.work.steps}
    ends = [tail(one), tail(other)]
    relations = [r for r in draft.derived.relations if r.reason.rule == rule]
    firsts = {tail(first) for relation in relations for first in _firsts(relation)}
    if ends[0] not in firsts and ends[1] in firsts:
        ends.reverse()
    told |= {
        key: names[end] for key, end in zip(("step", "other"), ends, strict=True) if end in names
    }
    return told


def overruled_by(draft: Draft, held: dict[str, str]) -> str:
    """Return the id of the overruling that sets such a reason aside already; empty for none."""
    for entry in draft.entry("overruled", ""):
        told = draft.entry("overruled", entry)
        if told.get("rule") == held.get("rule") and all(
            told.get(end) in (None, "", held.get(end)) for end in ("step", "other")
        ):
            return entry
    return ""


def _firsts(relation: Relation) -> tuple[str, ...]:
    """Return the step that an overruling calls the first; all where the steps stand side by side."""
    match relation:
        case Before(first=step) | BeforeAll(first=step) | AfterAny(then=step):
            return (step,)
        case _:
            return tuple(relation.of)
