"""What a checklist row says: its state, what it waits for, how long and when."""

from PySide6.QtCore import QCoreApplication

from armorplan.app.rows import BenchState, ChecklistRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.checklist_rows import OVER, is_step
from armorplan.desktop.glyphs import state_word
from armorplan.desktop.timers_model import is_due, left_s
from armorplan.desktop.wording import clock_text, countdown_text, minutes_text, over_text


def _say(text: str) -> str:
    return QCoreApplication.translate("checklist", text)


class ChecklistWords:
    """Words for the delegate and for screen readers, at the bridge's present instant."""

    def __init__(self, bridge: Bridge) -> None:
        self._bridge = bridge

    def state_line(self, row: ChecklistRow) -> str:
        """Say how a row stands, and what it waits for."""
        word = state_word(row.state)
        if row.waits_for and row.state is not BenchState.DONE:
            word = f"{word}: {row.waits_for}"
        if row.company:
            word = f"{word}; {row.company}"
        untouched = row.state is BenchState.WAITING and not row.done_count
        if is_step(row) or row.state in OVER or untouched:
            return word
        counted = _say("{0} of {1} done").format(row.done_count, len(row.steps))
        return f"{counted}, {word}"

    def is_over(self, row: ChecklistRow) -> bool:
        """Tell whether a row's timer is past its time."""
        return row.timer is not None and is_due(row.timer, self._bridge.clock.now())

    def time_lines(self, row: ChecklistRow) -> tuple[str, str]:
        """Say how long a row takes and when: what is left and until when, while it is timed."""
        now = self._bridge.clock.now()
        timer = row.timer
        if timer is not None:
            left = countdown_text(left_s(timer, now))
            if timer.due_at is None:
                return _say("{0} left").format(left), _say("stands still")
            at = clock_text(timer.due_at, now, self._bridge.zone)
            if is_due(timer, now):
                return over_text(-left_s(timer, now)), _say("was due {0}").format(at)
            return _say("{0} left").format(left), _say("until {0}").format(at)
        long = minutes_text(row.minutes) if row.minutes else ""
        if row.start_at is None or row.state in OVER:
            return long, ""
        return long, clock_text(row.start_at, now, self._bridge.zone)

    def spoken(self, row: ChecklistRow) -> str:
        """Say a whole row for who hears it."""
        parts = (row.title, self.state_line(row), *self.time_lines(row), *row.cautions)
        return ", ".join(part for part in parts if part)
