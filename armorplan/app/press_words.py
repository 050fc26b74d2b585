"""What a key press was, in words: for undo, redo and what they say."""

from collections.abc import Callable

from armorplan.kernel.errors import ArmorplanError
from armorplan.ledger.batches import Batch
from armorplan.ledger.events import Event, EventKind
from armorplan.ledger.mends import mend_from
from armorplan.orders.recovery.mistakes import mistake_from
from armorplan.steps.model import Work

_WORDS = {
    EventKind.LONGER: "longer time",
    EventKind.STARTED: "start",
    EventKind.PAUSED: "pause",
    EventKind.DONE: "done",
    EventKind.NOTE: "note",
    EventKind.SIGNED_OFF: "sign-off",
    EventKind.LOOKED: "check",
    EventKind.WEIGHED: "weighing",
    EventKind.TAKEN_OUT: "taking out",
    EventKind.FOUND: "finding",
    EventKind.WAIVED: "waiver",
}


def press_words(batch: Batch, work: Work, titles: Callable[[tuple[str, ...]], str]) -> str:
    """Return what a press was about: what hands did, or what was said."""
    entries = batch.events
    # What was said comes first. Dryings are ticked and started on the way, what a way back opens
    # is taken out on the way; the press was about the work of hands.
    told = next((words for event in entries if (words := _told(event, work))), "")
    if told:
        return told
    by_hand = [e for e in entries if not work.has(e.step) or work.step(e.step).attended]
    pressed = by_hand or list(entries)
    pressed = [e for e in pressed if e.kind is not EventKind.TAKEN_OUT] or pressed
    kind = pressed[0].kind
    steps = tuple(e.step for e in pressed if e.kind is kind)
    return f"{_WORDS.get(kind, kind)} of {titles(steps)}"


def _told(event: Event, work: Work) -> str:
    """Return what was said by an entry about the build; empty where it is about a step."""
    if event.kind is EventKind.MEND:
        mend = mend_from(event.text)
        return f"way back: {mend.title}" if mend else "way back"
    if event.kind is EventKind.TAKEN_OUT and not work.has(event.step):
        return "giving up of a way back"
    if event.kind is not EventKind.MISTAKE:
        return ""
    try:
        return f"mistake: {mistake_from(event.text).kind.value}"
    except ArmorplanError:
        return "mistake"
