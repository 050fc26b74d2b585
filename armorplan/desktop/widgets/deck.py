"""The right side: pictures of the build as tabs, and below them why the chosen step waits."""

from PySide6.QtCore import QByteArray, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QSplitter, QTabWidget, QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.between_panel import BetweenPanel
from armorplan.desktop.widgets.graph_view import GraphView
from armorplan.desktop.widgets.needs_page import NeedsView
from armorplan.desktop.widgets.parts_diagram import PartsDiagram
from armorplan.desktop.widgets.shapes_page import ShapesView
from armorplan.desktop.widgets.shapes_way import ShapesWay
from armorplan.desktop.widgets.week_view import WeekView
from armorplan.desktop.widgets.why_panel import WhyPanel

PICTURE_PCT = (45, 60)
"""The least and the most of the height that the pictures take by themselves."""
REACH_PCT = (72, 80)
"""The same while reach is shown over the parts, with its bar below them."""
BETWEEN_PCT = (30, 42)
"""The same while it is asked which of two comes first: the answer is read, not glanced at."""
LOW_PX = 380
"""Lower than this there is no room for a picture beside the answer."""


class Deck(QSplitter):
    """Parts, shapes, assembly graph, step graph, coming days and needs over the reasons."""

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Vertical, parent)
        self.setObjectName("deck")
        self.setChildrenCollapsible(False)
        self.tabs = QTabWidget(self)
        self.tabs.setObjectName("pictures")
        self.tabs.setAccessibleName(self.tr("Pictures of the build"))
        self.tabs.setDocumentMode(True)
        self.needs = NeedsView(bridge)
        self.parts = PartsDiagram(bridge)
        self.shapes = ShapesView(bridge)
        for view, title in (
            (self.parts, self.tr("Parts")),
            (self.shapes, self.tr("Shapes")),
            (GraphView(bridge, kind="assembly"), self.tr("Assembly graph")),
            (GraphView(bridge, kind="steps"), self.tr("Step graph")),
            (WeekView(bridge), self.tr("Coming days")),
            (self.needs, self.tr("Needs")),
        ):
            self.tabs.addTab(view, title)
        self.way = ShapesWay(bridge, self.tabs, self.shapes)
        self.why = WhyPanel(bridge)
        self.why.reckoned.connect(self.way.reckon_rule)
        self.between = BetweenPanel(bridge)
        self.reasons = QTabWidget(self)
        self.reasons.setObjectName("reasons")
        self.reasons.setAccessibleName(self.tr("Reasons"))
        self.reasons.setDocumentMode(True)
        self.reasons.addTab(self.why, self.tr("Why this step"))
        self._asking = _scrolled(self.between)
        self.reasons.addTab(self._asking, self.tr("Which of two first"))
        self.reasons.currentChanged.connect(self._turn)
        self.addWidget(self.tabs)
        self.addWidget(self.reasons)
        self._is_moved = False
        self.splitterMoved.connect(self._keep)
        bridge.opened.connect(self._share)
        self.tabs.currentChanged.connect(self._make_room)

    def _keep(self) -> None:
        """Leave the heights as they were drawn by hand from now on."""
        self._is_moved = True

    def heights(self) -> QByteArray:
        """Return the heights to be kept; empty where nobody has drawn them by hand."""
        return self.saveState() if self._is_moved else QByteArray()

    def take_heights(self, kept: QByteArray) -> None:
        """Have the heights that were kept, if any were."""
        self._is_moved = not kept.isEmpty() and self.restoreState(kept)

    def _share(self) -> None:
        """Give the picture of the parts the height it needs, the reasons the rest."""
        whole, canvas = self.height(), self.parts.canvas
        if self._is_moved or self.reasons.isHidden() or self.tabs.isHidden():
            return
        wanted = self.tabs.tabBar().height() + canvas.wanted_px(canvas.width())
        shares = REACH_PCT if self.parts.closing_desk.is_on else PICTURE_PCT
        if self.reasons.currentWidget() is self._asking:
            shares = BETWEEN_PCT
        least, most = (whole * share // 100 for share in shares)
        high = min(max(wanted, least), most)
        self.setSizes([high, whole - high])

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._share()

    def show_reach(self, wanted: bool) -> None:
        """Show reach over the parts, which takes more of the height, or leave it."""
        self.tabs.show()
        self.parts.show_closing(wanted)
        self._share()

    def end_jobs(self) -> None:
        """Wait for what is still being reckoned or written."""
        self.needs.end_jobs()
        self.parts.closing_desk.close()
        self.between.desk.close()

    def go(self, place: int) -> None:
        """Show a picture and give it the keyboard."""
        self.tabs.show()
        self.tabs.setCurrentIndex(place)
        self.tabs.currentWidget().setFocus()

    def go_why(self) -> None:
        """Show the reasons and give them the keyboard."""
        self.reasons.show()
        self.reasons.setCurrentWidget(self.why)
        self.why.setFocus()

    def go_between(self) -> None:
        """Ask which of two comes first, of what is chosen."""
        self.reasons.show()
        self.reasons.setCurrentWidget(self._asking)
        self.between.begin()

    def _turn(self) -> None:
        """Have room for what is read now; a page turned to by hand begins with what is chosen."""
        is_asked = self.reasons.currentWidget() is self._asking
        self.tabs.setHidden(is_asked and self.height() < LOW_PX)
        self._share()
        if is_asked and self.between.is_blank():
            self.between.begin()

    def _make_room(self) -> None:
        """The page of shapes says why itself: it gets the room of the reasons too."""
        self.reasons.setVisible(self.tabs.currentWidget() is not self.shapes)


def _scrolled(page: QWidget) -> QScrollArea:
    """Return a page that can be scrolled where it has too little height."""
    room = QScrollArea()
    room.setObjectName("asking_room")
    room.setFrameShape(QFrame.Shape.NoFrame)
    room.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    room.setWidgetResizable(True)
    room.setWidget(page)
    return room
