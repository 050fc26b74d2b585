"""What a plan that keeps to the one before moved, and what made it move, in a few words."""

from collections.abc import Iterator, Mapping
from datetime import timedelta

from armorplan.app.moved_words import ends_words, moved_phrase
from armorplan.app.shown_plan import ShownPlan
from armorplan.app.skill_words import does_words
from armorplan.kernel.units import span_words
from armorplan.schedule.hands import beside_named
from armorplan.schedule.naming import Naming, called
from armorplan.schedule.problem import Placed, Plan, Problem
from armorplan.schedule.shop_checks import kind_in
from armorplan.workshop.absences import absence_of
from armorplan.workshop.shop import Shop

LATE_MIN = 5
"""What takes so much longer or shorter than planned is told; less is within how hands work."""
_MOST_WHY, _MOST_MOVED = 2, 3


def replanned_words(
    problem: Problem, at_hand: ShownPlan, plan: Plan, naming: Naming, shop: Shop
) -> str:
    """Say what moved from the plan at hand and why; empty where nothing did and nothing was late.

    Args:
        problem: as things stand; minute 0 is now.
        at_hand: the plan that people went by.
        plan: what stands in its place.
        naming: names and local time.
        shop: who works in it, and who is away.
    """
    shift_min = _shift_min(problem, at_hand)
    stood = {p.id: p for p in at_hand.plan.placed}
    lies = {p.id: p for p in plan.placed}
    # What dries follows what made it wet, and is no news of its own.
    free = [
        a.id
        for a in problem.activities
        if a.fixed_start_min is None and a.id in lies and lies[a.id].who
    ]
    moved = [i for i in free if i not in stood or not _is_where(lies[i], stood[i], shift_min)]
    why = list(_causes(problem, stood, shift_min, naming, all_told=bool(moved)))
    if not moved:
        return f"{_listed(why)} Nothing else has to move." if why else ""
    order = sorted(moved, key=lambda i: (lies[i].start_min, i))
    told = [
        moved_phrase(problem, at_hand.plan, plan, i, naming, shift_min)
        for i in order[:_MOST_MOVED]
    ]
    more = len(order) - _MOST_MOVED
    also = f"; and {more} more" if more > 0 else ""
    return " ".join(
        (
            _listed([*_away(problem, shop, naming), *_signed(shop, moved, stood, lies), *why])
            or "Hours, skills, air or other work have changed.",
            f"{_how_many(moved, free, lies, stood)}.",
            ends_words(at_hand.plan, plan, shift_min),
            f"Moved: {'; '.join(told)}{also}.",
        )
    )


def _how_many(
    moved: list[str], free: list[str], lies: Mapping[str, Placed], stood: Mapping[str, Placed]
) -> str:
    """Return how many steps moved; of nearly all, whether they only come later, as they stood."""
    stay = len(free) - len(moved)
    known = [i for i in moved if i in stood]
    before = sorted(known, key=lambda i: (stood[i].start_min, i))
    is_as_before = before == sorted(known, key=lambda i: (lies[i].start_min, i))
    if is_as_before and len(moved) > stay:
        return f"{_steps(len(moved))} moved, in the order they stood in; {stay} stay"
    return f"{_steps(len(moved))} moved, {stay} stay"


def _away(problem: Problem, shop: Shop, naming: Naming) -> Iterator[str]:
    for person in shop.people:
        away = absence_of(person, problem.origin_at)
        if away is not None:
            minute = (away.end_at - problem.origin_at) // timedelta(minutes=1)
            yield f"{person.name} is away until {naming.moment(problem, minute)}."


def _signed(
    shop: Shop, moved: list[str], stood: Mapping[str, Placed], lies: Mapping[str, Placed]
) -> Iterator[str]:
    """Yield what was signed off of whoever is at other work for it than before."""
    given = {(kind_in(i), who) for i in moved if i in stood for who in _hands(stood[i], lies[i])}
    for person in shop.people:
        for kind, how in person.signed_off:
            if (kind, person.id) in given:
                yield f"{does_words(person.name, kind, how)}, as signed off."


def _hands(stood: Placed, lies: Placed) -> set[str]:
    """Return who is at a step now and was not, or was and is not any more, or with somebody else."""
    before, now = ((p.who or "", *beside_named(p.mode)) for p in (stood, lies))
    return set() if before == now else {*before, *now}


def _shift_min(problem: Problem, at_hand: ShownPlan) -> int:
    return (at_hand.origin_at - problem.origin_at) // timedelta(minutes=1)


def _is_where(one: Placed, stood: Placed, shift_min: int) -> bool:
    return (one.start_min, one.who) == (stood.start_min + shift_min, stood.who)


def _causes(
    problem: Problem,
    stood: dict[str, Placed],
    shift_min: int,
    naming: Naming,
    *,
    all_told: bool,
) -> Iterator[str]:
    """Yield what did not go as planned, the most first; a little, or sooner, only if all is told."""
    for longer_min, words in sorted(_ends(problem, stood, shift_min), reverse=True):
        if longer_min >= LATE_MIN or all_told:
            yield words
    for activity in problem.activities:
        placed = stood.get(activity.id)
        if activity.fixed_start_min is not None or not activity.ways[0].who:
            continue
        if placed is None:
            yield f"{called(problem, activity.id)} came in addition."
        elif placed.start_min + shift_min < -LATE_MIN:
            since = naming.moment(problem, placed.start_min + shift_min)
            yield f"{called(problem, activity.id)} was to begin {since} and has not."


def _ends(problem: Problem, stood: dict[str, Placed], shift_min: int) -> Iterator[tuple[int, str]]:
    for activity in problem.activities:
        placed, end_min = stood.get(activity.id), activity.fixed_end_min
        if placed is None or end_min is None:
            continue
        longer_min = end_min - (placed.end_min + shift_min)
        if longer_min:
            span = span_words(abs(longer_min))
            ends = "ends" if end_min > 0 else "ended"
            turn = "later" if longer_min > 0 else "sooner"
            yield longer_min, f"{called(problem, activity.id)} {ends} {span} {turn}."


def _listed(told: list[str]) -> str:
    more = len(told) - _MOST_WHY
    return " ".join([*told[:_MOST_WHY], *([f"{more} more went otherwise."] if more > 0 else [])])


def _steps(count: int) -> str:
    return f"{count} step{'' if count == 1 else 's'}"
