"""Key presses at the bench: which entries they make and what to say of them."""

from collections.abc import Callable, Mapping, Sequence
from math import ceil

from armorplan.app.bench_states import by_hand
from armorplan.app.derived import Derived
from armorplan.app.moment import BenchMoment
from armorplan.app.outside_windows import too_late_words, too_soon_words
from armorplan.app.press_words import press_words
from armorplan.app.ticking import dried_for, tick
from armorplan.app.tray_ticks import waits_for_drying
from armorplan.app.under_later import done_since, last_press_at
from armorplan.kernel.clock import Clock
from armorplan.kernel.units import span_words
from armorplan.ledger import acting
from armorplan.ledger.acting import Press
from armorplan.ledger.batches import Batch
from armorplan.ledger.events import Event
from armorplan.ledger.records import StepStatus
from armorplan.orders.consequence import consequences_of_all
from armorplan.relations.index import is_plain, named_steps
from armorplan.relations.model import AfterAny, Relation, Together
from armorplan.steps.model import StepKind

_FITS = (StepKind.DRY_FIT, StepKind.FIT)
_NOTHING_CHOSEN = "Choose a step first."


class Presses:
    """Makes the entries of each key press; never refuses what happened."""

    def __init__(
        self,
        derived: Derived,
        build: str,
        clock: Clock,
        new_id: Callable[[], str],
        *,
        who: str = "",
    ) -> None:
        self._derived = derived
        self._build = build
        self._clock = clock
        self._new_id = new_id
        self._who = who

    def go_on_in(self, derived: Derived) -> None:
        """Speak of the steps as they are in another air, or on a way back."""
        self._derived = derived

    def press(self) -> Press:
        """Return a press of this moment, by whoever works in this window."""
        return acting.press_now(self._build, self._new_id(), self._clock, who=self._who)

    def _known(self, steps: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(step for step in dict.fromkeys(steps) if self._derived.work.has(step))

    def start(self, moment: BenchMoment, steps: tuple[str, ...]) -> tuple[tuple[Event, ...], str]:
        """Start or resume steps."""
        steps = self._known(steps)
        if not steps:
            return (), _NOTHING_CHOSEN
        press = self.press()
        events = (
            *acting.done(moment.ledger, dried_for(moment, steps), press),
            *acting.start(moment.ledger, steps, press),
        )
        waits = moment.states.standing.waits_for
        unmet = [relation for step in steps for relation in waits.get(step, ())]
        return events, self._said("Started", steps, unmet, moment)

    def pause(self, moment: BenchMoment, steps: tuple[str, ...]) -> tuple[tuple[Event, ...], str]:
        """Pause steps; what dries goes on drying."""
        steps = self._known(steps)
        if not steps:
            return (), _NOTHING_CHOSEN
        steps = tuple(step for step in steps if self._is_attended(step))
        if not steps:
            return (), "Drying goes on by itself and cannot be paused."
        events = acting.pause(moment.ledger, steps, self.press())
        return events, self._said(
            "Paused", steps, [], moment
        ) if events else "Nothing was running there."

    def done(self, moment: BenchMoment, steps: tuple[str, ...]) -> tuple[tuple[Event, ...], str]:
        """Tick steps, in their order; what they left wet starts to dry in the same press.

        Of a tray what waits for a drying is left open, and told.
        """
        chosen = self._known(steps)
        if not chosen:
            return (), _NOTHING_CHOSEN
        waiting = waits_for_drying(moment, chosen)
        steps = tuple(step for step in chosen if step not in waiting)
        made = tick(moment, steps, self.press())
        ticked, left = made.ticked, self._left_open(waiting)
        if not ticked:
            return (), left.strip() or "That was done already."
        broken = self._broken(moment, ticked, made.dried)
        if not any(map(self._is_attended, ticked)):
            broken = tuple(r for r in broken if not isinstance(r, Together))
        said = self._said("Done", ticked, broken, moment, early=True)
        opened = self._open_again(made.opened)
        return made.events, said + opened + self._still_wet(moment, ticked) + left

    def _broken(
        self, moment: BenchMoment, ticked: tuple[str, ...], dried: tuple[str, ...]
    ) -> tuple[Relation, ...]:
        """Return what ticking steps breaks; a step that may come next, as the moment tells, breaks nothing."""
        states = moment.states
        is_as_told = not states.to_open and set(dried) == set(moment.dried)
        if is_as_told and len(ticked) == 1 and ticked[0] in states.standing.may_come_next:
            return ()
        before = by_hand(self._derived, (*moment.ledger.done_order, *dried))
        return consequences_of_all(ticked, before, self._derived.index)

    def _open_again(self, opened: tuple[str, ...]) -> str:
        return f" To do again now: {self._titles(opened)}." if opened else ""

    def _left_open(self, waiting: Mapping[str, str]) -> str:
        """Say what of a tray was not ticked, and what it waits for."""
        if not waiting:
            return ""
        first, wet = next(iter(waiting.items()))
        more = f" (and {len(waiting) - 1} more)" if len(waiting) > 1 else ""
        title = self._derived.work.step(first).title
        return f" Left open: {title}{more}; first: {wet}. Choose the step itself to tick it all the same."

    def _still_wet(self, moment: BenchMoment, ticked: tuple[str, ...]) -> str:
        """Say where a drying was ticked long before its time."""
        now_at, by_itself = self._clock.now(), [s for s in ticked if not self._is_attended(s)]
        for timer in moment.timers:
            due_at = timer.due_at or now_at
            left = (due_at - now_at).total_seconds() / 60
            if timer.step in by_itself and left > 1:
                return f" Ticked {span_words(ceil(left))} before its time: make sure it is dry."
        return ""

    def note(self, step: str, text: str) -> tuple[tuple[Event, ...], str]:
        """Write a note."""
        if not self._known((step,)):
            return (), _NOTHING_CHOSEN
        events = acting.note((step,), text, self.press())
        return events, "Note kept." if events else "An empty note is not kept."

    def waive(
        self, moment: BenchMoment, steps: tuple[str, ...], why: str
    ) -> tuple[tuple[Event, ...], str]:
        """Leave fits out for a reason; they count as signed off."""
        fits = tuple(s for s in self._known(steps) if self._derived.work.step(s).kind in _FITS)
        if not fits:
            return (), "Choose a fit first: nothing else can be waived."
        if not why.strip():
            return (), "Say why it may be left out: the reason is kept with the fit."
        events = acting.waive(moment.ledger, fits, why, self.press())
        said = f"Waived: {self._titles(fits)}. It counts as signed off."
        return events, said if events else "That was done already."

    def undo_step(self, moment: BenchMoment, step: str) -> tuple[tuple[Event, ...], str]:
        """Take back the last press that touched a step, also from under later ones."""
        batch = last_press_at(step, moment.ledger)
        if batch is None:
            return (), "There is nothing to take back there."
        events = acting.undo_press(batch, self.press())
        done = done_since(batch, moment.ledger, self._derived.index)
        since = f" Done after it, and standing: {self._titles(done)}." if done else ""
        return events, f"Taken back: {self.words_of((batch,))}.{since}"

    def undo(self, moment: BenchMoment) -> tuple[tuple[Event, ...], str]:
        """Take back the last press."""
        words = self.words_of(moment.ledger.undo_side)
        events = acting.undo(moment.ledger, self.press())
        return events, f"Taken back: {words}." if words else "There is nothing to take back."

    def redo(self, moment: BenchMoment) -> tuple[tuple[Event, ...], str]:
        """Restore the press last taken back."""
        words = self.words_of(moment.ledger.redo_side)
        events = acting.redo(moment.ledger, self.press())
        return events, f"Restored: {words}." if words else "There is nothing to restore."

    def words_of(self, side: tuple[Batch, ...]) -> str:
        """Return what the last press of one side was, in words; empty where there is none."""
        return press_words(side[-1], self._derived.work, self._titles) if side else ""

    def _is_attended(self, step: str) -> bool:
        work = self._derived.work
        return not work.has(step) or work.step(step).attended

    def _titles(self, steps: tuple[str, ...]) -> str:
        work = self._derived.work
        known = [work.step(step).title if work.has(step) else step for step in steps]
        return known[0] if len(known) == 1 else f"{known[0]} and {len(known) - 1} more"

    def _first_words(self, relation: Relation) -> str:
        """Say what a broken relation would have had before these steps, or not between."""
        first = named_steps(relation)
        if is_plain(relation):
            first = frozenset((relation.first,))
        elif isinstance(relation, AfterAny):
            first = relation.of - {relation.then}
        titles = [f"'{self._derived.work.step(step).title}'" for step in sorted(first)]
        if isinstance(relation, Together):
            return f"Nothing should have come between {' and '.join(titles)}"
        return f"{' or '.join(titles)} should have come first"

    def _said(
        self,
        word: str,
        steps: tuple[str, ...],
        broken: Sequence[Relation],
        moment: BenchMoment,
        *,
        early: bool = False,
    ) -> str:
        fresh = tuple(s for s in steps if moment.ledger.record(s).status is StepStatus.UNTOUCHED)
        windows = [
            w for s in fresh if (w := moment.states.windows.get(s)) and self._is_attended(s)
        ]
        said_at = self._clock.now(), self._derived.shop.zone
        soon = too_soon_words(windows, *said_at)
        outside = soon or too_late_words(windows, *said_at)
        if not broken:
            return f"{word}{' early' * bool(soon)}: {self._titles(steps)}.{outside}"
        first = self._first_words(broken[0])
        more = f" (and {len(broken) - 1} more)" if len(broken) > 1 else ""
        head = f"{word} early" if early else f"{word} early, before its turn"
        told = f"{first}: {broken[0].reason.text}{more}{outside}"
        return f"{head}: {self._titles(steps)}. {told}"
