"""What dry fits ask of the pattern: before and after, accepted one by one, kept as its next version."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QLabel,
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
)
from armorplan.desktop.widgets.alt_letters import AltLetters
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.closing_keys import ClosingKeys
from armorplan.desktop.widgets.corrections_lists import (
    KeepingFoot,
    Lines,
    SideBySide,
    Told,
    VersionsSide,
)
from armorplan.desktop.widgets.corrections_picture import CorrectionsPicture
from armorplan.desktop.widgets.page_foot import fit_screen
from armorplan.desktop.widgets.way_back_lists import heading_font

_SIZE_PX = (1080, 720)
_HEIGHTS_PX = (340, 240)


class CorrectionsPage(QWidget):
    """A window of its own beside the bench."""

    def __init__(self, desk: CorrectionsDesk, parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setObjectName("corrections_page")
        self._desk = desk
        self._asked: Corrections | None = None
        self._accepted: set[str] = set()
        self.head, self.said = QLabel(self), QLabel(self)
        self.rows = Lines("corrections_rows", self.tr("Corrections"), self)
        self.details = Told("corrections_details", self.tr("About the correction"), self)
        self.picture = CorrectionsPicture(self)
        self.legend = QLabel(self.tr("Dashed: where the hole lies. Full: where it should."), self)
        self._above = QWidget(self)
        self.foot, self.versions = KeepingFoot(self), VersionsSide(self)
        self._lay_out()
        self._connect()
        AltLetters(self)
        ClosingKeys(self)
        fit_screen(self, *_SIZE_PX)

    def _lay_out(self) -> None:
        self.setWindowTitle(self.tr("Corrections and versions"))
        for label, name in ((self.head, "corrections_head"), (self.said, "corrections_said")):
            label.setObjectName(name)
            label.setWordWrap(True)
        self.head.setFont(heading_font(self.font()))
        tabs = QTabWidget(self)
        tabs.setObjectName("corrections_tabs")
        tabs.addTab(self._corrections(), self.tr("&Corrections"))
        tabs.addTab(self.versions, self.tr("&Versions"))
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
        page = QWidget(self)
        down = QVBoxLayout(page)
        down.addWidget(SideBySide(self.rows, right, self), 1)
        down.addWidget(self.foot)
        return page

    def _connect(self) -> None:
        self._desk.shown.connect(self._show)
        self._desk.said.connect(self._say)
        self._desk.busy.connect(self._tell_busy)
        self.rows.currentRowChanged.connect(self._choose)
        self.rows.turned.connect(self._turn)
        self.picture.hands.chosen.connect(lambda hole: hole or self.close())
        self.foot.turn.clicked.connect(self._turn)
        self.foot.all.clicked.connect(self._accept_all)
        self.foot.note.returnPressed.connect(self._keep)
        self.foot.keep.clicked.connect(self._keep)
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
        self.versions.show_versions(asked.versions)
        self.setWindowTitle(
            self.tr("Corrections and versions – {0}").format(asked.opened.draft.name)
        )
        self.foot.keep.setText(self.tr("&Keep as version {0}").format(asked.next_version))
        self._choose()
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
        self.foot.turn.setEnabled(row is not None and row.standing is Standing.OFFERED)

    def _tell_accepted(self) -> None:
        asked = self._asked
        rows = asked.rows if asked else ()
        self.head.setText(head_words(rows, self._accepted))
        may_keep = bool(self._accepted) and asked is not None and not asked.said
        self.foot.keep.setEnabled(may_keep and not self._desk.is_busy)
        offered = any(row.standing is Standing.OFFERED for row in rows)
        self.foot.all.setEnabled(offered)
        self.foot.note.setEnabled(offered)

    def _tell_busy(self, busy: bool) -> None:
        if busy and not self.said.text():
            self._say(self.tr("Looking through the builds of this pattern …"))
        elif not busy and self.said.text().endswith("…"):
            self._say("")
        self._tell_accepted()

    def _say(self, sentence: str) -> None:
        self.said.setText(sentence)
        announce(self.said, sentence)

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
        if self._asked is None or not self.foot.keep.isEnabled():
            self._say(self.tr("Accept a correction first: Space accepts what is chosen."))
            return
        self._desk.keep(self._asked, frozenset(self._accepted), self.foot.note.text().strip())
