"""What dry fits ask of the pattern: before and after, accepted one by one, kept as its next version."""

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPlainTextEdit,
    QPushButton,
    QSplitter,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.corrections_desk import Corrections
from armorplan.app.corrections_model import CorrectionRow, Standing
from armorplan.desktop.corrections_desk import CorrectionsDesk
from armorplan.desktop.corrections_words import (
    detail_words,
    head_words,
    nothing_words,
    row_words,
    version_detail,
    version_words,
)
from armorplan.desktop.widgets.alt_letters import AltLetters
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.corrections_picture import CorrectionsPicture
from armorplan.desktop.widgets.page_foot import fit_screen
from armorplan.desktop.widgets.way_back_lists import TARGET_PX, TallRows, heading_font

_SIZE_PX = (1080, 720)
_HEIGHTS_PX = (340, 240)
_SHARES_PX = (420, 640)


class _Lines(QListWidget):
    """A list of corrections or versions. ``turned`` says that what is chosen is accepted or not."""

    turned = Signal()

    def __init__(self, name: str, spoken: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self.setAccessibleName(spoken)
        self.setItemDelegate(TallRows(TARGET_PX, self))
        self.setWordWrap(True)
        self.setAlternatingRowColors(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.itemDoubleClicked.connect(self.turned)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.turned.emit()
        else:
            super().keyPressEvent(event)

    def show_lines(self, lines: list[str]) -> None:
        """Show lines; the row in hand stays in hand."""
        at = self.currentRow()
        with QSignalBlocker(self):
            self.clear()
            self.addItems(lines)
            self.setCurrentRow(min(max(at, 0), self.count() - 1))

    def say(self, row: int, line: str) -> None:
        """Change one line."""
        item: QListWidgetItem | None = self.item(row)
        if item is not None:
            item.setText(line)


def _details(name: str, spoken: str, parent: QWidget) -> QPlainTextEdit:
    made = QPlainTextEdit(parent)
    made.setObjectName(name)
    made.setAccessibleName(spoken)
    made.setReadOnly(True)
    made.setTabChangesFocus(True)
    return made


class CorrectionsPage(QWidget):
    """A window of its own beside the bench."""

    def __init__(self, desk: CorrectionsDesk, parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setObjectName("corrections_page")
        self._desk = desk
        self._asked: Corrections | None = None
        self._accepted: set[str] = set()
        self.head, self.said = QLabel(self), QLabel(self)
        self.rows = _Lines("corrections_rows", self.tr("Corrections"), self)
        self.versions = _Lines("corrections_versions", self.tr("Versions"), self)
        self.details = _details("corrections_details", self.tr("About the correction"), self)
        self.told = _details("corrections_told", self.tr("About the version"), self)
        self.picture = CorrectionsPicture(self)
        self.legend = QLabel(self.tr("Dashed: where the hole lies. Full: where it should."), self)
        self._above = QWidget(self)
        self.turn = QPushButton(self.tr("&Accept or reject (Space)"), self)
        self.all = QPushButton(self.tr("Accept a&ll"), self)
        self.note = QLineEdit(self)
        self.keep = QPushButton(self)
        self._lay_out()
        self._connect()
        AltLetters(self)
        fit_screen(self, *_SIZE_PX)

    # --- laying out ---------------------------------------------------------------------------

    def _lay_out(self) -> None:
        self.setWindowTitle(self.tr("Corrections and versions"))
        for label, name in ((self.head, "corrections_head"), (self.said, "corrections_said")):
            label.setObjectName(name)
            label.setWordWrap(True)
        self.head.setFont(heading_font(self.font()))
        self.note.setObjectName("corrections_note")
        self.note.setAccessibleName(self.tr("Note to the version"))
        self.note.setPlaceholderText(self.tr("What the version brings, in a few words"))
        for button, name in (
            (self.turn, "corrections_turn"),
            (self.all, "corrections_all"),
            (self.keep, "corrections_keep"),
        ):
            button.setObjectName(name)
            button.setAutoDefault(False)
            button.setMinimumHeight(TARGET_PX)
        self.note.setMinimumHeight(TARGET_PX)
        tabs = QTabWidget(self)
        tabs.setObjectName("corrections_tabs")
        tabs.addTab(self._corrections(), self.tr("&Corrections"))
        tabs.addTab(_across(self.versions, self.told, self), self.tr("&Versions"))
        whole = QVBoxLayout(self)
        whole.addWidget(self.head)
        whole.addWidget(tabs, 1)
        whole.addWidget(self.said)

    def _corrections(self) -> QWidget:
        right = QSplitter(Qt.Orientation.Vertical, self)
        right.setChildrenCollapsible(False)
        whole = QVBoxLayout(self._above)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self.picture, 1)
        whole.addWidget(self.legend)
        right.addWidget(self._above)
        right.addWidget(self.details)
        right.setSizes(list(_HEIGHTS_PX))
        page, foot = QWidget(self), QHBoxLayout()
        foot.addWidget(self.turn)
        foot.addWidget(self.all)
        foot.addWidget(self.note, 1)
        foot.addWidget(self.keep)
        down = QVBoxLayout(page)
        down.addWidget(_across(self.rows, right, self), 1)
        down.addLayout(foot)
        return page

    def _connect(self) -> None:
        self._desk.shown.connect(self._show)
        self._desk.said.connect(self._say)
        self._desk.busy.connect(self._tell_busy)
        self.rows.currentRowChanged.connect(self._choose)
        self.rows.turned.connect(self._turn)
        self.versions.currentRowChanged.connect(self._choose_version)
        self.turn.clicked.connect(self._turn)
        self.all.clicked.connect(self._accept_all)
        self.note.returnPressed.connect(self._keep)
        self.keep.clicked.connect(self._keep)
        QShortcut(QKeySequence("Ctrl+Return"), self).activated.connect(self._keep)

    # --- showing ------------------------------------------------------------------------------

    def begin(self) -> None:
        """Look through the builds of the pattern at the bench."""
        self._say("")
        self._desk.ask()

    def _show(self, asked: Corrections) -> None:
        self._asked = asked
        offered = {row.key for row in asked.rows if row.standing is Standing.OFFERED}
        self._accepted &= offered
        self.rows.show_lines([self._line(row) for row in asked.rows])
        self.versions.show_lines([version_words(row) for row in asked.versions])
        self.setWindowTitle(
            self.tr("Corrections and versions – {0}").format(asked.opened.draft.name)
        )
        self.keep.setText(self.tr("&Keep as version {0}").format(asked.next_version))
        self._choose()
        self._choose_version()
        self._tell_accepted()
        if asked.troubles or asked.said:
            self._say(" ".join((*asked.troubles, asked.said)).strip())
        self.rows.setFocus()

    def _line(self, row: CorrectionRow) -> str:
        return row_words(row, accepted=row.key in self._accepted)

    @property
    def _row(self) -> CorrectionRow | None:
        at = self.rows.currentRow()
        rows = self._asked.rows if self._asked else ()
        return rows[at] if 0 <= at < len(rows) else None

    def _choose(self) -> None:
        row, asked = self._row, self._asked
        pattern = asked.opened.draft.pattern if asked else None
        self.picture.show_moves(pattern, row.moves if row else ())
        self._above.setVisible(bool(row and row.moves))
        self.details.setPlainText(detail_words(row) if row else nothing_words() if asked else "")
        self.turn.setEnabled(row is not None and row.standing is Standing.OFFERED)

    def _choose_version(self) -> None:
        at, versions = self.versions.currentRow(), self._asked.versions if self._asked else ()
        self.told.setPlainText(version_detail(versions[at]) if 0 <= at < len(versions) else "")

    def _tell_accepted(self) -> None:
        asked = self._asked
        rows = asked.rows if asked else ()
        self.head.setText(head_words(rows, self._accepted))
        may_keep = bool(self._accepted) and asked is not None and not asked.said
        self.keep.setEnabled(may_keep and not self._desk.is_busy)
        offered = any(row.standing is Standing.OFFERED for row in rows)
        self.all.setEnabled(offered)
        self.note.setEnabled(offered)

    def _tell_busy(self, busy: bool) -> None:
        if busy and not self.said.text():
            self._say(self.tr("Looking through the builds of this pattern …"))
        elif not busy and self.said.text().endswith("…"):
            self._say("")
        self._tell_accepted()

    def _say(self, sentence: str) -> None:
        self.said.setText(sentence)
        announce(self.said, sentence)

    # --- accepting ----------------------------------------------------------------------------

    def _turn(self) -> None:
        """Accept what is chosen, or accept it no more."""
        row = self._row
        if row is None or row.standing is not Standing.OFFERED:
            return
        self._accepted ^= {row.key}
        self.rows.say(self.rows.currentRow(), self._line(row))
        self._tell_accepted()
        announce(self.rows, self._line(row))

    def _accept_all(self) -> None:
        rows = self._asked.rows if self._asked else ()
        self._accepted = {row.key for row in rows if row.standing is Standing.OFFERED}
        for at, row in enumerate(rows):
            self.rows.say(at, self._line(row))
        self._tell_accepted()

    def _keep(self) -> None:
        if self._asked is None or not self.keep.isEnabled():
            self._say(self.tr("Accept a correction first: Space accepts what is chosen."))
            return
        self._desk.keep(self._asked, frozenset(self._accepted), self.note.text().strip())


def _across(left: QWidget, right: QWidget, parent: QWidget) -> QSplitter:
    made = QSplitter(Qt.Orientation.Horizontal, parent)
    made.setChildrenCollapsible(False)
    made.addWidget(left)
    made.addWidget(right)
    made.setStretchFactor(1, 1)
    made.setSizes(list(_SHARES_PX))
    return made
