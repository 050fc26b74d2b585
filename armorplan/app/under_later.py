"""A press taken back from under later ones: which one it is, and what was done since on its ground."""

from armorplan.ledger.batches import Batch
from armorplan.ledger.events import EventKind
from armorplan.ledger.state import LedgerState
from armorplan.relations.index import RelationIndex


def last_press_at(step: str, ledger: LedgerState) -> Batch | None:
    """Return the last press that stands and touched a step; ``None``: none did."""
    return next((batch for batch in reversed(ledger.undo_side) if step in batch.steps), None)


def done_since(batch: Batch, ledger: LedgerState, index: RelationIndex) -> tuple[str, ...]:
    """Return what later presses ticked that needs what a press did, by relations that bind."""
    later = ledger.undo_side[ledger.undo_side.index(batch) + 1 :]
    needs = {
        index.steps[member]
        for step in batch.steps
        if step in index.number
        for at in index.by_first[index.number[step]]
        if index.binds[at]
        for member in index.members[at]
    }
    ticked = (e.step for press in later for e in press.events if e.kind is EventKind.DONE)
    return tuple(dict.fromkeys(step for step in ticked if step in needs))
