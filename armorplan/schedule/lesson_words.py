"""What is learned in a plan, in words: who does how much with whom beside them."""

from collections import Counter
from collections.abc import Callable, Iterator

from armorplan.schedule.problem import Plan, Problem
from armorplan.schedule.teaching import learned_in


def lesson_words(problem: Problem, plan: Plan, name_of: Callable[[str], str]) -> Iterator[str]:
    """Yield a sentence for each two people of whom one learns from the other, of what is to come.

    Args:
        problem: what the plan was made for.
        plan: the plan.
        name_of: a person's name, by their id.
    """
    learned, by_id = learned_in(problem, plan.placed), {a.id: a for a in problem.activities}
    counts: Counter[tuple[str, str]] = Counter()
    for placed in plan.placed:
        way = by_id[placed.id].way(placed.who, placed.mode) if placed.id in learned else None
        if way is not None and way.who is not None:
            counts[way.who, " and ".join(map(name_of, way.also))] += 1
    for (who, beside), count in sorted(counts.items()):
        steps, them = ("1 step", "it") if count == 1 else (f"{count} steps", "them")
        yield (
            f"{name_of(who)} does {steps} with {beside} beside to learn {them}: both are there "
            "anyway, and no build ends later for it."
        )
