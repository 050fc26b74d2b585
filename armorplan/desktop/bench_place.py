"""Which step is in hand in the bench view: the chosen one, the next one, another one."""

from PySide6.QtCore import QObject, Signal

from armorplan.app.bench_card import BenchCard
from armorplan.app.rows import Selection
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.opening import where_to_begin


class BenchPlace(QObject):
    """Holds the step in hand while the view is in sight; ``turned`` says that it has changed.

    ``emptied`` says that another build is on the bench.
    """

    turned = Signal()
    emptied = Signal()

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._is_on = False
        self._session = bridge.session
        self._card: BenchCard | None = None
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

    def rest_text(self) -> str:
        """Say why there is no step in hand."""
        face = self._bridge.session.plan_face()
        idle = self.tr("Nothing can be done by hand now.")
        return idle if face.finish_at is not None else face.sentence

    def begin(self) -> None:
        """Come into sight, with the chosen step if it is open, else where work begins."""
        self._is_on = True
        chosen = self._bridge.selection.steps
        self._show(chosen[0] if len(chosen) == 1 else "")
        if self._card is None or self._card.is_over:
            self.go_on()

    def end(self) -> None:
        """Go out of sight; the step in hand stays chosen."""
        self._is_on = False

    def other(self, by: int) -> None:
        """Show another step that can be done now, round and round in the plan's order."""
        ready = self._bridge.session.ready_steps()
        here = self._card.step if self._card else ""
        if not ready or ready == (here,):
            self._bridge.said.emit(self.tr("There is no other step to do now."))
            return
        at = (ready.index(here) + by) % len(ready) if here in ready else 0
        self.choose(ready[at])

    def go_on(self) -> None:
        """Go to where work goes on; to nothing where nothing can be done."""
        here = self._card.step if self._card else ""
        ahead = [s for s in self._bridge.session.ready_steps() if s != here]
        coming = tuple(ahead[:1]) or where_to_begin(self._bridge.session)
        if coming:
            self.choose(coming[0])
        else:
            self._show("")

    def choose(self, step: str) -> None:
        """Show a step, and choose it for the other views, so that one finds it there."""
        self._show(step)
        self._bridge.choose_steps((step,))

    def is_over(self, step: str) -> bool:
        """Tell whether a step is done."""
        return self._bridge.session.bench_card(step).is_over

    def _show(self, step: str) -> None:
        self._card = self._bridge.session.bench_card(step) if step else None
        self.turned.emit()

    def _refresh(self) -> None:
        """Show the same step anew; where it was nothing for hands, go on once something is."""
        if not self._is_on or self._session is not self._bridge.session:
            return
        card = self._card
        idle = card is None or not card.attended
        if idle and self._bridge.session.ready_steps():
            self.go_on()
        elif card is not None:
            self._show(card.step)

    def _follow(self, selection: Selection) -> None:
        here = self._card.step if self._card else ""
        if self._is_on and len(selection.steps) == 1 and selection.steps[0] != here:
            self._show(selection.steps[0])

    def _forget(self) -> None:
        self._session, self._card = self._bridge.session, None
        self.emptied.emit()
        if self._is_on:
            self.go_on()
