"""What is not where it stood, for the solver: one literal for each step that was told before."""

from armorplan.schedule.company import beside_in
from armorplan.schedule.cp.acts import Acts
from armorplan.schedule.cp.draft import Draft
from armorplan.schedule.measures import is_as_it_stood
from armorplan.schedule.problem import Placed
from armorplan.solving.model import Term, at_least, at_most


def moved_steps(draft: Draft, acts: Acts) -> tuple[Term, ...]:
    """Return a literal for each step that is still free: it starts otherwise, or is somebody else's."""
    free = (p for p in acts.problem.stood if p.id in acts.by_id and p.id not in acts.history)
    return tuple((_moved(draft, acts, stood), 1) for stood in free)


def _moved(draft: Draft, acts: Acts, stood: Placed) -> str:
    name, start = stood.id, acts.start(stood.id)
    activity = acts.by_id[name]
    beside = beside_in(activity, stood)
    literal = draft.boolean(
        f"moved {acts.key(name)}",
        lambda plan: int(not is_as_it_stood(activity, stood, plan.lies[name])),
    )
    for ranges in (at_least(stood.start_min), at_most(stood.start_min)):
        draft.keep(((start, 1),), ranges, f"~{literal}")
    for variant, chosen in acts.chosen(name):
        if (variant.way.who, variant.way.also) != (stood.who, beside):
            draft.some_of(literal, *((f"~{chosen}",) if chosen else ()))
    return literal
