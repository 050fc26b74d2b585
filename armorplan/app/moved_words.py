"""What a new plan moved, and what became of the end: in words."""

from armorplan.kernel.units import span_words
from armorplan.schedule.company import beside_in, beside_words
from armorplan.schedule.naming import Naming, called
from armorplan.schedule.problem import Plan, Problem


def moved_phrase(
    problem: Problem, at_hand: Plan, plan: Plan, name: str, naming: Naming, shift_min: int
) -> str:
    """Return where a step starts now and where it stood; ``shift_min`` is added to the minutes at hand."""
    new = next(p for p in plan.placed if p.id == name)
    old = next((p for p in at_hand.placed if p.id == name), None)
    to = naming.moment(problem, new.start_min)
    if old is None or old.start_min + shift_min == new.start_min:
        activity = next(a for a in problem.activities if a.id == name)
        beside = tuple(map(naming.of, beside_in(activity, new)))
        by = f", by {beside_words(naming.of(new.who), beside)}" if new.who else ""
        return f"{called(problem, name)} {to}{by}"
    since = naming.moment(problem, old.start_min + shift_min)
    return f"{called(problem, name)} {since} \N{RIGHTWARDS ARROW} {to}"


def ends_words(at_hand: Plan, plan: Plan, shift_min: int) -> str:
    """Return how much later or sooner all ends than it did."""
    later = plan.finish_min - (at_hand.finish_min + shift_min)
    if not later:
        return "All ends when it did."
    return f"All ends {span_words(abs(later))} {'later' if later > 0 else 'sooner'}."
