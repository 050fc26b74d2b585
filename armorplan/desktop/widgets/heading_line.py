"""Under which heading the checklist stands, with a way to the others: left and right of a pair."""

from collections.abc import Iterable
from html import escape

from PySide6.QtCore import QEvent, QModelIndex, QPoint, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPalette, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QLabel, QSizePolicy, QWidget

from armorplan.app.rows import ChecklistRow
from armorplan.desktop.checklist_rows import is_heading
from armorplan.desktop.widgets.checklist_view import ChecklistView

BETWEEN = "  \N{MIDDLE DOT}  "


class HeadingLine(QLabel):
    """Names the headings, the one in sight in bold; hidden where there is but one.

    Where they are too many for the line, only the one in sight is named.
    """

    def __init__(self, view: ChecklistView, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("checklist_headings")
        self._view = view
        self._titles: dict[str, str] = {}
        self._said = ""
        self.setTextFormat(Qt.TextFormat.RichText)
        self.setContentsMargins(8, 2, 8, 4)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setTextInteractionFlags(
            Qt.TextInteractionFlag.LinksAccessibleByMouse
            | Qt.TextInteractionFlag.LinksAccessibleByKeyboard
        )
        self.linkActivated.connect(self._go)
        view.verticalScrollBar().valueChanged.connect(self.refresh)
        view.expanded.connect(self.refresh)
        view.collapsed.connect(self.refresh)
        self.hide()

    def show_rows(self, rows: tuple[ChecklistRow, ...]) -> None:
        """Take the rows that are shown."""
        self._titles = {row.id: row.title for row in rows if is_heading(row)}
        self.setVisible(len(self._titles) > 1)
        self.refresh()

    def refresh(self) -> None:
        """Say what is in sight now."""
        here = self._here()
        named = self._titles
        if self._wide(named.values()) > self.contentsRect().width():
            named = {here: self._titles.get(here, "")}
        colour = self.palette().color(QPalette.ColorRole.Link).name()
        said = BETWEEN.replace(" ", "&nbsp;").join(
            f"<b>{escape(title)}</b>"
            if key == here
            else f'<a href="{escape(key)}" style="color: {colour}">{escape(title)}</a>'
            for key, title in named.items()
        )
        if said != self._said:
            self._said = said
            self.setText(said)
            told = self.tr("In sight: {0}").format(self._titles.get(here, ""))
            self.setAccessibleName(told)

    def _wide(self, titles: Iterable[str]) -> int:
        font = QFont(self.font())
        font.setBold(True)
        return QFontMetrics(font).horizontalAdvance(BETWEEN.join(titles))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.refresh()

    def changeEvent(self, event: QEvent) -> None:
        """Have the links in the colour of the theme: rich text keeps that of its making."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and self._said:
            self.refresh()

    def _here(self) -> str:
        """Return the heading of the topmost row in sight, else the first."""
        index = self._view.indexAt(QPoint(1, 1))
        while index.parent().isValid():
            index = index.parent()
        row = self._view.rows.row_at(index)
        return row.id if row is not None else next(iter(self._titles), "")

    def _go(self, heading: str) -> None:
        """Open a heading at the top of the list and give the list the keyboard."""
        index: QModelIndex = self._view.rows.index_of(heading)
        if index.isValid():
            self._view.setExpanded(index, True)
            self._view.setCurrentIndex(index)
            self._view.scrollTo(index, QAbstractItemView.ScrollHint.PositionAtTop)
            self._view.setFocus()
