"""The page of a tool that was tried at a joint: it did reach, or not; what that teaches, kept or not."""

from html import escape

from PySide6.QtCore import QEvent, QSignalBlocker
from PySide6.QtGui import QColor, QPalette, QShowEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QComboBox,
    QDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QRadioButton,
    QSizePolicy,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.learned_reach import LearnedReach
from armorplan.app.trial_sheet import SetBefore, Trial, TrialTold
from armorplan.desktop.theme import colours_of
from armorplan.desktop.trial_desk import Asked, TrialDesk
from armorplan.desktop.trial_words import before_words, told_html, tool_words
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.name_chooser import LETTERS
from armorplan.desktop.widgets.page_foot import close_box, fit_screen

WIDE_PX, HIGH_PX = 640, 540


class TrialPage(QDialog):
    """Reckons as soon as something is chosen; does not hold up the bench."""

    def __init__(self, desk: TrialDesk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("trial_page")
        self.setWindowTitle(self.tr("A tool was tried at a joint"))
        self.setModal(False)
        self._desk = desk
        self._trial: Trial | None = None
        self._learned: LearnedReach | None = None
        self._told: TrialTold | None = None
        self._is_filled_in = True
        self.step = QLabel(self)
        self.joint = self._chooser("trial_joint", self.tr("Joint"))
        self.joint.setPlaceholderText(self.tr("Choose a joint"))
        self.tool = self._chooser("trial_tool", self.tr("Tool that was used"))
        self.before = self._chooser("trial_before", self.tr("What was set before it"))
        self.did = QRadioButton(self.tr("It &did reach"), self)
        self.did_not = QRadioButton(self.tr("It did &not reach"), self)
        self.told = QTextBrowser(self)
        self.keep = QPushButton(self.tr("&Keep it"), self)
        self.kept = QLabel(self)
        self._name_all()
        self._lay_out()
        self._connect()

    def _chooser(self, name: str, spoken: str) -> QComboBox:
        box = QComboBox(self)
        box.setObjectName(name)
        box.setAccessibleName(spoken)
        box.setMinimumContentsLength(LETTERS)
        box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        box.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        return box

    def _name_all(self) -> None:
        self.step.setObjectName("trial_step")
        self.step.setWordWrap(True)
        font = self.step.font()
        font.setBold(True)
        self.step.setFont(font)
        self.did.setObjectName("trial_did")
        self.did_not.setObjectName("trial_did_not")
        self.told.setObjectName("trial_told")
        self.told.setAccessibleName(self.tr("What the trial teaches"))
        self.told.setTabChangesFocus(True)
        self.keep.setObjectName("trial_keep")
        self.keep.setAutoDefault(False)
        self.kept.setObjectName("trial_kept")
        self.kept.setWordWrap(True)
        self.kept.hide()
        self._tint()

    def _tint(self) -> None:
        """Have the rounds one answers by stand out from a dark ground."""
        colours = colours_of(self.palette())
        for button in (self.did, self.did_not):
            palette = button.palette()
            ground, dot = colours.panel, colours.text
            if colours.dark:
                ground, dot = colours.line, colours.window
            palette.setColor(QPalette.ColorRole.Base, QColor(ground))
            palette.setColor(QPalette.ColorRole.Text, QColor(dot))
            button.setPalette(palette)

    def _lay_out(self) -> None:
        answers = QHBoxLayout()
        group = QButtonGroup(self)
        for button in (self.did, self.did_not):
            group.addButton(button)
            answers.addWidget(button)
        answers.addStretch(1)
        form = QFormLayout()
        form.addRow(self.tr("&Joint"), self.joint)
        form.addRow(self.tr("&Tool that was used"), self.tool)
        form.addRow(self.tr("&Set before it"), self.before)
        form.addRow(self.tr("The tool"), answers)
        foot = QHBoxLayout()
        foot.addWidget(self.keep)
        foot.addStretch(1)
        foot.addWidget(close_box(self))
        whole = QVBoxLayout(self)
        whole.addWidget(self.step)
        whole.addLayout(form)
        whole.addWidget(self.told, 1)
        whole.addWidget(self.kept)
        whole.addLayout(foot)
        fit_screen(self, WIDE_PX, HIGH_PX)

    def _connect(self) -> None:
        self.joint.currentIndexChanged.connect(self._offer_tools)
        self.tool.activated.connect(self._keep_tool)
        self.tool.currentIndexChanged.connect(self._ask)
        self.before.currentIndexChanged.connect(self._ask_anew)
        for button in (self.did, self.did_not):
            button.clicked.connect(self._ask)
        self.keep.clicked.connect(self._keep)
        self._desk.shown.connect(self._take)
        self._desk.unread.connect(self._blank)
        self._desk.served.connect(self._fill_in)
        self._desk.told.connect(self._tell)
        self._desk.kept.connect(self._say_kept)
        self._desk.refused.connect(self._refuse)

    # --- what is tried ----------------------------------------------------------------------

    def _take(self, trial: Trial) -> None:
        """Show the sheet of a step; of the same step as before what was chosen stays."""
        again = self._trial is not None and self._trial.title == trial.title
        joint = self.joint.currentText() if again else ""
        self._trial = trial
        if not again:
            self._forget()
        self.step.setText(trial.title or self.tr("Any joint of the build"))
        with QSignalBlocker(self.joint):
            self.joint.clear()
            for one in trial.joints:
                self.joint.addItem(one.name, one.id)
            first = 0 if trial.step else -1
            self.joint.setCurrentIndex(max(self.joint.findText(joint), first))
        if self.joint.currentIndex() < 0:
            self.joint.setFocus()
        self._offer_tools()

    def _forget(self) -> None:
        """Take back what was said of another step."""
        self._is_filled_in = True
        self._say("")
        for box in (self.tool, self.before):
            with QSignalBlocker(box):
                box.clear()
        self.did.group().setExclusive(False)
        for button in (self.did, self.did_not):
            button.setChecked(False)
        self.did.group().setExclusive(True)

    def _blank(self, why: str) -> None:
        """Say why there is no sheet."""
        self._trial = None
        self._forget()
        self.step.clear()
        with QSignalBlocker(self.joint):
            self.joint.clear()
        self._refuse(why)

    def _offer_tools(self) -> None:
        trial, joint = self._trial, self.joint.currentData()
        if trial is None or joint is None:
            self._ask()
            return
        tool, before = self.tool.currentData(), self.before.currentData()
        with QSignalBlocker(self.tool), QSignalBlocker(self.before):
            self.tool.clear()
            for one in trial.tools(joint):
                self.tool.addItem(tool_words(one), one.id)
            self.tool.setCurrentIndex(self.tool.findData(tool))
            self.before.clear()
            for state, count in trial.counts(joint):
                self.before.addItem(before_words(state, count), state)
            self.before.setCurrentIndex(max(self.before.findData(before), 0))
        self._ask_anew()

    def _keep_tool(self) -> None:
        """Leave the tool as it was chosen by hand from now on."""
        self._is_filled_in = False
        self._ask()

    def _fill_in(self, joint: str, tool: str) -> None:
        """Fill in the tool that gets there best, unless one was chosen by hand meanwhile."""
        if self._is_filled_in and joint == self.joint.currentData():
            self.tool.setCurrentIndex(self.tool.findData(tool))

    def _ask_anew(self) -> None:
        """Ask for another joint, or with others set before it, where another tool may serve best."""
        joint = self.joint.currentData()
        if self._is_filled_in and joint is not None:
            self._desk.ask_best(joint, SetBefore(self.before.currentData()))
        self._ask()

    def _ask(self) -> None:
        """Ask what follows, once all is said that it takes."""
        if self._trial is None:
            return
        self._learned = self._told = None
        self.keep.setEnabled(False)
        answered = self.did.isChecked() or self.did_not.isChecked()
        if self.joint.currentIndex() < 0 or self.tool.currentIndex() < 0 or not answered:
            self.told.setPlainText(self._missing())
            return
        self.told.setPlainText(self.tr("Looking what follows …"))
        self._desk.ask(
            Asked(
                joint=self.joint.currentData(),
                tool=self.tool.currentData(),
                before=SetBefore(self.before.currentData()),
                did_reach=self.did.isChecked(),
            )
        )

    def _missing(self) -> str:
        """Return what is still to be said."""
        if self.joint.currentIndex() < 0:
            return self.tr("Choose the joint at which the tool was tried.")
        if self._is_filled_in and self.tool.currentIndex() >= 0:
            return self.tr(
                "Filled in is the tool that by the shapes gets there best. Choose the one that was "
                "used, and say whether it did reach."
            )
        return self.tr("Choose the tool that was used, and say whether it did reach.")

    # --- what it teaches --------------------------------------------------------------------

    def _tell(self, told: TrialTold) -> None:
        self._told, self._learned = told, told.learned
        self.keep.setEnabled(told.learned.becomes_mm is not None and not self._desk.is_keeping)
        self._draw()
        announce(self.told, " ".join((*told.sentences, told.change)))

    def _draw(self) -> None:
        self.told.document().setDefaultFont(self.font())
        if self._told is not None:
            self.told.setHtml(told_html(self._told, colours_of(self.palette())))

    def _keep(self) -> None:
        if self._learned is not None and self._learned.becomes_mm is not None:
            self.keep.setEnabled(False)
            self._say(self.tr("Keeping it, and looking anew with it …"))
            self._desk.keep(self._learned)

    def _say_kept(self, said: str) -> None:
        self._say(said)

    def _refuse(self, why: str) -> None:
        self._learned = self._told = None
        self.kept.hide()
        self.keep.setEnabled(False)
        colour = colours_of(self.palette()).alarm
        self.told.setHtml(f'<p><span style="color:{colour}"><b>✖</b></span> {escape(why)}</p>')
        announce(self.told, why)

    def _say(self, said: str) -> None:
        self.kept.setText(said)
        self.kept.setVisible(bool(said))
        announce(self.kept, said)

    # --- events -----------------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.tool.setFocus()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._tint()
            self._draw()
