"""A plan in words for the maker: what is sure, what might still be gained. No solver words."""

from armorplan.kernel.units import span_words
from armorplan.schedule.measures import job_end
from armorplan.schedule.problem import Plan, Problem, Stage, Status
from armorplan.schedule.stages import CHANGES, FINISH, FITS, JUMPS, LATENESS

_MOST_NAMED = 3
"""Of more late builds the first are named and the rest counted."""
_COUNTED = {
    CHANGES: "Batches, colour changes and times at the bench",
    JUMPS: "Steps out of the chosen order",
}


def plan_words(plan: Plan, problem: Problem | None = None) -> tuple[str, str]:
    """Return the sentence for the face of the plan, and the details for who asks.

    With its problem the builds that are late are named.
    """
    late = late_words(plan, problem) if problem is not None else ()
    jobs = problem.jobs if problem is not None else ()
    weighed = any(job.weight != 1 for job in jobs if job.due_min is not None)
    return _face(plan, late, weighed=weighed), _details(plan)


def late_words(plan: Plan, problem: Problem) -> tuple[str, ...]:
    """Return a sentence for each build that is late, the latest first."""
    lies = {p.id: p for p in plan.placed}
    if not lies:
        return ()
    late = [
        (job_end(job, lies) - job.due_min, job.title or job.id)
        for job in problem.jobs
        if job.due_min is not None
    ]
    return tuple(
        f"“{name}” is late by {span_words(minutes)}."
        for minutes, name in sorted(late, key=lambda each: (-each[0], each[1]))
        if minutes > 0
    )


def stage_words(stage: Stage) -> str:
    """Return what one stage comes to, what is proved of it, and how far it can be from best."""
    if stage.name == FITS:
        return _fits_words(stage)
    if stage.name in (LATENESS, FINISH):
        value, bound = span_words(stage.value), span_words(stage.bound)
    else:
        value, bound = str(stage.value), str(stage.bound)
    if stage.name == FINISH:
        any_plan = "in any plan with the joints in this order"
        return f"{stage.name}: after {value}, not before {bound} {any_plan}, {stage.status}."
    if stage.name == LATENESS and not stage.value:
        return "lateness: none, no build ends after it is due."
    name = _COUNTED.get(stage.name, stage.name)
    if stage.bound == stage.value:
        return f"{name}: {value}, in no plan fewer, {stage.status}."
    return f"{name}: {value}, in no plan fewer than {bound}, {stage.status}."


def _fits_words(stage: Stage) -> str:
    gap = stage.value - stage.bound
    if gap <= 0:
        return f"dry-fits: none can be sooner, {stage.status}."
    return f"dry-fits: all together {span_words(gap)} sooner at the very best, {stage.status}."


def _face(plan: Plan, late: tuple[str, ...], *, weighed: bool) -> str:
    if plan.status is Status.NONE:
        return f"No plan is possible: {plan.conflict or 'the demands contradict each other.'}"
    if plan.conflict:
        return f"No plan was found yet: {plan.conflict}"
    if not plan.placed:
        return "Nothing is left to plan."
    stages = {stage.name: stage for stage in plan.stages}
    due = stages.get(LATENESS)
    if due is not None and due.value:
        return " ".join((*_named(late), _lateness_words(due, weighed=weighed)))
    ready = () if due is None else ("Every build is ready when it is due.",)
    return " ".join((*ready, _finish_words(stages.get(FINISH))))


def _named(late: tuple[str, ...]) -> tuple[str, ...]:
    more = len(late) - _MOST_NAMED
    if more <= 0:
        return late
    return (*late[:_MOST_NAMED], f"{more} more {'is' if more == 1 else 'are'} late.")


def _lateness_words(due: Stage, *, weighed: bool) -> str:
    """Tell how far the lateness is from the least there can be."""
    value = f"{span_words(due.value)} in all{', counted by weight' if weighed else ''}"
    if due.value <= due.bound:
        return f"No plan is less late than {value}."
    gain = span_words(due.value - due.bound)
    return f"That is {value}; at the very best {gain} of it can be won."


def _finish_words(finish: Stage | None) -> str:
    if finish is None:
        return "A first plan that holds; a shorter one is being looked for."
    if finish.status is Status.BEST or finish.value <= finish.bound:
        return "This plan cannot be shortened."
    return f"This plan holds; a shorter one might save {span_words(finish.value - finish.bound)}."


def _details(plan: Plan) -> str:
    lines = [stage_words(stage) for stage in plan.stages]
    return "\n".join([*lines, f"Made by: {plan.made_by}. Answer: {plan.status}."])
