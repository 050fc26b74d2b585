"""What is done in the bench view: which step is in hand, and the verbs."""

from PySide6.QtCore import QObject, Signal

from armorplan.app.bench_card import BenchCard
from armorplan.app.rows import BenchState, Selection
from armorplan.desktop.bench_verbs import Verb
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.opening import where_to_begin

BOUNCE_S = 0.4
"""A pedal sends twice what is pressed once: the same verb so soon after is no second press."""
FRESH_S = 10.0
"""So long taking back stands out after each press; it can be done later, too."""


class BenchDesk(QObject):
    """Holds the step in hand while the bench view is in sight.

    ``turned`` says that what is shown has changed, ``amiss_asked`` carries the step of which the
    maker says that something went wrong.
    """

    turned = Signal()
    amiss_asked = Signal(str)

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._is_on = False
        self._session = bridge.session
        self._card: BenchCard | None = None
        self._ticked: list[str] = []
        self._pressed: tuple[Verb | None, float] = None, 0.0
        self._fresh_until = 0.0
        bridge.changed.connect(self._refresh)
        bridge.selected.connect(self._follow)
        bridge.opened.connect(self._forget)

    @property
    def card(self) -> BenchCard | None:
        """The step in hand; ``None`` where nothing can be done now."""
        return self._card

    @property
    def is_on(self) -> bool:
        """Whether the view is in sight."""
        return self._is_on

    @property
    def fresh_s(self) -> float:
        """For how many seconds yet taking back stands out; 0: no longer."""
        left = self._fresh_until - self._bridge.clock.boot_seconds()
        return max(0.0, left) if self._bridge.session.can_undo() else 0.0

    def rest_text(self) -> str:
        """Say why there is no step in hand."""
        face = self._bridge.session.plan_face()
        done = self.tr("Nothing can be done by hand now.")
        return done if face.finish_at is not None else face.sentence

    def begin(self) -> None:
        """Come into sight, with the chosen step if it is open, else where work begins."""
        self._is_on = True
        chosen = self._bridge.selection.steps
        self._show(chosen[0] if len(chosen) == 1 else "")
        if self._card is None or self._card.is_over:
            self._go_on()

    def end(self) -> None:
        """Go out of sight; the step in hand stays chosen."""
        self._is_on = False

    def act(self, verb: Verb) -> None:
        """Do what a verb says, at once; a bounce of the same key is no second press."""
        now_s = self._bridge.clock.boot_seconds()
        before, at_s = self._pressed
        if verb is before and 0 <= now_s - at_s < BOUNCE_S:
            return
        self._pressed = verb, now_s
        {
            Verb.BEGIN: self._begin_or_pause,
            Verb.DONE: self._done,
            Verb.OTHER: self.other,
            Verb.AMISS: self._amiss,
            Verb.TAKE_BACK: self._take_back,
        }[verb]()

    def other(self, by: int = 1) -> None:
        """Show another step that can be done now, round and round in the plan's order."""
        ready = self._bridge.session.ready_steps()
        here = self._card.step if self._card else ""
        if not ready or ready == (here,):
            self._bridge.said.emit(self.tr("There is no other step to do now."))
            return
        at = (ready.index(here) + by) % len(ready) if here in ready else 0
        self._choose(ready[at])

    def _begin_or_pause(self) -> None:
        card = self._card
        if card is None:
            return
        if card.state is BenchState.RUNNING:
            self._bridge.pause((card.step,))
        elif card.state is BenchState.DRYING:
            self._bridge.said.emit(self.tr("{0}: drying goes on by itself.").format(card.title))
        elif card.is_over:
            self._bridge.said.emit(self.tr("{0}: done already.").format(card.title))
        else:
            self._bridge.start((card.step,))
        self._be_fresh()

    def _done(self) -> None:
        if self._card is None:
            return
        step = self._card.step
        self._bridge.done((step,))
        self._be_fresh()
        if self._card is not None and self._card.is_over:
            self._ticked.append(step)
            self._go_on()

    def _amiss(self) -> None:
        self.amiss_asked.emit(self._card.step if self._card else "")

    def _take_back(self) -> None:
        if not self._bridge.session.can_undo():
            self._bridge.said.emit(self.tr("There is nothing to take back."))
            return
        self._bridge.undo()
        self._fresh_until = 0.0
        if self._ticked and not self._card_of(self._ticked[-1]).is_over:
            self._choose(self._ticked.pop())

    def _be_fresh(self) -> None:
        self._fresh_until = self._bridge.clock.boot_seconds() + FRESH_S
        self.turned.emit()

    def _go_on(self) -> None:
        """Go to where work goes on; to nothing where nothing can be done."""
        here = self._card.step if self._card else ""
        ahead = [s for s in self._bridge.session.ready_steps() if s != here]
        coming = tuple(ahead[:1]) or where_to_begin(self._bridge.session)
        if coming:
            self._choose(coming[0])
        else:
            self._card = None
            self.turned.emit()

    def _choose(self, step: str) -> None:
        """Show a step, and choose it for the other views, so that one finds it there."""
        self._show(step)
        self._bridge.choose_steps((step,))

    def _show(self, step: str) -> None:
        self._card = self._card_of(step) if step else None
        self.turned.emit()

    def _card_of(self, step: str) -> BenchCard:
        return self._bridge.session.bench_card(step)

    def _refresh(self) -> None:
        """Show the same step anew; where it was nothing for hands, go on once something is."""
        if not self._is_on or self._session is not self._bridge.session:
            return
        card = self._card
        idle = card is None or not card.attended
        if idle and self._bridge.session.ready_steps():
            self._go_on()
        elif card is not None:
            self._show(card.step)

    def _follow(self, selection: Selection) -> None:
        here = self._card.step if self._card else ""
        if self._is_on and len(selection.steps) == 1 and selection.steps[0] != here:
            self._show(selection.steps[0])

    def _forget(self) -> None:
        """Another build is on the bench."""
        self._session = self._bridge.session
        self._ticked.clear()
        self._card, self._fresh_until = None, 0.0
        if self._is_on:
            self._go_on()
