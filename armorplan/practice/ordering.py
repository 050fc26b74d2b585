"""The first drill: put a few steps of a real order right. Any valid order is right."""

import random
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from armorplan.orders.judging import Verdict, judge_order
from armorplan.relations.checking import Break
from armorplan.relations.completing import can_finish
from armorplan.relations.index import first_and_members, is_plain, known_relations
from armorplan.relations.model import AfterAny, Before, Force, Reason, Relation, Together
from armorplan.relations.weighing import binding

USUAL_LENGTH = 7
"""Steps in a drill: about as many as one keeps in mind at once (common practice, no source)."""
MOST_TO_MOVE = 10
"""Longest drill for which the fewest moves are worked out; the work doubles with every step."""


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
        moves: the fewest steps to take out and put elsewhere to make it right; ``None`` where the
            answer holds other steps than the exercise, or too many to work it out.
        verdict: everything that is wrong with the whole order.
    """

    right: bool
    first_break: Break | None
    sentence: str
    moves: int | None
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
    spans = []
    for relation in binding(known_relations(order, relations)):
        if not is_plain(relation):
            continue
        first, members = first_and_members(relation)
        start, end = place[first], max((place[m] for m in members), default=len(order))
        if end - start < length:
            spans.append((start, end))
    if not spans:
        return None
    start, end = chance.choice(sorted(set(spans)))
    at = chance.randint(max(0, end - length + 1), min(start, len(order) - length))
    shown = list(order[at : at + length])
    chance.shuffle(shown)
    before, after = tuple(order[:at]), tuple(order[at + length :])
    if judge_order((*before, *shown, *after), order, relations).valid:
        # The shuffle hit a valid order: what has to come before the last of others goes last.
        shown.remove(order[start])
        shown.append(order[start])
    return Exercise(before=before, shown=tuple(shown), after=after)


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
    return Judgement(
        right=verdict.valid,
        first_break=broken,
        sentence=_sentence(verdict, broken, name),
        moves=_fewest_moves(exercise, answer, kept),
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


def _fewest_moves(
    exercise: Exercise, answer: Sequence[str], relations: tuple[Relation, ...]
) -> int | None:
    """Try to leave ever fewer steps as they stand until the rest can be fitted around them."""
    if sorted(answer) != sorted(exercise.shown) or len(answer) > MOST_TO_MOVE:
        return None
    inside = frozenset(exercise.shown)
    near = tuple(r for r in relations if is_plain(r) and first_and_members(r)[0] in inside)
    named = frozenset[str]().union(*(first_and_members(r)[1] for r in near))
    before = tuple(step for step in exercise.before if step in named)
    to_do = (*answer, *(step for step in exercise.after if step in named))
    for moves in range(len(answer)):
        for kept in combinations(answer, len(answer) - moves):
            as_they_stand = (_keep(a, b) for a, b in pairwise(kept))
            if can_finish(to_do, before, (*near, *as_they_stand)).possible:
                return moves
    return None


def _keep(first: str, then: str) -> Before:
    reason = Reason(rule="as-it-stands", text="as it stands", force=Force.CANNOT, source="")
    return Before(first=first, then=then, reason=reason)
