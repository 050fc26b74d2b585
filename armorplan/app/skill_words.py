"""What is said of skills: how a kind of step stands, what was signed off or taken back."""

from collections.abc import Mapping
from datetime import tzinfo

from armorplan.app.practice_protocol import SkillRow
from armorplan.practice.grades import ReasonState
from armorplan.practice.progress_words import counts_sentence, day_words
from armorplan.workshop.skill_how import SkillHow

_HOLDS = {
    SkillHow.ALONE: "Alone",
    SkillHow.BESIDE: "With the maker beside",
    SkillHow.NOT_YET: "Not yet",
}
_DOES = {
    SkillHow.ALONE: "does '{0}' alone",
    SkillHow.BESIDE: "does '{0}' with the maker beside",
    SkillHow.NOT_YET: "does not do '{0}' yet",
}


def row_sentence(row: SkillRow, zone: tzinfo) -> str:
    """Return how a kind of step stands with a person, and who says so."""
    holds = _HOLDS[row.holds]
    if row.how is None or row.at is None:
        return f"{holds}, {SkillHow.AS_FILED.value}."
    note = f" {row.note.rstrip('.')}." if row.note else ""
    return f"{holds}: said by {row.by} on {day_words(row.at, zone)}.{note}"


def practised_sentence(counts: Mapping[ReasonState, int], kind: str) -> str:
    """Return what practice says of the reasons about a kind of step; empty while none was met."""
    if not any(many for state, many in counts.items() if state is not ReasonState.UNSEEN):
        return ""
    return counts_sentence(lambda state: counts.get(state, 0), f"about '{kind}'")


def does_words(name: str, kind: str, how: SkillHow) -> str:
    """Return how somebody does a kind of step, without a full stop."""
    return f"{name} {_DOES[how].format(kind)}"
