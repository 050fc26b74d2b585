"""The help: its pages by group on the left, the page on the right. Does not hold up the bench."""

from PySide6.QtCore import QEvent, QModelIndex, Qt, QUrl
from PySide6.QtGui import (
    QColor,
    QFont,
    QStandardItem,
    QStandardItemModel,
    QTextBlockFormat,
    QTextCursor,
)
from PySide6.QtWidgets import (
    QDialog,
    QLineEdit,
    QSplitter,
    QTextBrowser,
    QTreeView,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.help_pages import (
    HelpGroup,
    HelpPage,
    help_page,
    help_pages,
    page_text,
    pages_with,
)
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.page_foot import close_box

FIRST = "at_the_bench"
_LIST_PX, _PAGE_PX = 380, 660
_HIGH_PX = 700
_FRAME_PX = 40
_SPACE_PX = 14
_SCHEME = "page"


class HelpView(QDialog):
    """Shows the help, with a line that finds pages by their words."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("help_view")
        self.setWindowTitle(self.tr("Help"))
        self.setModal(False)
        self._words = QLineEdit(self)
        self._words.setObjectName("help_words")
        self._words.setPlaceholderText(self.tr("Find words in the help"))
        self._words.setAccessibleName(self.tr("Find words in the help"))
        self._words.setClearButtonEnabled(True)
        self._here = ""
        self._model = QStandardItemModel(self)
        self._list = self._made_list()
        self._page = self._made_page()
        self._lay_out()
        self._words.textChanged.connect(self._find)
        self._list.selectionModel().currentChanged.connect(self._turn)
        self._fill(help_pages())
        self.open_at(FIRST)

    def _made_list(self) -> QTreeView:
        pages = QTreeView(self)
        pages.setObjectName("help_pages")
        pages.setAccessibleName(self.tr("Pages"))
        pages.setHeaderHidden(True)
        pages.setModel(self._model)
        pages.setEditTriggers(QTreeView.EditTrigger.NoEditTriggers)
        pages.setWordWrap(True)
        pages.setAlternatingRowColors(True)
        return pages

    def _made_page(self) -> QTextBrowser:
        page = QTextBrowser(self)
        page.setObjectName("help_text")
        page.setAccessibleName(self.tr("Page"))
        page.setOpenLinks(False)
        page.document().setDocumentMargin(18)
        page.anchorClicked.connect(self._follow)
        return page

    def _lay_out(self) -> None:
        across = QSplitter(Qt.Orientation.Horizontal, self)
        left = QWidget(across)
        down = QVBoxLayout(left)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self._words)
        down.addWidget(self._list, 1)
        across.addWidget(self._page)
        across.setChildrenCollapsible(False)
        across.setStretchFactor(1, 1)
        across.setSizes([_LIST_PX, _PAGE_PX])
        self._words.returnPressed.connect(self._list.setFocus)
        whole = QVBoxLayout(self)
        whole.addWidget(across, 1)
        whole.addWidget(close_box(self))
        room = self.screen().availableSize()
        wide, high = room.width() - _FRAME_PX, room.height() - 2 * _FRAME_PX
        self.resize(min(_LIST_PX + _PAGE_PX + 40, wide), min(_HIGH_PX, high))
        self.setTabOrder(self._words, self._list)
        self.setTabOrder(self._list, self._page)

    def open_at(self, page_id: str) -> None:
        """Show a page and mark it in the list; one that is not there leaves the page as it is."""
        page = help_page(page_id)
        if page is None:
            return
        if not self._place(page_id).isValid():
            self._words.clear()
        self._list.setCurrentIndex(self._place(page_id))
        self._list.setFocus()

    def _fill(self, pages: tuple[HelpPage, ...]) -> None:
        self._model.clear()
        for group in HelpGroup:
            head = QStandardItem(self.tr(group.value))
            font = QFont(self.font())
            font.setBold(True)
            head.setFont(font)
            head.setSelectable(False)
            for page in pages:
                if page.group is group:
                    item = QStandardItem(page.title)
                    item.setData(page.id)
                    item.setToolTip(page.title)
                    head.appendRow(item)
            if head.rowCount():
                self._model.appendRow(head)
        self._list.expandAll()

    def _find(self, words: str) -> None:
        pages, here = pages_with(words), self._here
        self._fill(pages)
        to = pages[0].id if pages and words.strip() else here
        self._list.setCurrentIndex(self._place(to))
        self._list.scrollTo(self._list.currentIndex(), QTreeView.ScrollHint.PositionAtCenter)

    def _place(self, page_id: str) -> QModelIndex:
        for row in range(self._model.rowCount()):
            head = self._model.item(row)
            for at in range(head.rowCount()):
                if head.child(at).data() == page_id:
                    return head.child(at).index()
        return QModelIndex()

    def _turn(self, index: QModelIndex) -> None:
        page = help_page(str(index.data(Qt.ItemDataRole.UserRole + 1) or ""))
        if page is not None and page.id != self._here:
            self._show(page)

    def _show(self, page: HelpPage) -> None:
        self._here = page.id
        self._page.document().setDefaultFont(self.font())
        self._page.setMarkdown(page_text(page.id))
        self._set_apart()
        self._page.moveCursor(QTextCursor.MoveOperation.Start)
        self._page.setAccessibleDescription(page.title)

    def _set_apart(self) -> None:
        """Put what is to be typed on a shade of its own, and room above headings."""
        shade = QColor(colours_of(self.palette()).bar)
        block = self._page.document().begin()
        while block.isValid():
            form = block.blockFormat()
            if _is_code(form):
                form.setBackground(shade)
                form.setLeftMargin(12)
            if form.headingLevel() > 1:
                form.setTopMargin(_SPACE_PX)
            QTextCursor(block).setBlockFormat(form)
            block = block.next()

    def _follow(self, link: QUrl) -> None:
        if link.scheme() == _SCHEME:
            self.open_at(link.path())

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            page = help_page(self._here)
            if page is not None:
                self._show(page)


def _is_code(form: QTextBlockFormat) -> bool:
    kind = form.Property
    return any(form.hasProperty(p) for p in (kind.BlockCodeFence, kind.BlockCodeLanguage))
