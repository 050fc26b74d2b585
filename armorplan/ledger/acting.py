"""Key presses: the entries each one makes. None is ever refused."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from zlib import crc32

from armorplan.kernel.clock import Clock
from armorplan.ledger.batches import Batch
from armorplan.ledger.events import ANEW, Event, EventKind
from armorplan.ledger.hands import NOTHING_TOLD
from armorplan.ledger.looks import LookTaken, look_text
from armorplan.ledger.records import Moment, StepStatus, moment_now
from armorplan.ledger.state import LedgerState


@dataclass(frozen=True, slots=True, kw_only=True)
class Press:
    """One key press: its build, the batch id its entries share, its moment, and who pressed."""

    build: str
    batch: str
    moment: Moment
    who: str = ""


def press_now(build: str, batch: str, clock: Clock, *, who: str = "") -> Press:
    """Make a press of this moment; ``batch`` is a fresh uuid4 from the caller."""
    return Press(build=build, batch=batch, moment=moment_now(clock), who=who)


def start(state: LedgerState, steps: tuple[str, ...], press: Press) -> tuple[Event, ...]:
    """Start or resume these steps; those that run already make no entry.

    A step that was done runs again, for rework.
    """
    chosen = _standing_otherwise(state, steps, StepStatus.RUNNING)
    return _entries(press, chosen, EventKind.STARTED)


def start_anew(state: LedgerState, steps: tuple[str, ...], press: Press) -> tuple[Event, ...]:
    """Start these steps from this moment, however they stand: a coat put on again dries anew."""
    begun = (StepStatus.RUNNING, StepStatus.PAUSED)
    return tuple(
        replace(entry, text=ANEW) if state.record(entry.step).status in begun else entry
        for entry in _entries(press, tuple(dict.fromkeys(steps)), EventKind.STARTED)
    )


def pause(state: LedgerState, steps: tuple[str, ...], press: Press) -> tuple[Event, ...]:
    """Pause these steps; those that do not run make no entry."""
    chosen = tuple(
        step for step in dict.fromkeys(steps) if state.record(step).status is StepStatus.RUNNING
    )
    return _entries(press, chosen, EventKind.PAUSED)


def done(
    state: LedgerState,
    steps: tuple[str, ...],
    press: Press,
    *,
    told: Mapping[str, str] = NOTHING_TOLD,
) -> tuple[Event, ...]:
    """Tick these steps, started or not; those already done make no entry.

    ``told`` is the text of a step's entry: what it was reckoned to take (``ledger.hands``).
    """
    chosen = _standing_otherwise(state, steps, StepStatus.DONE)
    entries = _entries(press, chosen, EventKind.DONE)
    return tuple(replace(entry, text=told.get(entry.step, "")) for entry in entries)


def done_anew(steps: tuple[str, ...], press: Press) -> tuple[Event, ...]:
    """Tick steps that were done once more: begun and ended again in this press."""
    chosen = tuple(dict.fromkeys(steps))
    begun = _entries(press, chosen, EventKind.STARTED)
    return (*begun, *_entries(press, chosen, EventKind.DONE))


def sign_off(state: LedgerState, steps: tuple[str, ...], press: Press) -> tuple[Event, ...]:
    """Sign these steps off; those already signed off make no entry."""
    chosen = tuple(s for s in dict.fromkeys(steps) if not state.record(s).signed_off)
    return _entries(press, chosen, EventKind.SIGNED_OFF)


def note(steps: tuple[str, ...], text: str, press: Press) -> tuple[Event, ...]:
    """Write a note to these steps; a blank one makes no entry."""
    if not text.strip():
        return ()
    return _entries(press, tuple(dict.fromkeys(steps)), EventKind.NOTE, text=text)


def take_out(state: LedgerState, steps: tuple[str, ...], press: Press) -> tuple[Event, ...]:
    """Let these steps stand no more; those that were never begun make no entry."""
    return _entries(
        press, _standing_otherwise(state, steps, StepStatus.UNTOUCHED), EventKind.TAKEN_OUT
    )


def way_id(press: Press) -> str:
    """Return the id of a way back chosen by a press: short, and the same wherever it is read."""
    return f"{press.build}/mend/{crc32(press.batch.encode()):08x}"


def give_up(way: str, press: Press) -> tuple[Event, ...]:
    """Give up a way back that was chosen, by its id."""
    return _entries(press, (way,), EventKind.TAKEN_OUT)


def waive(state: LedgerState, steps: tuple[str, ...], why: str, press: Press) -> tuple[Event, ...]:
    """Leave these fits out for a reason; without one, or where they are done, there is no entry."""
    if not why.strip():
        return ()
    chosen = _standing_otherwise(state, steps, StepStatus.DONE)
    return _entries(press, chosen, EventKind.WAIVED, text=why.strip())


def longer(minutes: Mapping[str, int], press: Press) -> tuple[Event, ...]:
    """Say of steps under way how many minutes each takes in all."""
    return tuple(
        entry
        for step, total in minutes.items()
        for entry in _entries(press, (step,), EventKind.LONGER, text=str(total))
    )


def tell(kind: EventKind, about: str, text: str, press: Press) -> tuple[Event, ...]:
    """Say a mistake, a way back chosen or something found (``ledger.told``) of a step."""
    return _entries(press, (about,), kind, text=text)


def look(state: LedgerState, step: str, seen: LookTaken, press: Press) -> tuple[Event, ...]:
    """Record a look at a drying, or a weighing; one that is dry is ticked in the same press."""
    kind = EventKind.LOOKED if seen.weights_g is None else EventKind.WEIGHED
    entries = _entries(press, (step,), kind, text=look_text(seen))
    return (*entries, *done(state, (step,), press)) if seen.dry else entries


def undo(state: LedgerState, press: Press, *, reason: str = "") -> tuple[Event, ...]:
    """Take back the last press that still stands: one entry for each step it touched."""
    return _turns(press, state.undo_side, EventKind.UNDONE, reason)


def undo_press(batch: Batch, press: Press, *, reason: str = "") -> tuple[Event, ...]:
    """Take back one press that stands, whatever was done after it."""
    return _turns(press, (batch,), EventKind.UNDONE, reason)


def redo(state: LedgerState, press: Press, *, reason: str = "") -> tuple[Event, ...]:
    """Restore what was last taken back: one entry for each step it touched."""
    return _turns(press, state.redo_side, EventKind.REDONE, reason)


def _standing_otherwise(
    state: LedgerState, steps: tuple[str, ...], status: StepStatus
) -> tuple[str, ...]:
    return tuple(s for s in dict.fromkeys(steps) if state.record(s).status is not status)


def _turns(
    press: Press, side: tuple[Batch, ...], kind: EventKind, reason: str
) -> tuple[Event, ...]:
    if not side:
        return ()
    return _entries(press, side[-1].steps, kind, text=reason, undoes=side[-1].id)


def _entries(
    press: Press,
    steps: tuple[str, ...],
    kind: EventKind,
    *,
    text: str = "",
    undoes: str | None = None,
) -> tuple[Event, ...]:
    return tuple(
        Event(
            build=press.build,
            step=step,
            kind=kind,
            at=press.moment.at,
            boot_id=press.moment.boot_id,
            boot_s=press.moment.boot_s,
            batch=press.batch,
            who=press.who,
            text=text,
            undoes=undoes,
        )
        for step in steps
    )
