"""What a fitting comes to: changes in words, part by part, what follows, and what was fitted already."""

from PySide6.QtCore import QEvent, Qt
from PySide6.QtWidgets import QTabWidget, QTextBrowser, QWidget

from armorplan.app.draft import Refused
from armorplan.app.wearer_desk import WearerView
from armorplan.app.wearer_model import Fitted
from armorplan.desktop.shapes_html import finding_html
from armorplan.desktop.theme import colours_of
from armorplan.desktop.wearer_html import fitted_html
from armorplan.desktop.widgets.wearer_folders import WearerFolders
from armorplan.desktop.widgets.wearer_following import WearerFollowing
from armorplan.desktop.widgets.wearer_picture import PartByPart, SizedPicture


class WearerTabs(QTabWidget):
    """Shows one answer in words and pictures; what is asked here the page hears from its parts."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("wearer_tabs")
        self._found: Fitted | Refused | None = None
        self.text = QTextBrowser(self)
        self.picture = SizedPicture(self)
        self.following = WearerFollowing(self)
        self.folders = WearerFolders(self)
        self.text.setObjectName("wearer_text")
        self.text.setAccessibleName(self.tr("What changes"))
        self.text.setTabChangesFocus(True)
        self.text.setOpenLinks(False)
        self.text.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.addTab(self.text, self.tr("&Changes"))
        self.addTab(PartByPart(self.picture, self), self.tr("Part by pa&rt"))
        self.addTab(self.following, self.tr("What follow&s"))
        self.addTab(self.folders, self.tr("Fitt&ed"))

    def show_view(self, view: WearerView) -> None:
        """Show what there is of a pattern; where nothing follows a measure, where that is said."""
        self.following.show_view(view)
        self.folders.show_view(view)
        if not view.measures:
            self.setCurrentWidget(self.following)
            self.following.list.setFocus()

    def show_nobody(self) -> None:
        """Say that nothing was measured yet."""
        self._found = None
        self.text.setHtml(self.tr("Type what was measured, on the body or over the padding worn."))
        self.picture.show_parts(())

    def show_found(self, found: Fitted | Refused) -> None:
        """Show what a fitting came to."""
        self._found = found
        self.picture.show_parts(found.parts if isinstance(found, Fitted) else ())
        self.draw()

    def draw(self) -> None:
        """Draw the words anew, in the colours and the font of now."""
        found, colours = self._found, colours_of(self.palette())
        if found is None:
            return
        bar = self.text.verticalScrollBar()
        before = bar.value()
        self.text.document().setDefaultFont(self.font())
        if isinstance(found, Fitted):
            self.text.setHtml(fitted_html(found, colours))
        else:
            self.text.setHtml("".join(finding_html(one, colours) for one in found.findings))
        bar.setValue(before)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self.draw()
