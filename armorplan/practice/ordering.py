"""Judging an order that somebody wrote: right is every order that keeps all that binds."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from armorplan.orders.judging import Verdict, judge_order
from armorplan.orders.repairing import Repair, smallest_repair
from armorplan.relations.checking import Break
from armorplan.relations.index import is_plain, known_relations
from armorplan.relations.model import AfterAny, Relation, Together
from armorplan.relations.weighing import binding


@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise:
    """Steps to be put in order.

    Attributes:
        before: what is done before them, in order.
        shown: the steps, in whatever order.
        after: what comes after them, in order.
    """

    before: tuple[str, ...] = ()
    shown: tuple[str, ...]
    after: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """What an answer is worth.

    Attributes:
        right: it is one of the valid orders.
        first_break: the relation it breaks first; ``at`` counts from the answer's own start.
        sentence: the answer to the apprentice, with the relation's reason where it is wrong.
        repair: the smallest repair of the answer; ``None`` where it holds other steps than the
            exercise, or where no order of them is right.
        verdict: everything that is wrong with the whole order.
    """

    right: bool
    first_break: Break | None
    sentence: str
    repair: Repair | None
    verdict: Verdict


def judge(
    exercise: Exercise,
    answer: Sequence[str],
    relations: Iterable[Relation],
    *,
    name: Callable[[str], str] = str,
) -> Judgement:
    """Judge an answer by the relations; it is right if it keeps all that bind.

    Args:
        exercise: what was asked.
        answer: the steps in the order given.
        relations: the relations of the whole order.
        name: gives a step's title for its id, for the sentence.
    """
    whole = (*exercise.before, *exercise.shown, *exercise.after)
    kept = binding(known_relations(whole, relations))
    verdict = judge_order((*exercise.before, *answer, *exercise.after), whole, kept)
    broken = verdict.first_break
    if broken:
        at = broken.at - len(exercise.before)
        broken = Break(relation=broken.relation, at=at, step=broken.step)
    repair = None
    if sorted(answer) == sorted(exercise.shown):
        repair = smallest_repair(answer, kept, before=exercise.before, after=exercise.after)
    return Judgement(
        right=verdict.valid,
        first_break=broken,
        sentence=_sentence(verdict, broken, name),
        repair=repair,
        verdict=verdict,
    )


def _sentence(verdict: Verdict, broken: Break | None, name: Callable[[str], str]) -> str:
    if verdict.unknown:
        return f"Not a step of this exercise: {_listed(verdict.unknown, str)}."
    if verdict.repeated:
        return f"More than once: {_listed(verdict.repeated, name)}."
    if broken:
        return (
            f"'{name(broken.step)}' {_fault(broken.relation, name)}. {broken.relation.reason.text}"
        )
    if verdict.missing:
        return f"Missing: {_listed(verdict.missing, name)}."
    return "Right: this order keeps every relation that binds."


def _fault(relation: Relation, name: Callable[[str], str]) -> str:
    if isinstance(relation, AfterAny):
        others = _listed(tuple(sorted(relation.of - {relation.then})), name)
        return f"comes too early, before any of {others}"
    if isinstance(relation, Together):
        return f"comes between {_listed(tuple(sorted(relation.of)), name)}"
    first = relation.first if is_plain(relation) else ""
    return f"comes too early, before '{name(first)}'"


def _listed(steps: tuple[str, ...], name: Callable[[str], str]) -> str:
    return ", ".join(f"'{name(step)}'" for step in steps)
