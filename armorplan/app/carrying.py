"""From a build of a pattern to the build of the changed pattern: what is carried over, what differs.

A step of the new build takes the entries of the step of the same id tail, if it is still the same
work (``app.same_work``). Entries keep their instants by both clocks, so a timer goes on as if
nothing had happened. Leather that was cut, punched or formed to the former pattern stays so: its
ticks go over, and what it is out by is told (``app.made_before``). A part that is another than the
one tried is tried again before it is fixed (``app.refit``). Ways back chosen go on in the new build,
with what was said of the former one. The former build is left as it was.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from armorplan.app.derived import Derived
from armorplan.app.made_before import MadeBefore, made_before, made_before_findings
from armorplan.app.mending import is_of_way
from armorplan.app.refit import changed_parts, tried_again
from armorplan.app.same_work import same_steps, tail
from armorplan.kernel.findings import Finding, Severity
from armorplan.ledger.events import Event
from armorplan.ledger.mends import mend_from
from armorplan.ledger.records import StepStatus
from armorplan.ledger.state import LedgerState, derive
from armorplan.ledger.told import TELLING
from armorplan.relations.model import AfterAny, Apart, Before, BeforeAll, Relation, Together
from armorplan.steps.naming import part_name

_NAMED = 3
"""So many steps are named; the rest is counted."""

_OTHER_MIN = 0.25
"""A step whose minutes differ by less takes as long as before."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Retimed:
    """A step whose planned minutes changed."""

    title: str
    before_min: int
    after_min: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """What an upgrade of a build to a changed pattern makes different; steps by their titles.

    Attributes:
        ticked: steps whose ticks were carried over.
        running: steps whose timers go on, or stay paused.
        left: steps with a tick or timer that stays in the former build: gone, or other work now.
        new: steps that the former build had not.
        gone: steps that it had and the new one has not.
        added, dropped: the reasons' sentences, each once.
        made: what was made to the former pattern and differs from this one.
        refits: parts that are tried again before they are fixed.
    """

    former: str
    build: str
    ticked: tuple[str, ...] = ()
    running: tuple[str, ...] = ()
    left: tuple[str, ...] = ()
    new: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()
    retimed: tuple[Retimed, ...] = ()
    added: tuple[str, ...] = ()
    dropped: tuple[str, ...] = ()
    made: tuple[MadeBefore, ...] = ()
    refits: tuple[str, ...] = ()


def carried(
    events: Iterable[Event], old: Derived, new: Derived, *, build: str
) -> tuple[Event, ...]:
    """Return the entries that a new build starts with, in the former ledger's order."""
    same = same_steps(old, new)
    former = f'"{old.assembly.build}/'
    found = []
    for event in events:
        key = tail(event.step)
        if key in same or event.kind in TELLING or is_of_way(key):
            text = event.text
            if event.kind in TELLING:
                # What was said names steps with their build.
                text = text.replace(former, f'"{build}/')
            found.append(
                replace(event, build=build, step=same.get(key, f"{build}/{key}"), text=text, seq=0)
            )
    return tuple(found)


def difference(
    old: Derived, new: Derived, *, former: tuple[str, LedgerState], build: tuple[str, LedgerState]
) -> Difference:
    """Return what differs between two builds of one pattern.

    Args:
        old: what follows from the former pattern.
        new: what follows from the changed one.
        former: id of the former build, and how it stands.
        build: id of the new build, and how it stands with what was carried over.
    """
    before = {tail(step.id): step for step in old.work.steps}
    after = {tail(step.id): step for step in new.work.steps}
    was, now = _sentences(old.relations), _sentences(new.relations)
    both = [(before[key], step) for key, step in after.items() if key in before]
    return Difference(
        former=former[0],
        build=build[0],
        ticked=_standing(new, build[1], StepStatus.DONE),
        running=_standing(new, build[1], StepStatus.RUNNING, StepStatus.PAUSED),
        left=tuple(
            before[tail(record.step)].title
            for record in former[1].records
            if record.status is not StepStatus.UNTOUCHED and tail(record.step) in before
            if build[1].record(f"{build[0]}/{tail(record.step)}").status is StepStatus.UNTOUCHED
        ),
        new=tuple(step.title for key, step in after.items() if key not in before),
        gone=tuple(step.title for key, step in before.items() if key not in after),
        retimed=tuple(
            Retimed(title=step.title, before_min=former_step.minutes, after_min=step.minutes)
            for former_step, step in both
            if former_step.minutes != step.minutes
            # What only gets another share of the rounding takes what it took.
            and abs(old.exact_min(former_step) - new.exact_min(step)) >= _OTHER_MIN
        ),
        added=_beside(now, was),
        dropped=_beside(was, now),
        made=made_before(old, new, build[1]),
    )


def _sentences(relations: Iterable[Relation]) -> dict[object, str]:
    """Return the reasons' sentences by what they say of which steps."""
    return {
        (relation.reason.rule, relation.reason.overruled, *_ends(relation)): relation.reason.text
        for relation in relations
    }


def _beside(one: dict[object, str], other: dict[object, str]) -> tuple[str, ...]:
    """Return the sentences of the first that the second has not, each once."""
    return tuple(dict.fromkeys(text for key, text in one.items() if key not in other))


def _ends(relation: Relation) -> tuple[object, ...]:
    match relation:
        case Before(first=first, then=then):
            return ("before", tail(first), tail(then))
        case BeforeAll(first=step, of=of):
            return ("before all", tail(step), frozenset(map(tail, of)))
        case AfterAny(then=step, of=of):
            return ("after any", tail(step), frozenset(map(tail, of)))
        case Together(of=of):
            return ("together", frozenset(map(tail, of)))
        case Apart(of=of, on=on):
            return ("apart", on, frozenset(map(tail, of)))


def _standing(derived: Derived, state: LedgerState, *wanted: StepStatus) -> tuple[str, ...]:
    return tuple(
        derived.work.step(record.step).title
        for record in state.records
        if record.status in wanted and derived.work.has(record.step)
    )


def upgraded(
    events: tuple[Event, ...], old: Derived, new: Derived, *, former: str, build: str
) -> tuple[tuple[Event, ...], Difference]:
    """Return the entries a new build starts with, and what differs from the former one."""
    taken = carried(events, old, new, build=build)
    was, now = derive(events), derive(taken)
    told = difference(old, new, former=(former, was), build=(build, now))
    kept = same_steps(old, new)
    left = [key for r in was.records if (key := tail(r.step)) not in kept and old.work.has(r.step)]
    parts = changed_parts(old, was, left, told.made)
    again = tried_again(new, now, parts, now.latest) if now.latest else ()
    names = (mend.refits for event in again if (mend := mend_from(event.text)))
    refits = tuple(part_name(new.assembly, refit.part) for found in names for refit in found)
    # In front, so that undo takes back what was ticked last.
    return (*again, *taken), replace(told, refits=refits)


def difference_findings(
    told: Difference, changed: str = "The pattern was changed"
) -> tuple[Finding, ...]:
    """Say what differs, and the way back to the former build; then what was made to the former."""
    return (_difference_finding(told, changed), *made_before_findings(told.made))


def _difference_finding(told: Difference, changed: str) -> Finding:
    bits = (
        _carried_words(told),
        _listed("they stay in the former build, as other work now: {0}", told.left),
        _listed("to be dry-fitted again before they are fixed: {0}", told.refits),
        _listed("new steps: {0}", told.new),
        _listed("gone: {0}", told.gone),
        _listed("other minutes: {0}", tuple(map(_retimed, told.retimed))),
        f"reasons added: {len(told.added)}" if told.added else "",
        f"reasons dropped: {len(told.dropped)}" if told.dropped else "",
    )
    return Finding(
        code="pattern-changed",
        severity=Severity.WARNING if told.left else Severity.NOTE,
        text=f"{changed} since the build '{told.former}' was started; this is the "
        f"new build '{told.build}'. {'; '.join(filter(None, bits))}.",
        remedy=f"'{told.former}' is kept as it was, with all its ticks and timers: "
        f"armorplan window --build {told.former} goes on with it.",
    )


def _carried_words(told: Difference) -> str:
    if not told.ticked and not told.running:
        return "Nothing is ticked in it"
    ticks = f"{len(told.ticked)} {'tick' if len(told.ticked) == 1 else 'ticks'} carried over"
    timers = f", {len(told.running)} under way" if told.running else ""
    return f"{ticks}{timers}"


def _listed(words: str, titles: tuple[str, ...]) -> str:
    if not titles:
        return ""
    more = len(titles) - _NAMED
    shown = ", ".join(titles[:_NAMED])
    return words.format(f"{shown} and {more} more" if more > 0 else shown)


def _retimed(step: Retimed) -> str:
    return f"{step.title} {step.before_min} → {step.after_min} min"
