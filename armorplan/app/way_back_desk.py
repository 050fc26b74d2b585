"""Mistakes and ways back of a session's build: told, looked for, chosen, given up."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import partial
from typing import Protocol

from armorplan.app.chosen_way import chosen_way, mend_of, standing_order, waiting_for
from armorplan.app.derived import Derived
from armorplan.app.looked_up import kinds_at, looking, named_steps, why_not
from armorplan.app.moment import BenchMoment
from armorplan.app.ticking import tick
from armorplan.app.way_back_protocol import ChosenWay, Solve
from armorplan.app.way_back_rows import Stuck, WayBack, WaysBack
from armorplan.app.way_dates import Dating
from armorplan.kernel.errors import ArmorplanError
from armorplan.ledger import acting
from armorplan.ledger.acting import Press
from armorplan.ledger.events import Event, EventKind
from armorplan.ledger.mends import Mend, mend_text
from armorplan.ledger.told import Told
from armorplan.orders.recovery.mistakes import (
    Mistake,
    MistakeKind,
    mistake_from,
    mistake_text,
)
from armorplan.orders.recovery.scene import IMPLIED
from armorplan.relations.index import is_plain


class Bench(Protocol):
    """What the desk needs of a session."""

    def moment(self) -> BenchMoment:
        """Return how the build stands."""
        ...

    def press(self) -> Press:
        """Return a press of this moment."""
        ...

    def keep(self, events: tuple[Event, ...], said: str) -> str:
        """Put entries on the disk and show them."""
        ...


class WayBackDesk:
    """Fulfils ``way_back_protocol.BenchWayBack``."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._stuck_of: tuple[BenchMoment | None, tuple[Stuck, ...]] = (None, ())

    # --- what is wrong -----------------------------------------------------------------------

    def stuck(self) -> tuple[Stuck, ...]:
        """Return the steps that can no more be done in a valid way, each once with its reasons."""
        moment = self._bench.moment()
        if self._stuck_of[0] is not moment:
            self._stuck_of = moment, tuple(_stuck(moment))
        return self._stuck_of[1]

    def mistake_kinds(
        self, steps: tuple[str, ...] = (), parts: tuple[str, ...] = ()
    ) -> tuple[MistakeKind, ...]:
        """Return what can have gone wrong with these; with nothing named, all that can be told."""
        if not steps and not parts:
            return tuple(MistakeKind)
        return kinds_at(self._bench.moment().derived, steps, parts)

    def mistakes(self) -> tuple[Mistake, ...]:
        """Return what was told and no way back chosen since answers."""
        return tuple(mistake for _, mistake in self._open())

    def _open(self) -> tuple[tuple[Told, Mistake], ...]:
        moment = self._bench.moment()
        mending = moment.derived.mending
        settled = {one for way in (mending.ways if mending else ()) for one in way.mend.settles}
        found = []
        for told in moment.ledger.said(EventKind.MISTAKE):
            if told.id not in settled:
                mistake = _read(told)
                if mistake is not None:
                    found.append((told, mistake))
        return tuple(found)

    def tell(self, mistake: Mistake) -> str:
        """Record what went wrong; steps that turn out to stand are ticked in the same press.

        What cannot be looked up is not kept: no way back would be found any more.
        """
        moment, press = self._bench.moment(), self._bench.press()
        derived = moment.derived
        why = why_not(derived, mistake)
        if why:
            return f"Not kept: {why}"
        about = _step_about(derived, mistake)
        events = acting.tell(EventKind.MISTAKE, about, mistake_text(mistake), press)
        stand = named_steps(derived, mistake) if mistake.kind is MistakeKind.CLOSED else ()
        made = tick(moment, stand, press)
        count = len(made.ticked)
        more = f" {count} {'step' if count == 1 else 'steps'} ticked with it." if count else ""
        return self._bench.keep((*events, *made.events), f"Noted: {mistake.kind.value}.{more}")

    def asking(self, solver: Solve | None = None) -> Callable[[], WaysBack]:
        """Return what looks for the ways back; it may be called in another thread."""
        moment = self._bench.moment()
        return partial(looking, moment.derived, standing_order(moment), self.mistakes(), solver)

    # --- ways back ---------------------------------------------------------------------------

    def choose(self, way: WayBack) -> str:
        """Follow a way back: its moves become steps of the build."""
        moment, press = self._bench.moment(), self._bench.press()
        if not way.moves:
            return "This way back has nothing to do: nothing was changed."
        mend = self._mend_of(moment, way)
        name = acting.way_id(press)
        events = acting.tell(EventKind.MEND, name, mend_text(mend), press)
        is_work = any(move.opens or move.minutes for move in way.moves)
        said = f"On the way back: {way.title}." if is_work else f"Nothing more to do: {way.title}."
        return self._bench.keep(events, said)

    def _mend_of(self, moment: BenchMoment, way: WayBack) -> Mend:
        """Return a way back as it is kept, with the mistakes it answers."""
        told = [(t, m) for t, m in self._open() if not why_not(moment.derived, m)]
        mend = mend_of(moment, way, tuple(one.id for one, _ in told))
        about = tuple(a for _, mistake in told for a in mistake.about)
        parts = _parts(moment.derived, about)
        before = tuple(waiting_for(moment, about, parts)) if about else ()
        return replace(mend, about=parts, before=before)

    def dating(self, found: WaysBack) -> Dating:
        """Return what says what each way does to the date; it may be asked in another thread."""
        moment = self._bench.moment()
        mends = {way.id: self._mend_of(moment, way) for way in found.ways if way.moves}
        return Dating(found=found, moment=moment, mends=mends)

    def chosen(self) -> tuple[ChosenWay, ...]:
        """Return the ways back that were chosen and are not done yet."""
        moment = self._bench.moment()
        mending = moment.derived.mending
        ways = (chosen_way(moment, way) for way in (mending.ways if mending else ()))
        return tuple(way for way in ways if way.steps and not way.given_up)

    def forget(self, way: str) -> str:
        """Give a way back up by its id; what was done of it stands.

        Not while one that was chosen later is followed: it may rest on what this one opens.
        """
        known = {one.id: one.title for one in self.chosen()}
        if way not in known:
            return "That way back is not followed any more."
        later = list(known)[list(known).index(way) + 1 :]
        if later:
            last = known[later[-1]]
            return (
                f"Not given up: '{last}' was chosen later and may rest on it. Give that up first."
            )
        events = acting.give_up(way, self._bench.press())
        return self._bench.keep(events, f"Given up: {known[way]}. What was done of it stands.")

    def found(self, step: str, text: str) -> str:
        """Keep what a fit showed."""
        if not text.strip():
            return "Nothing was found: nothing is kept."
        events = acting.tell(EventKind.FOUND, step, text, self._bench.press())
        return self._bench.keep(events, "Kept with the fit.")


def _stuck(moment: BenchMoment) -> tuple[Stuck, ...]:
    whys: dict[str, dict[str, None]] = {}
    done = frozenset(moment.ledger.done_order) - moment.states.to_open
    for relation in moment.states.standing.set_aside:
        # Where a rivet stands its leather was cut, ticked or not: that is no step that comes too late.
        is_past = relation.reason.rule in IMPLIED
        if is_plain(relation) and relation.first not in done and not is_past:
            whys.setdefault(relation.first, {})[relation.reason.text] = None
    work, place = moment.derived.work, moment.derived.place
    return tuple(
        Stuck(step=step, title=work.step(step).title, why=" ".join(whys[step]))
        for step in sorted(whys, key=lambda one: place.get(one, 0))
    )


def _read(told: Told) -> Mistake | None:
    try:
        return mistake_from(told.text)
    except ArmorplanError:
        return None


def _parts(derived: Derived, about: Iterable[str]) -> tuple[str, ...]:
    """Return the parts that these ids name, by themselves or by a hole, joint or step of theirs."""
    known = {part.id for part in derived.assembly.parts}
    joints = {joint.id: joint.parts for joint in derived.assembly.joints}
    found: dict[str, None] = {}
    for one in about:
        steps = derived.work.step(one).parts if derived.work.has(one) else ()
        for part in (one, one.partition("/")[0], *joints.get(one, ()), *steps):
            if part in known:
                found.setdefault(part)
    return tuple(found)


def _step_about(derived: Derived, mistake: Mistake) -> str:
    """Return the step that a mistake is told of: one it names, else the first of its parts."""
    named = (one for one in (*mistake.about, *named_steps(derived, mistake)))
    touched = (
        s.id for part in _parts(derived, mistake.about) for s in derived.work.touching(part)
    )
    known = (step for step in (*named, *touched) if derived.work.has(step))
    return next(known, derived.work.steps[0].id)
