"""The dry fit: lay-out, rounds with their pins, looks to tick; what was found; waive or sign off."""

from enum import Enum, auto

from PySide6.QtCore import QEvent, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QStackedWidget, QVBoxLayout, QWidget

from armorplan.app.dry_fit_rows import DryFitPlan, PieceFit
from armorplan.app.entries import NOT_RECORDED
from armorplan.app.fit_findings import FitFinding, finding_text
from armorplan.app.rows import Grouping
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.dry_fit_desk import fit_desk
from armorplan.desktop.dry_fit_lines import (
    TICKED,
    Line,
    LineKind,
    likeliest_fit,
    lines_of,
    lit_by,
    looked_steps,
    waits_of,
    with_last_fits,
)
from armorplan.desktop.dry_fit_talk import DryFitTalk, talk_at
from armorplan.desktop.next_version_desk import next_version_desk
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.dry_fit_list import FitChooser, FitLines, WhyField
from armorplan.desktop.widgets.dry_fit_picture import DryFitPicture
from armorplan.desktop.widgets.dry_fit_pins import DryFitPins
from armorplan.desktop.widgets.way_back_lists import (
    BIG_TARGET_PX,
    TARGET_PX,
    Answers,
    PanelKeys,
    foot_of,
    heading_font,
)


class _At(Enum):
    LINES = auto()
    FOUND = auto()
    WHY = auto()
    PINS = auto()


class DryFitPanel(QWidget):
    """Worked by five verbs: ``begin``, ``step``, ``take``, ``back``, ``tell``; keys are these.

    ``left`` says that one left it, or that the fit was signed off or waived.
    """

    left = Signal()

    def __init__(
        self, bridge: Bridge, *, big: bool = False, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("dry_fit")
        self._bridge = bridge
        self._target_px = BIG_TARGET_PX if big else TARGET_PX
        self._plan = DryFitPlan(fits=())
        self._at = _At.LINES
        self._talk: DryFitTalk | None = None
        self.desk = fit_desk(bridge)
        self.pattern = next_version_desk(bridge)
        self.fits = FitChooser(self._target_px, self)
        self.heading = QLabel(self)
        self.lines = FitLines(self._target_px, self)
        self.answers = Answers("dry_fit_answers", self._target_px, self)
        self.why = WhyField(self._target_px, self)
        self.pins = DryFitPins(bridge, self._target_px, self)
        self.picture = DryFitPicture(bridge, self)
        self.go_back = QPushButton(self.tr("Back"), self)
        self.finds = QPushButton(self.tr("&Found something …"), self)
        self.go_on = QPushButton(self.tr("Done, next"), self)
        self._pages = QStackedWidget(self)
        self._name_all()
        self._lay_out()
        self._connect()

    def _name_all(self) -> None:
        named = {"heading": self.heading, "back": self.go_back, "find": self.finds}
        for name, widget in (named | {"on": self.go_on}).items():
            widget.setObjectName(f"dry_fit_{name}")
        self.heading.setWordWrap(True)
        self.heading.setFont(heading_font(self.font()))

    def _lay_out(self) -> None:
        for page in (self.lines, self.answers, self.pins):
            self._pages.addWidget(page)
        whole = QVBoxLayout(self)
        for widget in (self.fits, self.heading):
            whole.addWidget(widget)
        whole.addLayout(self.picture.beside(self._pages), 1)
        whole.addWidget(self.why)
        whole.addLayout(foot_of(self._target_px, self.go_back, self.finds, self.go_on))
        self._turn(_At.LINES)

    def _connect(self) -> None:
        keys = PanelKeys(self.lines, self.answers)
        lines, clicked = self.lines.itemDoubleClicked, self.go_on.clicked
        taking = (keys.taken, lines, self.answers.itemClicked, self.why.returnPressed, clicked)
        for signal in taking:
            signal.connect(self.take)
        for signal in (keys.left, self.go_back.clicked):
            signal.connect(self.back)
        keys.moved.connect(self.step)
        keys.numbered.connect(self._take_number)
        self.lines.currentRowChanged.connect(self._light)
        for signal in (self.pins.said, self.desk.refused):
            signal.connect(self._say)
        self.pins.left.connect(lambda: self._turn(_At.LINES))
        self.lines.pins_asked.connect(self.count_pins)
        self.finds.clicked.connect(self.tell)
        self.fits.currentIndexChanged.connect(self._show_fit)
        self.desk.planned.connect(self._take_plan)
        self._bridge.opened.connect(self._begin_seen)
        if self.pattern is not None:
            self.pattern.told.connect(self._say)
            self.pattern.refused.connect(self._say)

    def begin(self) -> None:
        """Show the dry fits of the build, that of what is chosen first."""
        self._turn(_At.LINES)
        self._say(self.tr("Reckoning rounds and pins …"))
        self.desk.ask()

    def _begin_seen(self) -> None:
        if self.isVisible():
            self.begin()

    def step(self, by: int) -> None:
        """Go to the next line or answer, or by -1 to the former one."""
        if self._at is _At.FOUND:
            self.answers.step(by)
        else:
            (self.pins if self._at is _At.PINS else self.lines).step(by)

    def take(self) -> None:
        """Tick the line in hand and go on, take the answer in hand, or do what the line says."""
        {
            _At.LINES: lambda: self._take_line(self.lines.line()),
            _At.FOUND: lambda: self._take_answer(self.answers.key()),
            _At.WHY: self._waive,
            _At.PINS: self.pins.take,
        }[self._at]()

    def back(self) -> None:
        """Go back to the question before, to the lines, or leave."""
        if self._at is _At.LINES:
            self.left.emit()
        elif self._at is _At.PINS:
            self.pins.back()
        elif self._at is _At.FOUND and self._talk is not None and self._talk.back():
            self._show_question()
        else:
            self._turn(_At.LINES)

    def tell(self) -> None:
        """Tell what was found at the look in hand."""
        line, fit = self.lines.line(), self._fit()
        if fit is None or line is None or line.look is None:
            self._say(self.tr("Choose the look at which it was found."))
            return
        self._talk = talk_at(line.look, dict(fit.seams), self._bridge.session)
        self._show_question()

    def count_pins(self) -> None:
        """Ask how many pins there are."""
        if self._fit() is not None:
            self._turn(_At.PINS)
            self.pins.begin()

    def _take_plan(self, plan: DryFitPlan) -> None:
        kept = self.fits.currentData() or next(iter(self._bridge.selection.steps), "")
        self._plan = plan = with_last_fits(plan, self._bridge.session.checklist(Grouping.PIECE))
        likely = likeliest_fit(plan, kept, self._bridge.selection.parts)
        self.fits.show_plan(plan, likely)
        if self._at is _At.LINES:
            self._say("" if plan.fits else self.tr("This build has no dry fit."))
        self._show_fit()

    def _fit(self) -> PieceFit | None:
        return self._plan.of(self.fits.currentData() or "")

    def _show_fit(self) -> None:
        fit = self._fit()
        if fit is None:
            self.lines.show_lines((), ())
            return
        self.pins.show_pins(fit, self._plan.pins)
        ticked = self.desk.ticked(fit.step)
        found = self.pattern.found(fit.step) if self.pattern else ()
        waits = waits_of(self._bridge.session.bench_card(fit.step))
        self.lines.show_lines(lines_of(fit, ticked, found, waits), ticked)

    def _light(self) -> None:
        """Light what the line in hand is about, in all pictures of the build."""
        line, fit = self.lines.line(), self._fit()
        self.finds.setEnabled(line is not None and line.look is not None)
        if fit is None or line is None or not self.isVisible():
            return
        lit = lit_by(fit, line, self._bridge.session.diagram())
        self._bridge.select(lit)
        self.picture.show_line(fit, line, lit)

    def _take_line(self, line: Line | None) -> None:
        fit = self._fit()
        if fit is None or line is None:
            return
        if line.kind is LineKind.SIGN_OFF:
            done = looked_steps(fit, self.desk.ticked(fit.step))
            self._end(self._bridge.session.done((fit.step, *done)))
        elif line.kind is LineKind.WAIVE:
            self._turn(_At.WHY)
        elif line.kind is LineKind.PINS:
            self.count_pins()
        elif line.kind is LineKind.CORRECT and self.pattern is not None:
            self._say(self.tr("Writing it into the pattern …"))
            self.pattern.correct()
        elif line.kind in TICKED:
            self.desk.tick(fit.step, line.key)
            self._show_fit()
            self.lines.step(1 if line.key in self.desk.ticked(fit.step) else 0)

    def _take_number(self, number: int) -> None:
        if self._at is _At.FOUND and number <= self.answers.count():
            self._take_answer(self.answers.key(number - 1))

    def _take_answer(self, key: str) -> None:
        found = self._talk.take(key) if self._talk is not None else None
        if found is None:
            self._show_question()
        else:
            self._keep(found)

    def _keep(self, found: FitFinding) -> None:
        fit = self._fit()
        self._turn(_At.LINES)
        if fit is not None:
            self._tell(self._bridge.session.way_back.found(fit.step, finding_text(found)))
            self._show_fit()

    def _waive(self) -> None:
        fit, why = self._fit(), self.why.text().strip()
        if fit is None:
            return
        if not why:
            self._say(self.tr("Say why it may be left out: the reason is kept with the fit."))
            return
        self._end(self._bridge.session.waive((fit.step,), why))

    def _end(self, said: str) -> None:
        """Leave once the fit is over; what the disk refused is told, and nothing is lost of it."""
        self._tell(said)
        if not said.startswith(NOT_RECORDED):
            self.why.clear()
            self._turn(_At.LINES)
            self.left.emit()

    def _show_question(self) -> None:
        if self._talk is not None:
            screen = self._talk.screen()
            self.answers.show_screen(screen)
            self._turn(_At.FOUND)
            self._say(screen.heading)

    def _turn(self, at: _At) -> None:
        self._at = at
        shown = {_At.FOUND: self.answers, _At.PINS: self.pins}.get(at, self.lines)
        self._pages.setCurrentWidget(shown)
        self.why.setVisible(at is _At.WHY)
        self.finds.setVisible(at is _At.LINES)
        self._say("")
        (self.why if at is _At.WHY else shown).setFocus()

    def _tell(self, said: str) -> None:
        self._bridge.tell(said)
        self._say(said)

    def _say(self, sentence: str) -> None:
        self.heading.setText(sentence)
        self.heading.setVisible(bool(sentence))
        announce(self.heading, sentence)

    def close_jobs(self) -> None:
        """Wait for what is under way."""
        self.desk.close()
        self.pins.close_jobs()
        if self.pattern is not None:
            self.pattern.close()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.heading.setFont(heading_font(self.font()))
            self._show_fit()
