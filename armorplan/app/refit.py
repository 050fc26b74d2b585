"""A part that another pattern changes after its dry fit: it is tried again before it is fixed."""

from collections.abc import Iterable, Iterator

from armorplan.app.derived import Derived
from armorplan.app.made_before import MadeBefore
from armorplan.app.trials import fit_of, to_fix
from armorplan.ledger import acting
from armorplan.ledger.acting import Press
from armorplan.ledger.events import Event, EventKind
from armorplan.ledger.mends import Mend, Refit, mend_text
from armorplan.ledger.records import Moment, StepStatus
from armorplan.ledger.state import LedgerState
from armorplan.steps.model import StepKind
from armorplan.steps.naming import part_name

_SHAPING = frozenset(
    (
        StepKind.CUT,
        StepKind.FREE,
        StepKind.SKIVE,
        StepKind.PUNCH,
        StepKind.PREPARE_STRAP,
        StepKind.FORM,
        StepKind.FORM_DRY,
        StepKind.HARDEN,
    )
)
"""Work that makes another part of a part where it is other work now."""


def changed_parts(
    old: Derived, former: LedgerState, left: Iterable[str], made: Iterable[MadeBefore]
) -> tuple[str, ...]:
    """Return the parts that are others than those that were tried.

    Args:
        old: what follows from the former pattern.
        former: how its build stands.
        left: tails of its steps that are other work now.
        made: what was made to it and differs.
    """
    found = dict.fromkeys(one.part for one in made)
    for key in left:
        step = old.work.step(f"{old.assembly.build}/{key}")
        done = former.record(step.id).status is StepStatus.DONE
        if done and step.kind in _SHAPING:
            found |= dict.fromkeys(step.parts)
    return tuple(found)


def tried_again(
    new: Derived, state: LedgerState, parts: Iterable[str], at: Moment
) -> tuple[Event, ...]:
    """Return the entry that closes what fixes changed parts until they were tried again; maybe none.

    Args:
        new: what follows from the changed pattern.
        state: how its build stands, with what was carried over.
        parts: that are changed.
        at: when that is recorded.
    """
    refits = tuple(_refits(new, state, parts))
    if not refits:
        return ()
    names = ", ".join(part_name(new.assembly, refit.part) for refit in refits)
    mend = Mend(
        title=f"Try again what the pattern changed: {names}",
        why="The pattern changed after the dry fit was signed off.",
        refits=refits,
    )
    build = new.assembly.build
    press = Press(build=build, batch=f"refit-{build}", moment=at)
    return acting.tell(EventKind.MEND, acting.way_id(press), mend_text(mend), press)


def _refits(new: Derived, state: LedgerState, parts: Iterable[str]) -> Iterator[Refit]:
    known = {sided.id for sided in new.assembly.parts}
    for part in parts:
        fit = fit_of(new, part) if part in known else None
        if fit is None or state.record(fit.id).status is not StepStatus.DONE:
            continue
        before = tuple(to_fix(new, part, frozenset(state.done_order)))
        if before:
            yield Refit(part=part, before=before)
