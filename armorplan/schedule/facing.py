"""A plan in words for the maker: what is sure, what might still be gained. No solver words."""

from collections.abc import Iterable

from armorplan.kernel.units import span_words
from armorplan.schedule.late_words import late_words
from armorplan.schedule.lesson_words import lesson_words
from armorplan.schedule.naming import Naming
from armorplan.schedule.problem import Plan, Problem, Stage, Status
from armorplan.schedule.stages import CHANGES, FINISH, FITS, JUMPS, LATENESS, MOVED

_COUNTED = {
    CHANGES: "Batches, colour changes and times at the bench",
    JUMPS: "Steps out of the chosen order",
}
_MADE_BY = {
    "serial": "This plan was laid step by step; it was not searched further.",
    "solver": "This plan was found by searching on.",
    "around tonight": "This plan keeps to the one before where it could.",
}
_IN_TURN = "Each line is about plans that are as good in the lines above it."


def plan_words(
    plan: Plan, problem: Problem | None = None, naming: Naming | None = None
) -> tuple[str, str]:
    """Return the sentence for the face of the plan, and the details for who asks.

    With its problem the builds that are late are named, with the instants in the local time of
    ``naming``, and what is learned in it is told.
    """
    named = naming or Naming()
    lessons = () if problem is None else lesson_words(problem, plan, named.of)
    return _face(plan, problem, named), _details(plan, lessons)


def stage_words(stage: Stage) -> str:
    """Return what one stage comes to, and at most how much better it could be."""
    gap = stage.value - stage.bound
    if stage.name == FITS:
        most = (
            "none can be sooner" if gap <= 0 else f"at most {span_words(gap)} sooner all together"
        )
        return f"Dry-fits: {most}."
    if stage.name == FINISH:
        after = f"Finish: all is done after {span_words(stage.value)}"
        most = "no plan" if gap <= 0 else f"at most {span_words(gap)} sooner in any plan"
        ends = " ends sooner" if gap <= 0 else ""
        return f"{after}; {most} with the joints in this order{ends}."
    if stage.name == MOVED:
        return _moved_words(stage.value, gap)
    if stage.name == LATENESS:
        return _lateness_words(stage.value, gap)
    name = _COUNTED.get(stage.name, stage.name)
    return f"{name}: {stage.value}; {'no plan has fewer' if gap <= 0 else f'at most {gap} fewer'}."


def _moved_words(value: int, gap: int) -> str:
    if not value:
        return "Moved: none, every step stays where it stood."
    most = (
        "no plan that is as punctual and ends as early moves fewer"
        if gap <= 0
        else f"at most {gap} fewer"
    )
    return f"Moved: {value} step{'' if value == 1 else 's'} from where they stood; {most}."


def _lateness_words(value: int, gap: int) -> str:
    if not value:
        return "Lateness: none, no build ends after it is due."
    most = "no plan is less late" if gap <= 0 else f"at most {span_words(gap)} less"
    return f"Lateness: {span_words(value)} in all; {most}."


def _face(plan: Plan, problem: Problem | None, naming: Naming) -> str:
    if plan.status is Status.NONE:
        return f"No plan is possible: {plan.conflict or 'the demands contradict each other.'}"
    if plan.conflict:
        return f"No plan was found yet: {plan.conflict}"
    if not plan.placed:
        return "Nothing is left to plan."
    stages = {stage.name: stage for stage in plan.stages}
    due = stages.get(LATENESS)
    if due is not None and due.value:
        if problem is None:
            return _lateness_words(due.value, due.value - due.bound)
        return late_words(problem, plan, due, naming)
    ready = () if due is None else ("Every build is ready when it is due.",)
    return " ".join((*ready, _finish_words(stages.get(FINISH))))


def _finish_words(finish: Stage | None) -> str:
    if finish is None:
        return "A first plan that holds; a shorter one is being looked for."
    if finish.status is Status.BEST or finish.value <= finish.bound:
        return "This plan cannot be shortened."
    return f"This plan holds; a shorter one might save {span_words(finish.value - finish.bound)}."


def _details(plan: Plan, lessons: Iterable[str]) -> str:
    lines = [stage_words(stage) for stage in plan.stages]
    is_open = any(stage.value > stage.bound for stage in plan.stages[:-1])
    if is_open:
        lines.append(_IN_TURN)
    lines += lessons
    if plan.placed and plan.made_by in _MADE_BY:
        lines.append(_MADE_BY[plan.made_by])
    if plan.status is Status.STOPPED:
        lines.append("Looking for a better one was stopped.")
    return "\n".join(lines)
