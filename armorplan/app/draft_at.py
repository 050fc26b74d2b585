"""From what is chosen at the bench to the entry of the pattern that says it."""

from armorplan.app.carrying import tail
from armorplan.app.draft import Draft
from armorplan.app.rows import Selection
from armorplan.relations.model import AfterAny, Before, BeforeAll, Relation
from armorplan.rules.own import OWN
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
    """Return the entry of what is chosen: its joint, the subject of its step, or its part."""
    if len(chosen.joints) == 1:
        return _known(draft, chosen.joints[0], ("joints",))
    if len(chosen.steps) == 1:
        subject = chosen.steps[0].rpartition("/")[2]
        return _known(draft, subject, _TABLES) or _part(draft, chosen)
    return _part(draft, chosen)


def _part(draft: Draft, chosen: Selection) -> Entry | None:
    return _known(draft, chosen.parts[0], ("parts",)) if chosen.parts else None


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
