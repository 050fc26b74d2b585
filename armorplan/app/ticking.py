"""The entries of a tick, wherever it comes from: what it opens, signs off, leaves wet or had waited for."""

from collections.abc import Collection
from dataclasses import dataclass

from armorplan.app.derived import Derived
from armorplan.app.moment import BenchMoment
from armorplan.app.reckoned import reckoned_texts
from armorplan.ledger import acting
from armorplan.ledger.acting import Press
from armorplan.ledger.events import Event, EventKind
from armorplan.relations.model import AfterAny
from armorplan.steps.model import StepKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """What a tick puts into the ledger.

    Attributes:
        ticked: the steps that are done by it, in their order; empty: all were done already.
        dried: dryings whose time was up, ticked with it.
        opened: what stands no more, since a move of a way back opened it.
    """

    events: tuple[Event, ...] = ()
    ticked: tuple[str, ...] = ()
    dried: tuple[str, ...] = ()
    opened: tuple[str, ...] = ()


def tick(moment: BenchMoment, steps: Collection[str], press: Press) -> Tick:
    """Return the tick of some steps in their order; what they leave wet starts to dry in the same press.

    A dry fit is signed off by it, and what a move of a way back opens is taken out.
    """
    derived, ledger = moment.derived, moment.ledger
    dried = dried_for(moment, tuple(steps))
    ordered = tuple(sorted(steps, key=lambda step: derived.place.get(step, 0)))
    again = tuple(step for step in ordered if step in moment.states.again)
    told = reckoned_texts(derived, tuple(steps))
    events = (
        *acting.done(ledger, (*dried, *ordered), press, told=told),
        *acting.done_anew(again, press),
    )
    ticked = tuple(e.step for e in events if e.kind is EventKind.DONE and e.step not in dried)
    if not ticked:
        return Tick()
    opened = _opened_by(derived, ticked)
    fits = tuple(s for s in ticked if derived.work.step(s).kind is StepKind.DRY_FIT)
    return Tick(
        events=(
            *acting.take_out(ledger, opened, press),
            *events,
            *acting.sign_off(ledger, fits, press),
            *acting.start_anew(ledger, _drying_of(derived, ticked), press),
        ),
        ticked=ticked,
        dried=dried,
        opened=opened,
    )


def dried_for(moment: BenchMoment, steps: tuple[str, ...]) -> tuple[str, ...]:
    """Return dryings whose time is up and that these steps needed: going on ticks them."""
    index = moment.derived.index
    firsts = {
        index.steps[index.firsts[at]]
        for step in steps
        if step in index.number
        for at in index.by_member[index.number[step]]
    }
    for at in index.others:
        relation = index.relations[at]
        if isinstance(relation, AfterAny) and relation.then in steps:
            firsts |= relation.of
    needed = tuple(step for step in moment.dried if step in firsts and step not in steps)
    return (*_over(moment, (*needed, *steps)), *needed)


def _over(moment: BenchMoment, steps: tuple[str, ...]) -> tuple[str, ...]:
    """Return what dripped or cured beside dryings, and is over by now: it is ticked with them."""
    work = moment.derived.work
    known = [work.step(step) for step in steps if work.has(step)]
    wet = dict.fromkeys(step.after for step in known if not step.attended)
    beside = [other.id for one in wet if one for other in work.following(one)]
    return tuple(step for step in beside if step in moment.dried and step not in steps)


def _opened_by(derived: Derived, ticked: tuple[str, ...]) -> tuple[str, ...]:
    """Return what stands no more once these are done: moves of a way back open it."""
    opens = derived.mending.opens if derived.mending else {}
    return tuple(dict.fromkeys(step for move in ticked for step in opens.get(move, ())))


def _drying_of(derived: Derived, ticked: tuple[str, ...]) -> tuple[str, ...]:
    """Return what drips, dries and cures from now on; what had dried before a rework is wet again."""
    found = (begun for step in ticked for begun in derived.work.following(step))
    return tuple(begun.id for begun in found if begun.id not in ticked)
