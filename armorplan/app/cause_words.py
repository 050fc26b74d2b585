"""What drives the risk of a date, in the words of the bench."""

from collections.abc import Mapping

from armorplan.schedule.problem import Problem
from armorplan.schedule.promise.causes import Cause, CauseKind

_HANDS, _DRYING = "hands: ", "drying: "
"""How causes of durations begin that hands or a treatment share (``schedule.unsure``)."""


def cause_words(problem: Problem, cause: Cause, names: Mapping[str, str]) -> str:
    """Return what is unsure, without a full stop.

    Args:
        problem: with the titles of its activities.
        cause: what is unsure.
        names: what people and treatments are called, by their ids.
    """
    count = len(cause.activities)
    steps = "1 step" if count == 1 else f"{count} steps"
    match cause.kind:
        case CauseKind.APPOINTMENT:
            who = names.get(cause.about, cause.about)
            return f"{who} comes by appointment, and one missed is one waited for ({steps})"
        case CauseKind.WINDOW:
            return f"What is to be done while damp may be missed and be cased again ({steps})"
    if cause.about.startswith(_DRYING):
        treatment = cause.about.removeprefix(_DRYING)
        called = names.get(treatment, treatment.replace("_", " "))
        return f"How long {called} takes to dry ({steps})"
    if cause.about.startswith(_HANDS):
        return f"How long hands take to {cause.about.removeprefix(_HANDS)} ({steps})"
    titles = {a.id: a.title or a.id for a in problem.activities}
    return f"How long '{titles.get(cause.activities[0], cause.about)}' takes"
