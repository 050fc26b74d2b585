"""The first drill: put a few steps of a real order right. Any valid order is right."""

import random
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from armorplan.orders.judging import Verdict, judge_order
from armorplan.orders.repairing import Repair, smallest_repair
from armorplan.relations.checking import Break
from armorplan.relations.index import first_and_members, is_plain, known_relations
from armorplan.relations.model import AfterAny, Relation, Together
from armorplan.relations.weighing import binding

USUAL_LENGTH = 7
"""Steps in a drill: about as many as one keeps in mind at once (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise:
    """Steps to be put in order.

    Attributes:
        before: what is done before them, in order.
        shown: the steps, as they are shown: mixed up, and not a valid order.
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


def make_exercise(
    order: Sequence[str],
    relations: Iterable[Relation],
    *,
    seed: int,
    length: int = USUAL_LENGTH,
) -> Exercise | None:
    """Cut a stretch out of a valid order in which something can go wrong, and mix it up.

    Args:
        order: a valid order of all steps, such as ``one_order`` gives.
        relations: only those that bind count.
        seed: the same seed makes the same exercise.
        length: steps to show; the whole order where it is shorter.

    Returns:
        The exercise, or ``None`` where no stretch of this length has a wrong order.
    """
    chance = random.Random(seed)  # noqa: S311 - a drill, not a secret
    place = {step: at for at, step in enumerate(order)}
    length = min(length, len(order))
    bound = binding(known_relations(order, relations))
    spans = [s for r in bound if (s := _span(r, place)) is not None and s[1] - s[0] < length]
    if not spans:
        return None
    start, end = chance.choice(sorted(set(spans)))
    at = chance.randint(max(0, end - length + 1), min(start, len(order) - length))
    shown = list(order[at : at + length])
    chance.shuffle(shown)
    before, after = tuple(order[:at]), tuple(order[at + length :])
    if judge_order((*before, *shown, *after), order, bound).valid:
        # The shuffle hit a valid order: what comes first goes last, or the other way round.
        inner = order[at : at + length]
        first_last = (*(step for step in inner if step != order[start]), order[start])
        last_first = (order[end], *(step for step in inner if step != order[end]))
        is_right = judge_order((*before, *first_last, *after), order, bound).valid
        shown = list(last_first if is_right else first_last)
    return Exercise(before=before, shown=tuple(shown), after=after)


def _span(relation: Relation, place: Mapping[str, int]) -> tuple[int, int] | None:
    """Return the places of a valid order between which a relation can be broken."""
    if isinstance(relation, AfterAny):
        then = place[relation.then]
        return min(place[step] for step in relation.of - {relation.then}), then
    if isinstance(relation, Together):
        first, last = (pick(place[step] for step in relation.of) for pick in (min, max))
        if last + 1 < len(place):
            return first, last + 1
        return (first - 1, last) if first and first < last else None
    if not is_plain(relation):
        return None
    first_step, members = first_and_members(relation)
    return place[first_step], max(place[member] for member in members)


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
