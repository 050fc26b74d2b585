"""The right side: pictures of the build as tabs, and below them why the chosen step waits."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSplitter, QTabWidget, QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.graph_view import GraphView
from armorplan.desktop.widgets.needs_page import NeedsView
from armorplan.desktop.widgets.parts_diagram import PartsDiagram
from armorplan.desktop.widgets.shapes_page import ShapesView
from armorplan.desktop.widgets.shapes_way import ShapesWay
from armorplan.desktop.widgets.week_view import WeekView
from armorplan.desktop.widgets.why_panel import WhyPanel


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
        self.addWidget(self.tabs)
        self.addWidget(self.why)
        self.setStretchFactor(0, 3)
        self.setStretchFactor(1, 2)
        self.tabs.currentChanged.connect(self._make_room)

    def go(self, place: int) -> None:
        """Show a picture and give it the keyboard."""
        self.tabs.setCurrentIndex(place)
        self.tabs.currentWidget().setFocus()

    def go_why(self) -> None:
        """Show the reasons and give them the keyboard."""
        self.why.show()
        self.why.setFocus()

    def _make_room(self) -> None:
        """The page of shapes says why itself: it gets the room of the reasons too."""
        self.why.setVisible(self.tabs.currentWidget() is not self.shapes)
