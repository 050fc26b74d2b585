"""Planning a day: a bar and a time for each thing that is done, with the waits between them."""

from collections.abc import Mapping

from PySide6.QtCore import QEvent, QObject
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from armorplan.desktop.drill_day_layout import DaySpan, laid_out
from armorplan.desktop.drill_day_words import (
    bar_spoken,
    bar_times,
    bar_title,
    legend,
    wait_times,
    wait_title,
)
from armorplan.desktop.drill_form_words import day_notes, letters, worst_of
from armorplan.desktop.drill_marks import Note
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.drill_day_bar import DayBar, DayLane
from armorplan.desktop.widgets.drill_day_field import TimeField
from armorplan.desktop.widgets.drill_day_rows import DayLine, HeadedScroll
from armorplan.desktop.widgets.drill_form import DrillForm
from armorplan.desktop.widgets.turns import Turns
from armorplan.practice.drill import Answer, DayAsked, DayRow, Drill, Judged

BESIDE_EMS = 90
"""In a form wider than so many letters the lanes lie beside the words."""
HEAD_SHARE = 0.4


class DayForm(DrillForm):
    """Its answer is a time for each bar that has got one."""

    def __init__(self, drill: Drill, parent: QWidget | None = None) -> None:
        super().__init__(drill, parent)
        self.setObjectName("drill_day_form")
        self._day: DayAsked = _day_of(drill)
        self.span = DaySpan(self._day)
        self._letters = letters(drill)
        self.bars: dict[str, DayBar] = {}
        self.fields: dict[str, TimeField] = {}
        self.waits: list[tuple[DayRow, DayLane, DayLine]] = []
        self._lines: dict[str, DayLine] = {}
        self._all: list[DayLine] = []
        self._notes: Mapping[str, Note] = {}
        self._later = Turns(self)
        self._lay_out()
        self.show_answer((), editable=True)

    def _lay_out(self) -> None:
        rows = QWidget(self)
        column = QVBoxLayout(rows)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        hours = DayLine(DayLane(self.span, self, is_head=True), None, self)
        hours.words.hide()
        self._all.append(hours)
        for row in laid_out(self._day.rows):
            line = self._bar(row, rows) if row.choice else self._wait(row, rows)
            self._all.append(line)
            column.addWidget(line)
        column.addWidget(self._legend(rows))
        column.addStretch(1)
        self._scroll = HeadedScroll(hours, rows, self)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self._scroll, 1)

    def _legend(self, parent: QWidget) -> QLabel:
        told = QLabel(legend(self.span), parent)
        told.setObjectName("drill_day_legend")
        told.setWordWrap(True)
        return told

    def _bar(self, row: DayRow, parent: QWidget) -> DayLine:
        letter, name = self._letters[row.choice], row.choice
        bar, field = DayBar(self.span, row, letter, parent), TimeField(self.span, row, parent)
        bar.setObjectName(f"drill_bar_{letter}")
        field.setObjectName(f"drill_time_{letter}")
        field.setAccessibleName(self.tr("{0}, {1}: begins at").format(letter, row.title))
        line = DayLine(bar, field, parent)
        line.words.setText(bar_title(letter, row))
        bar.laid.connect(lambda minute: self._lay(name, minute))
        field.laid.connect(lambda minute: self._lay(name, minute))
        for widget in (bar, field):
            widget.installEventFilter(self)
        self.bars[name], self.fields[name], self._lines[name] = bar, field, line
        return line

    def _wait(self, row: DayRow, parent: QWidget) -> DayLine:
        lane = DayLane(self.span, parent)
        line = DayLine(lane, None, parent)
        self.waits.append((row, lane, line))
        return line

    # --- the form -----------------------------------------------------------------------------

    def answer(self) -> Answer:
        starts = ((name, bar.start_min) for name, bar in self.bars.items())
        return tuple(f"{n}={self.span.clock(at)}" for n, at in starts if at is not None)

    def is_whole(self) -> bool:
        self._take_typed()
        return all(bar.start_min is not None for bar in self.bars.values())

    def show_answer(self, answer: Answer, *, editable: bool) -> None:
        self._notes = {}
        times = dict(one.partition("=")[::2] for one in answer)
        for name, bar in self.bars.items():
            at = self.span.minute_at(times[name]) if name in times else None
            self._show(name, at)
            bar.is_fixed = not editable
            self.fields[name].setReadOnly(not editable)
        self._follow()

    def show_judged(self, drill: Drill, judged: Judged) -> None:
        self._notes = day_notes(drill, self.answer(), judged)
        for name, bar in self.bars.items():
            self._show(name, bar.start_min)
            bar.is_fixed = True
            self.fields[name].setReadOnly(True)
        self._follow()
        worst = worst_of(self._notes)
        if worst in self._lines:
            show = self._scroll.ensureWidgetVisible
            # Not before the notes are laid out.
            self._later.do((lambda: show(self._lines[worst]),), after_ms=0)

    def begin(self) -> None:
        unset = (bar for bar in self.bars.values() if bar.start_min is None)
        first = next(unset, next(iter(self.bars.values()), None))
        if first is not None:
            first.setFocus()

    def choose(self, name: str) -> None:
        """Take a bar in hand."""
        if name in self.bars:
            self.bars[name].setFocus()

    def _take_typed(self) -> None:
        """Take what is typed into a field that still has the keyboard."""
        for field in self.fields.values():
            if not field.isReadOnly():
                field.interpretText()

    # --- what is shown ------------------------------------------------------------------------

    def _lay(self, name: str, minute: int) -> None:
        self._show(name, minute)
        self._follow()
        self.changed.emit()
        announce(self.bars[name], bar_times(self.span, self.bars[name].row, minute))

    def _show(self, name: str, minute: int | None) -> None:
        bar, note = self.bars[name], self._notes.get(name)
        bar.show_start(minute, note)
        self.fields[name].show_start(minute)
        self._lines[name].note.show_note(note)
        times = bar_times(self.span, bar.row, minute)
        words = note.words if note else ""
        bar.setAccessibleName(bar_spoken(bar.letter, bar.row, times, words))

    def _follow(self) -> None:
        """Lay every wait behind the bar that it follows."""
        for row, lane, line in self.waits:
            bar = self.bars.get(row.after)
            window = None
            if bar is not None and bar.start_min is not None:
                window = self.span.window(row, bar.row, bar.start_min)
            named = (self._letters.get(row.after, ""), self._letters.get(row.before, ""))
            lane.show_window(window)
            line.words.setText(f"{wait_title(row, named)}; {wait_times(self.span, window)}")

    # --- events -------------------------------------------------------------------------------

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.FocusIn:
            held = zip(self.bars, self.bars.values(), self.fields.values(), strict=True)
            name = next((n for n, bar, field in held if watched in (bar, field)), "")
            if name:
                self._scroll.ensureWidgetVisible(self._lines[name])
            self.pointed.emit(name)
        return super().eventFilter(watched, event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        is_wide = self.width() > BESIDE_EMS * self.fontMetrics().averageCharWidth()
        for line in self._all:
            line.fit(round(self.width() * HEAD_SHARE) if is_wide else 0)


def _day_of(drill: Drill) -> DayAsked:
    if drill.day is None:
        message = f"'{drill.question}' holds no day that could be planned"
        raise ValueError(message)
    return drill.day
