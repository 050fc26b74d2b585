"""What one key does to the chosen row of the checklist."""

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal

from armorplan.app.rows import BenchState, ChecklistRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.checklist_rows import OVER, is_heading, is_step
from armorplan.desktop.widgets.checklist_view import ChecklistView
from armorplan.desktop.widgets.note_line import NoteLine


class RowActs(QObject):
    """Ticks, starts, pauses and notes the chosen step or tray, and goes on to the next.

    ``hidden`` tells that a ready step is sought while the words looked for hide them all.
    """

    hidden = Signal()

    def __init__(
        self,
        bridge: Bridge,
        view: ChecklistView,
        note: NoteLine,
        state_of: Callable[[str], BenchState],
    ) -> None:
        super().__init__(view)
        self._bridge = bridge
        self._view = view
        self._note = note
        self._state = state_of
        view.tick_asked.connect(self.tick)
        view.start_asked.connect(self.start_or_pause)
        view.row_lost.connect(self.go_on)

    def go_on(self) -> None:
        """Keep to the step beside one that is no longer shown, else to the chosen or a ready one.

        Where none of them is shown, no row is chosen.
        """
        row = self._view.current_row()
        if row is None:
            self._view.follow(self._bridge.selection)
            if self._view.current_row() is not None:
                return
        step = row.id if row is not None and is_step(row) else next(iter(self._ready_shown()), "")
        self._view.setCurrentIndex(self._view.rows.index_of(step))
        if step:
            self._bridge.choose_steps((step,))

    def tick(self) -> None:
        """Tick the chosen step, or what is shown and still open of a tray.

        Of a tray what is done goes along: what is left of it is no single step that was meant.
        """
        row = self._chosen()
        if row is None:
            return
        steps = self._view.rows.shown_steps(row)
        still_open = tuple(s for s in steps if self._state(s) not in OVER)
        if still_open:
            self._bridge.done(
                tuple(s for s in row.steps if s in still_open or self._state(s) in OVER)
            )
        else:
            self._bridge.said.emit(self.tr("{0}: done already.").format(row.title))

    def start_or_pause(self) -> None:
        """Pause what runs of the chosen row; where nothing runs, start what can be started."""
        row = self._chosen()
        if row is None:
            return
        running = self._in_states(row, BenchState.RUNNING)
        if running:
            self._bridge.pause(running)
            return
        able = self._in_states(row, BenchState.READY, BenchState.PAUSED)
        able = able or self._in_states(row, BenchState.MISSED, BenchState.WAITING)
        if able:
            self._bridge.start(able)
        elif self._in_states(row, BenchState.DRYING):
            self._bridge.said.emit(self.tr("{0}: drying goes on by itself.").format(row.title))
        else:
            self._bridge.said.emit(self.tr("{0}: done already.").format(row.title))

    def take_longer(self) -> None:
        """Say of what is under way of the chosen row that it takes longer."""
        row = self._chosen()
        begun = self._in_states(row, BenchState.RUNNING, BenchState.PAUSED) if row else ()
        self._bridge.longer(begun or (row.steps if row else ()))

    def go_ready(self, by: int) -> None:
        """Go ``by`` ready steps on, in the plan's order."""
        if not self._bridge.session.ready_steps():
            self._bridge.said.emit(self.tr("No step is ready now."))
            return
        if not self._ready_shown():
            self.hidden.emit()
        ready = self._ready_shown()
        row = self._view.current_row()
        here = row.steps[0] if row is not None and len(row.steps) == 1 else ""
        at = ready.index(here) + by if here in ready else 0
        if not 0 <= at < len(ready):
            self._bridge.said.emit(self.tr("No further ready step that way."))
            return
        self._bridge.choose_steps((ready[at],))
        self._view.go_to(ready[at])
        self._view.setFocus()

    def _ready_shown(self) -> tuple[str, ...]:
        """Return the ready steps that pass the filters, in the plan's order."""
        ready = self._bridge.session.ready_steps()
        return tuple(s for s in ready if self._view.rows.index_of(s).isValid())

    def write_note(self) -> None:
        """Ask for a note to the chosen step."""
        row = self._chosen()
        if row is None:
            return
        self._note.begin(row.steps[0], row.title)

    def _chosen(self) -> ChecklistRow | None:
        """Return the chosen step or tray; for a whole piece or day one key would do too much."""
        row = self._view.current_row()
        if row is not None and not is_heading(row):
            return row
        self._bridge.said.emit(self.tr("Choose a step or a tray first."))
        return None

    def _in_states(self, row: ChecklistRow, *states: BenchState) -> tuple[str, ...]:
        steps = self._view.rows.shown_steps(row)
        return tuple(s for s in steps if self._state(s) in states)
