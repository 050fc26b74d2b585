"""The page of backups: each is tried on a copy when it is chosen, and says what would be lost."""

from html import escape

from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.restore_desk import RestoreDesk
from armorplan.desktop.restore_words import backup_words, rehearsal_words
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.page_foot import close_box, fit_screen
from armorplan.store.backups import Backup
from armorplan.store.restoring import Rehearsal

WIDE_PX, HIGH_PX = 860, 520
LEAST_BUTTON_PX = 48


class RestorePage(QDialog):
    """Nothing is put in place that was not tried first, and only by its button."""

    def __init__(self, desk: RestoreDesk, parent: QWidget | None = None, *, why: str = "") -> None:
        super().__init__(parent)
        self.setObjectName("restore_page")
        self.setWindowTitle(self.tr("Backups of the workshop"))
        self.setModal(False)
        self._desk = desk
        self._backups: tuple[Backup, ...] = ()
        self._tried: Backup | None = None
        self._said = ""
        self.why = QLabel(why, self)
        self.list = QListWidget(self)
        self.told = QTextBrowser(self)
        self.put_in_place = QPushButton(self.tr("&Put this one in place"), self)
        self._name_all()
        self._lay_out()
        desk.listed.connect(self._list)
        desk.rehearsed.connect(self._show)
        desk.restored.connect(self._tell)
        desk.refused.connect(self._refuse)
        self.list.currentItemChanged.connect(self._try)
        self.put_in_place.clicked.connect(self._restore)
        desk.read()

    def _name_all(self) -> None:
        self.why.setObjectName("restore_why")
        self.why.setWordWrap(True)
        self.why.setVisible(bool(self.why.text()))
        self.list.setObjectName("restore_list")
        self.list.setAccessibleName(self.tr("Backups, the latest first"))
        self.told.setObjectName("restore_told")
        self.told.setAccessibleName(self.tr("What it holds and what would be lost"))
        self.told.setTabChangesFocus(True)
        self.put_in_place.setObjectName("restore_put")
        self.put_in_place.setAutoDefault(False)
        self.put_in_place.setMinimumHeight(LEAST_BUTTON_PX)
        self.put_in_place.setEnabled(False)

    def _lay_out(self) -> None:
        across = QHBoxLayout()
        across.addWidget(self.list, 2)
        across.addWidget(self.told, 3)
        foot = QHBoxLayout()
        foot.addWidget(self.put_in_place)
        foot.addStretch(1)
        foot.addWidget(close_box(self))
        whole = QVBoxLayout(self)
        whole.addWidget(self.why)
        whole.addLayout(across, 1)
        whole.addLayout(foot)
        self.list.setFocus()
        fit_screen(self, WIDE_PX, HIGH_PX)

    def _list(self, backups: tuple[Backup, ...]) -> None:
        self.list.clear()
        # Those before an upgrade have no number among the others: all stand by their instants.
        found = sorted(backups, key=lambda b: (b.made_at, b.number), reverse=True)
        self._backups = tuple(found)
        for backup in found:
            item = QListWidgetItem(backup_words(backup, self._desk.zone), self.list)
            item.setToolTip(str(backup.path))
        if self.list.count():
            self.list.setCurrentRow(0)
        else:
            self._say(self.tr("There is no backup yet. One is made each day, by itself."))

    def _chosen(self) -> Backup | None:
        row = self.list.currentRow()
        return self._backups[row] if 0 <= row < len(self._backups) else None

    def _try(self) -> None:
        backup = self._chosen()
        self._tried = None
        self.put_in_place.setEnabled(False)
        if backup is not None:
            self._say(self.tr("It is being restored on a copy, on trial …"))
            self._desk.rehearse(backup)

    def _show(self, told: Rehearsal) -> None:
        if told.backup != self._chosen():
            return
        self._tried = told.backup
        self.put_in_place.setEnabled(True)
        self._say(*rehearsal_words(told, self._desk.zone))

    def _restore(self) -> None:
        if self._tried is not None:
            self.put_in_place.setEnabled(False)
            self._desk.restore(self._tried)

    def _tell(self, said: str) -> None:
        self._said = said
        announce(self, said)

    def _refuse(self, why: str) -> None:
        self.put_in_place.setEnabled(False)
        self._say(why)
        announce(self, why)

    def _say(self, *paragraphs: str) -> None:
        whole = (self._said, *paragraphs) if self._said else paragraphs
        self.told.setHtml("".join(f"<p>{escape(one)}</p>" for one in whole))

    def closeEvent(self, event: QCloseEvent) -> None:
        self._desk.close()
        super().closeEvent(event)
