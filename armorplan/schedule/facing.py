"""A plan in words for the maker: what is sure, what might still be gained. No solver words."""

from armorplan.schedule.problem import Plan, Stage, Status

_HOUR_MIN = 60
_DAY_MIN = 24 * _HOUR_MIN
_FEW_HOURS_MIN = 3 * _HOUR_MIN


def span_words(minutes: int) -> str:
    """Return minutes as a maker says them: ``25 min``, ``2 h``, ``1 day 4 h``."""
    if minutes < _HOUR_MIN:
        return f"{minutes} min"
    if minutes < _FEW_HOURS_MIN and minutes % _HOUR_MIN:
        return f"{minutes // _HOUR_MIN} h {minutes % _HOUR_MIN} min"
    days, rest = divmod(minutes, _DAY_MIN)
    hours = round(rest / _HOUR_MIN)
    parts = [f"{days} day{'s' if days > 1 else ''}"] if days else []
    parts += [f"{hours} h"] if hours or not days else []
    return " ".join(parts)


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
    return f"{stage.name}: {stage.value}, bound {stage.bound}, {stage.status}."
