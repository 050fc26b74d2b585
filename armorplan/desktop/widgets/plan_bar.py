"""The plan in one sentence, when the build is ready, and the search for a better one."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.plan_face import PlanFace
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.planning import PlanDesk
from armorplan.desktop.surety_desk import SuretyDesk
from armorplan.desktop.tonight_desk import TonightDesk
from armorplan.desktop.widgets.notice_line import Sentence
from armorplan.desktop.wording import clock_text

BUSY_PX = 110
MARGIN_PX = 8


class PlanBar(QWidget):
    """Shows ``PlanFace`` and what setting the joints takes; words of the search stay behind 'Details'."""

    def __init__(self, bridge: Bridge, desk: PlanDesk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("plan_bar")
        self._bridge = bridge
        self._desk = desk
        self._finish = QLabel(self)
        self._sentence = QLabel(self)
        self._busy = QProgressBar(self)
        self._stop = QPushButton(self.tr("Stop planning"), self)
        self.details = QPushButton(self.tr("Details"), self)
        self._details = QLabel(self)
        self._effort = Sentence(self)
        self._said = QLabel(self)
        self._tonight: TonightDesk | None = None
        self.surety = SuretyDesk(bridge, desk, self)
        self._is_low = False
        self._name_all()
        self._lay_out()
        self.details.toggled.connect(self._details.setVisible)
        self._stop.clicked.connect(desk.stop)
        desk.begun.connect(self._show_busy)
        desk.ended.connect(self._show_busy)
        self.surety.told.connect(self.refresh)
        bridge.changed.connect(self.refresh)
        bridge.acted.connect(self.say)
        bridge.opened.connect(self._tell_effort)
        desk.replanned.connect(self.say)
        self._show_busy()
        self._tell_effort()

    def _name_all(self) -> None:
        self._finish.setObjectName("plan_finish")
        self._sentence.setObjectName("plan_sentence")
        self._sentence.setWordWrap(True)
        self._busy.setObjectName("plan_busy")
        self._busy.setAccessibleName(self.tr("Looking for a better plan"))
        self._busy.setRange(0, 0)
        self._busy.setTextVisible(False)
        self._busy.setFixedWidth(BUSY_PX)
        self._stop.setObjectName("plan_stop")
        self._stop.setAccessibleName(self.tr("Stop planning"))
        self.details.setObjectName("plan_details_button")
        self.details.setAccessibleName(self.tr("Details of the plan"))
        self.details.setCheckable(True)
        self._details.setObjectName("plan_details")
        self._details.setAccessibleName(self.tr("How good the plan is"))
        self._details.setWordWrap(True)
        self._effort.setObjectName("plan_effort")
        self._effort.setAccessibleName(self.tr("Minutes of setting the joints"))
        self._effort.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        by_mouse = Qt.TextInteractionFlag.TextSelectableByMouse
        by_key = Qt.TextInteractionFlag.TextSelectableByKeyboard
        self._details.setTextInteractionFlags(by_mouse | by_key)
        self._details.hide()
        self._said.setObjectName("plan_said")
        self._said.setAccessibleName(self.tr("What was done with the plan"))
        self._said.setWordWrap(True)
        self._said.hide()
        heavy = QFont()
        heavy.setWeight(QFont.Weight.DemiBold)
        self._finish.setFont(heavy)

    def _lay_out(self) -> None:
        across = QHBoxLayout()
        across.addWidget(self._finish, 1)
        across.addWidget(self._busy)
        across.addWidget(self._stop)
        across.addWidget(self.details)
        down = QVBoxLayout(self)
        down.setContentsMargins(MARGIN_PX, MARGIN_PX // 2, MARGIN_PX, MARGIN_PX // 2)
        down.addLayout(across)
        down.addWidget(self._sentence)
        down.addWidget(self._said)
        down.addWidget(self._effort)
        down.addWidget(self._details)

    def refresh(self) -> None:
        """Read the plan's words again."""
        face = self._bridge.session.plan_face()
        week = self._bridge.session.week()
        is_without = week is not None and bool(week.shown.plan.conflict)
        more = self.tr("Ctrl+U says what would free it.") if is_without else ""
        told = (face.sentence, self.surety.words, more)
        self._sentence.setText(" ".join(text for text in told if text))
        self._show_details()
        self._finish.setVisible(face.finish_at is not None)
        self._finish.setText(self._finish_words(face))

    def _show_details(self) -> None:
        """Show what is said of the plan; what setting the joints takes only where it is not above."""
        effort = self._effort.text() if self._is_low else ""
        details = self._bridge.session.plan_face().details
        self._details.setText("\n".join(filter(None, (details, effort))))

    def _finish_words(self, face: PlanFace) -> str:
        """Return when the open build ends; by name, and when all do, where there are several."""
        now, zone = self._bridge.clock.now(), self._bridge.zone
        if face.finish_at is None:
            return ""
        at = clock_text(face.finish_at, now, zone)
        if face.all_finish_at is None:
            return self.tr("Finished {0}").format(at)
        every = clock_text(face.all_finish_at, now, zone)
        return self.tr("{0}: finished {1}, all builds {2}").format(face.finish_of, at, every)

    def say(self, words: str = "") -> None:
        """Say what was done with the plan, until something else happens at the bench."""
        self._said.setText(words)
        self._said.setVisible(bool(words))

    def follow(self, tonight: TonightDesk) -> None:
        """Show that tomorrow is being laid as a search is shown, and say what came of it."""
        self._tonight = tonight
        tonight.begun.connect(self._show_busy)
        tonight.begun.connect(self._say_laying)
        tonight.ended.connect(self._show_busy)
        tonight.told.connect(self.say)
        self._stop.clicked.connect(tonight.stop)

    def _say_laying(self) -> None:
        self.say(self.tr("Tomorrow is laid anew around what runs now …"))

    def end_jobs(self) -> None:
        """Wait for what is still being reckoned."""
        self.surety.close()

    def _tell_effort(self) -> None:
        """Say once for a build what setting its joints takes: no tick changes that."""
        self.say()
        words = self._bridge.session.effort_told()
        self._effort.setText(words)
        self._effort.setAccessibleDescription(words)
        self._show_effort()
        self.refresh()

    def make_room(self, *, is_tight: bool) -> None:
        """Leave what setting the joints takes to the details where there is little room."""
        self._is_low = is_tight
        self._show_effort()
        self._show_details()

    def _show_effort(self) -> None:
        self._effort.setVisible(bool(self._effort.text()) and not self._is_low)

    def _show_busy(self) -> None:
        is_laying = self._tonight is not None and self._tonight.is_busy
        self._busy.setVisible(self._desk.is_busy or is_laying)
        self._stop.setVisible(self._desk.is_busy or is_laying)
