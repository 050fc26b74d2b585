"""What timers say: sentences with the marks of ``bell_making`` for instants."""

from armorplan.app.bell_making import AT, CLOSES, SINCE, SURELY, WAS
from armorplan.app.derived import Derived
from armorplan.drying.spans import Stage
from armorplan.ledger.records import StepStatus
from armorplan.ledger.state import LedgerState
from armorplan.relations.model import Before
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import names
from armorplan.steps.windows import window_of

FREE_DUE = f"The time you set {WAS} up at {AT}."
NEVER_DRY = "In this air it will not dry. Bring it where it is warmer or drier."
TOO_COLD = (
    "But this air is too cold for it: what is wet freezes, a finish turns white or powdery, a glue "
    "does not bind. Bring it where it is warmer; the label rules."
)
_STAGES = {
    Stage.TOUCH: "dry to the touch",
    Stage.HANDLE: "dry to handle",
    Stage.CURE: "cured",
    Stage.OPENS: "ready to shape",
}


def due_words(derived: Derived, ledger: LedgerState, step: Step, *, has_band: bool) -> str:
    """Say what it means that a step's time is up, and what may come next."""
    return " ".join(filter(None, (_over(step, has_band=has_band), _go_on(derived, ledger, step))))


def _over(step: Step, *, has_band: bool) -> str:
    if step.kind is StepKind.DRIP:
        return f"It has dripped off {SINCE}."
    if step.kind is StepKind.WATCH:
        return f"The watch {WAS} over at {AT}: what is still wet may dry by itself."
    if step.attended:
        return f"The time planned for it {WAS} up at {AT}."
    if step.drying is None:
        return f"The wait {WAS} over at {AT}."
    surely = f", surely by {SURELY}" if has_band else ""
    feel = " Feel it first." if step.drying.stage is not Stage.CURE else ""
    return f"Most likely {_STAGES[step.drying.stage]} {SINCE}{surely}.{feel}"


def _go_on(derived: Derived, ledger: LedgerState, step: Step) -> str:
    """Name what waits for something that time alone does; the first in the order."""
    if step.attended:
        return ""
    index = derived.index
    if step.id not in index.number:
        return ""
    relations = (index.relations[at] for at in index.by_first[index.number[step.id]])
    waiting = [
        then
        for relation in relations
        if isinstance(relation, Before) and (then := derived.work.step(relation.then)).attended
        if ledger.record(then.id).status is StepStatus.UNTOUCHED
    ]
    if not waiting:
        return ""
    following = min(waiting, key=lambda then: (derived.place.get(then.id, 0), then.id))
    return f"Go on with '{following.title}'."


def opens_words(then: Step, *, closes: bool) -> str:
    """Say that a window is open."""
    until = f", until {CLOSES}" if closes else ""
    return f"'{then.title}' may begin {SINCE}{until}."


def closes_words(then: Step) -> str:
    """Say that a window will close."""
    return f"Begin '{then.title}' by {AT}, or it is too late."


def missed_words(derived: Derived, relation: Before) -> str:
    """Say what it means that a window has closed before its step began."""
    work, shelf = derived.work, derived.shelf
    window = window_of(work, shelf, relation.first, relation.then)
    then = work.step(relation.then)
    if window is None:
        return f"'{then.title}' {WAS} to begin by {AT}."
    shapes = window.closes is Stage.CLOSES
    head = "too dry to shape" if shapes else "too late for the next coat"
    parts = names(derived.assembly, then.parts)
    return f"{parts[:1].upper()}{parts[1:]}: {head} {SINCE}."
