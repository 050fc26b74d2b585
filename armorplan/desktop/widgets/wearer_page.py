"""To the wearer: measures typed, what they change, and the pattern written in that size."""

from itertools import pairwise

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.draft import Refused
from armorplan.app.wearer_desk import WearerView
from armorplan.app.wearer_fit import Asked
from armorplan.app.wearer_model import Fitted
from armorplan.desktop.wearer_desk import WearerDesk
from armorplan.desktop.widgets.alt_letters import AltLetters
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.closing_keys import ClosingKeys
from armorplan.desktop.widgets.edit_form import FIELD_EDGES
from armorplan.desktop.widgets.page_foot import close_box, fit_screen
from armorplan.desktop.widgets.wearer_form import WearerForm
from armorplan.desktop.widgets.wearer_tabs import WearerTabs
from armorplan.desktop.widgets.wearer_writing import WearerWriting
from armorplan.workshop.wearers import Wearer

WIDE_PX, HIGH_PX = 1140, 760
SHARES_PX = (580, 540)
PAUSE_MS = 400
"""So long after the last letter it is fitted anew."""


class WearerPage(QDialog):
    """Fits off the window's thread whenever what is typed can be fitted; does not hold up the bench."""

    def __init__(self, desk: WearerDesk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("wearer_page")
        self.setWindowTitle(self.tr("To the wearer"))
        self.setModal(False)
        self.setStyleSheet(FIELD_EDGES)
        self._desk = desk
        self._found: Fitted | Refused | None = None
        self._wearer: Wearer | None = None
        self.title = QLabel(self)
        self.form = WearerForm(self)
        self.fault = QLabel(self)
        self.busy = QLabel(self)
        self.tabs = WearerTabs(self)
        self.writing = WearerWriting(desk, self.form, self)
        self.keep = QPushButton(self.tr("&Keep these measures"), self)
        self.write = QPushButton(self.tr("Write and &lay on the bench …"), self)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(PAUSE_MS)
        self._name_all()
        self._lay_out()
        self._connect()
        AltLetters(self)
        ClosingKeys(self)
        self._allow()

    def _name_all(self) -> None:
        for widget, name, spoken in (
            (self.keep, "wearer_keep", ""),
            (self.write, "wearer_write", ""),
            (self.fault, "wearer_fault", self.tr("What was said")),
            (self.busy, "wearer_busy", self.tr("What is done now")),
            (self.title, "wearer_title", self.tr("Pattern")),
        ):
            widget.setObjectName(name)
            if spoken:
                widget.setAccessibleName(spoken)
            if isinstance(widget, QPushButton):
                widget.setAutoDefault(False)
        self.fault.setWordWrap(True)
        self.title.setWordWrap(True)

    def _lay_out(self) -> None:
        across = QSplitter(Qt.Orientation.Horizontal, self)
        across.setChildrenCollapsible(False)
        across.addWidget(self.form)
        across.addWidget(self.tabs)
        across.setSizes(list(SHARES_PX))
        foot = QHBoxLayout()
        for widget in (self.keep, self.write, self.busy):
            foot.addWidget(widget)
        foot.addStretch(1)
        foot.addWidget(close_box(self))
        whole = QVBoxLayout(self)
        whole.addWidget(self.title)
        whole.addWidget(across, 1)
        whole.addWidget(self.fault)
        whole.addLayout(foot)
        fit_screen(self, WIDE_PX, HIGH_PX)
        for one, other in pairwise((self.tabs, self.keep, self.write)):
            self.setTabOrder(one, other)

    def _connect(self) -> None:
        self.form.changed.connect(self._typed)
        self._pause.timeout.connect(self.fit_now)
        self.keep.clicked.connect(self._keep)
        self.write.clicked.connect(self.writing.fitted)
        self.tabs.folders.wanted.connect(self.writing.anew)
        self.tabs.folders.looked.connect(self._desk.look)
        self._desk.shown.connect(self._show)
        self._desk.found.connect(self._take)
        self._desk.told.connect(self._tell)
        self.tabs.following.wanted.connect(self.writing.follow)
        self.tabs.following.told.connect(self._tell)
        self.writing.told.connect(self._tell)

    # --- what is shown ----------------------------------------------------------------------

    def begin(self) -> None:
        """Read the pattern at the bench anew."""
        self.title.setText(self.tr("The pattern is read …"))
        self._desk.read()

    def _show(self, view: WearerView) -> None:
        words = self.tr("{0}, version {1}. Costume, not protective equipment.")
        if not view.measures:
            words = self.tr(
                "No part of {0} follows a measure yet. Say under 'What follows' which part follows "
                "which, and for whom it was drawn; then it can be fitted."
            )
        self.title.setText(words.format(view.name, view.version))
        self.form.show_view(view, self._wearer.id if self._wearer else "")
        self.tabs.show_view(view)
        self._typed()

    def _typed(self) -> None:
        """Something else is typed: say what cannot be read, or fit it in a moment."""
        wearer = self.form.wearer()
        self._found = None
        if isinstance(wearer, str):
            self._pause.stop()
            self._wearer = None
            self.fault.setText(wearer)
        else:
            if wearer != self._wearer:
                self.fault.setText("")
            self._wearer = wearer
            self._pause.start()
        self._allow()

    def fit_now(self) -> None:
        """Fit what is typed."""
        self._pause.stop()
        wearer, view = self._wearer, self._desk.view
        if wearer is None or view is None or not view.measures:
            return
        if not (wearer.measures or wearer.padded):
            self.tabs.show_nobody()
            return
        self.busy.setText(self.tr("It is reckoned …"))
        self._desk.fit(Asked(wearer=wearer, side=self.form.who.chosen_side))

    def _take(self, found: Fitted | Refused) -> None:
        self._found = found
        self.busy.setText("")
        self.tabs.show_found(found)
        self._allow()

    def _tell(self, words: str) -> None:
        self.fault.setText(words)
        announce(self.fault, words)
        self._allow()

    def _allow(self) -> None:
        self.keep.setEnabled(self._wearer is not None and self._desk.view is not None)
        self.write.setEnabled(isinstance(self._found, Fitted))

    # --- what is done -----------------------------------------------------------------------

    def _keep(self) -> None:
        if self._wearer is not None:
            self._desk.keep(self._wearer)

    def closeEvent(self, event: QCloseEvent) -> None:
        self._pause.stop()
        super().closeEvent(event)
