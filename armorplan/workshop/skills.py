"""Skills signed off at the bench: who does which kind of step, beside what the shop's file says."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from armorplan.workshop.shop import Shop
from armorplan.workshop.skill_how import SkillHow

__all__ = ["SignedOff", "SkillHow", "with_skills"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SignedOff:
    """One word on how a person does a kind of step.

    Attributes:
        person: whose skill: an id, or a name.
        kind: the kind of step, a ``steps.model.StepKind`` value.
        by: who says so.
        at: when it was said; aware, UTC.
        note: what was seen; empty where nothing was written.
    """

    person: str
    kind: str
    how: SkillHow
    by: str
    at: datetime
    note: str = ""


def with_skills(shop: Shop, rows: Iterable[SignedOff]) -> Shop:
    """Return a shop whose people do what was signed off, and for the rest what its file says.

    Of each person and kind the last row counts; the rows stand in the order they were said. Of
    people who are not in the shop they say nothing. What was signed off in the shop before counts
    no more: applied anew to what it returned, it returns what it would of the shop as filed.
    """
    words: dict[str, dict[str, SkillHow]] = {}
    for row in rows:
        person = shop.called(row.person)
        if person is not None:
            words.setdefault(person.id, {})[row.kind] = row.how
    people = tuple(
        replace(person, signed_off=_said(words.get(person.id, {}))) for person in shop.people
    )
    return shop if people == shop.people else replace(shop, people=people)


def _said(words: dict[str, SkillHow]) -> tuple[tuple[str, SkillHow], ...]:
    """Return what was said by kind, those left out of which it was taken back."""
    return tuple(sorted((kind, how) for kind, how in words.items() if how != SkillHow.AS_FILED))
