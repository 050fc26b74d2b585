"""Sentences about how far a person is: plain, without marks."""

from collections.abc import Callable
from datetime import datetime, tzinfo

from armorplan.practice.grades import Grade, ReasonState
from armorplan.practice.memory import MASTERED_SITS, Memory, is_due, sits, state_of

Counts = Callable[[ReasonState], int]
_STATES = {
    ReasonState.MASTERED: ("sits", "sit"),
    ReasonState.SHAKY: ("is shaky", "are shaky"),
    ReasonState.UNSEEN: ("was not seen yet", "were not seen yet"),
}
_ALL = {
    ReasonState.MASTERED: ("it sits", "all sit"),
    ReasonState.SHAKY: ("it is shaky", "all are shaky"),
    ReasonState.UNSEEN: ("it was not seen yet", "none was seen yet"),
}


def day_words(at: datetime, zone: tzinfo) -> str:
    """Return a day as it is said: '3 Mar 2027'."""
    local = at.astimezone(zone)
    return f"{local.day} {local:%b %Y}"


def reason_sentence(memory: Memory | None, now_at: datetime, zone: tzinfo) -> str:
    """Return how a reason sits, when it was met last, and when it comes again."""
    if memory is None:
        return "Not seen yet."
    last = f"last time, {day_words(memory.last_at, zone)}: {memory.last.value}"
    again = f"Worth asking again {_again(memory, now_at, zone)}."
    return f"{_sits_words(memory, now_at)}; {last}. {again}"


def _sits_words(memory: Memory, now_at: datetime) -> str:
    """Say how it sits; of what was known well, that only more days are lacking."""
    if state_of(memory, now_at) is ReasonState.MASTERED:
        return "Sits"
    is_known = (
        memory.last in (Grade.KNEW, Grade.COULD_TEACH) and sits(memory, now_at) >= MASTERED_SITS
    )
    return "Known, and shaky until it has lasted some weeks" if is_known else "Shaky"


def _again(memory: Memory, now_at: datetime, zone: tzinfo) -> str:
    if is_due(memory, now_at):
        return "now"
    day, today = day_words(memory.due_at, zone), day_words(now_at, zone)
    return "later today" if day == today else f"from {day}"


def counts_sentence(count: Counts, what: str) -> str:
    """Return how many reasons sit, are shaky, and were not seen; ``what`` they are of."""
    found = [(state, count(state)) for state in _STATES if count(state)]
    whole = sum(many for _, many in found)
    if not whole:
        return f"No reason {what} can be asked."
    reasons = f"1 reason {what}" if whole == 1 else f"{whole} reasons {what}"
    if len(found) == 1:
        one, more = _ALL[found[0][0]]
        return f"{reasons}: {one if whole == 1 else more}."
    told = [f"{many} {_STATES[state][many > 1]}" for state, many in found]
    return f"{reasons}: {', '.join(told)}."


def drills_sentence(name: str, drills: int, last_at: datetime | None, zone: tzinfo) -> str:
    """Return how many exercises somebody answered, and when the last one was."""
    if not drills or last_at is None:
        return f"{name} has answered no exercise yet."
    many = "1 exercise" if drills == 1 else f"{drills} exercises"
    return f"{name} has answered {many}, the last one on {day_words(last_at, zone)}."


def due_sentence(due: int) -> str:
    """Return how many reasons are worth asking again by now; empty where none is."""
    if not due:
        return ""
    reasons = "1 reason is" if due == 1 else f"{due} reasons are"
    return f"{reasons} worth asking again now."
