"""A plan in words for the maker: what is sure, what might still be gained. No solver words."""

from armorplan.kernel.units import span_words
from armorplan.schedule.problem import Plan, Stage, Status
from armorplan.schedule.stages import FINISH


def plan_words(plan: Plan) -> tuple[str, str]:
    """Return the sentence for the face of the plan, and the details for who asks."""
    return _face(plan), _details(plan)


def _face(plan: Plan) -> str:
    if plan.status is Status.NONE:
        return f"No plan is possible: {plan.conflict or 'the demands contradict each other.'}"
    if plan.conflict:
        return f"No plan was found yet: {plan.conflict}"
    if not plan.placed:
        return "Nothing is left to plan."
    finish = next(iter(plan.stages), None)
    if finish is None:
        return "A first plan that holds; a shorter one is being looked for."
    if finish.status is Status.BEST or finish.value <= finish.bound:
        return "This plan cannot be shortened."
    return f"This plan holds; a shorter one might save {span_words(finish.value - finish.bound)}."


def _details(plan: Plan) -> str:
    lines = [_stage_words(stage) for stage in plan.stages]
    return "\n".join([*lines, f"Made by: {plan.made_by}. Answer: {plan.status}."])


def _stage_words(stage: Stage) -> str:
    if stage.name == FINISH:
        value, bound = span_words(stage.value), span_words(stage.bound)
        any_plan = "in any plan with the joints in this order"
        return f"{stage.name}: after {value}, not before {bound} {any_plan}, {stage.status}."
    return f"{stage.name}: {stage.value}, in no plan fewer than {stage.bound}, {stage.status}."
