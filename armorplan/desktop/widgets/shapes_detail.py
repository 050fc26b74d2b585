"""One measure: its picture above its sentences, what to do, and its figures."""

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QSplitter, QTextBrowser, QWidget

from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.shapes_html import HEADS, shape_html
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.shapes_picture import ShapePicture
from armorplan.geometry.pictures import Picture

MARGIN_PX = 8
WIDE_PX = 560
"""From here on the figures have four columns."""
PICTURE_PCT = 60
"""A picture may take so much of the height; more where the words keep ``WORDS_LINES``."""
WORDS_LINES = 8


class ShapeDetail(QSplitter):
    """Shows one row, or says how to choose one."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Vertical, parent)
        self.setObjectName("shapes_detail")
        self.setChildrenCollapsible(False)
        self._row: ShapeRow | None = None
        self._hint = ""
        self._is_wide = False
        self.room = QScrollArea(self)
        self.picture = ShapePicture(self.room)
        self.text = QTextBrowser(self)
        self.text.setObjectName("shapes_text")
        self.text.setAccessibleName(self.tr("What was reckoned, and how"))
        self.text.setOpenLinks(False)
        self.text.setTabChangesFocus(True)
        self.text.document().setDocumentMargin(MARGIN_PX)
        self.room.setObjectName("shapes_room")
        self.room.setFrameShape(QFrame.Shape.NoFrame)
        self.room.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.room.setWidgetResizable(True)
        self.room.setWidget(self.picture)
        self.addWidget(self.room)
        self.addWidget(self.text)
        self._show_picture(None)
        self._draw()

    @property
    def row(self) -> ShapeRow | None:
        """What is shown."""
        return self._row

    def show_row(self, row: ShapeRow | None, hint: str = "") -> None:
        """Show a row, or a hint where there is none; nothing happens if it is shown already."""
        if row == self._row and (row is not None or hint == self._hint):
            return
        other = row is None or self._row is None or row.id != self._row.id
        bar = self.text.verticalScrollBar()
        at = 0 if other else bar.value()
        self._row, self._hint = row, hint
        self._show_picture(row.picture if row else None)
        self._share()
        self._draw()
        bar.setValue(at)

    def _show_picture(self, picture: Picture | None) -> None:
        self.picture.show_picture(picture)
        self.room.setVisible(picture is not None)
        self.room.verticalScrollBar().setValue(0)

    def _share(self) -> None:
        """Give the picture what it needs, as long as the words below keep some lines."""
        if self._row is None or self._row.picture is None:
            return
        whole = self.height()
        wanted = self.picture.wanted_px(self.width())
        spare = whole - WORDS_LINES * self.fontMetrics().height()
        high = min(wanted, max(whole * PICTURE_PCT // 100, spare))
        self.setSizes([high, whole - high])

    def _draw(self) -> None:
        self._is_wide = self.width() >= WIDE_PX
        self.text.document().setDefaultFont(self.font())
        if self._row is None:
            self.text.setPlainText(self._hint)
            return
        colours = colours_of(self.palette())
        heads = tuple(self.tr(head) for head in HEADS)
        self.text.setHtml(shape_html(self._row, colours, heads, wide=self._is_wide))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if (self.width() >= WIDE_PX) != self._is_wide:
            self._draw()
        self._share()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            bar = self.text.verticalScrollBar()
            at = bar.value()
            self._draw()
            bar.setValue(at)
