"""The right side: pictures of the build as tabs, and below them why the chosen step waits."""

from PySide6.QtCore import QByteArray, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QSplitter, QTabWidget, QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.between_panel import BetweenPanel
from armorplan.desktop.widgets.drying_page import DryingView
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
WEEK_PCT = 74
"""So much the week takes: a row for each person and place, and the reasons of what is chosen below."""
WEEK_LOW_PX = 540
"""Lower than this the week has the room of the reasons too."""
BETWEEN_PCT = (30, 42)
"""The same while it is asked which of two comes first: the answer is read, not glanced at."""
LOW_PX = 380
"""Lower than this there is no room for a picture beside the answer, nor for reach beside reasons."""
SEEN_PX = 250
"""So high a picture is at least beside the answer, or what the answer speaks of is a speck."""
WHY_PX = 100
"""So much the reasons keep at least beside reach, with their tabs."""
ANSWER_PX = 140
"""So much the answer keeps at least, with its choosers; the rest is scrolled to."""


class Deck(QSplitter):
    """Parts, shapes, both graphs, coming days, drying and needs over the reasons.

    ``turned`` says that other reasons are read now.
    """

    turned = Signal()

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Vertical, parent)
        self.setObjectName("deck")
        self.setChildrenCollapsible(False)
        self.tabs = QTabWidget(self)
        self.tabs.setObjectName("pictures")
        self.tabs.setAccessibleName(self.tr("Pictures of the build"))
        self.tabs.setDocumentMode(True)
        self.needs = NeedsView(bridge)
        self.drying = DryingView(bridge)
        self.week = WeekView(bridge)
        self.parts = PartsDiagram(bridge)
        self.shapes = ShapesView(bridge)
        for view, title in (
            (self.parts, self.tr("Parts")),
            (self.shapes, self.tr("Shapes")),
            (GraphView(bridge, kind="assembly"), self.tr("Assembly graph")),
            (GraphView(bridge, kind="steps"), self.tr("Step graph")),
            (self.week, self.tr("Coming days")),
            (self.drying, self.tr("Drying")),
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
        self.parts.closing_desk.shown.connect(self._share)
        self.parts.closing_bar.fold.toggled.connect(self._share)

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
        beside_px = self.tabs.tabBar().height() + self.parts.bar_px()
        wanted = beside_px + canvas.wanted_px(canvas.width())
        shares = REACH_PCT if self.parts.closing_desk.is_on else PICTURE_PCT
        if self.is_asking:
            shares = BETWEEN_PCT
        elif self.is_week:
            shares = (WEEK_PCT, WEEK_PCT)
        least, most = (whole * share // 100 for share in shares)
        high = min(max(wanted, least), most)
        if self.is_asking or self.parts.closing_desk.is_on:
            beneath_px = ANSWER_PX if self.is_asking else WHY_PX
            high = min(max(high, beside_px + SEEN_PX), whole - beneath_px)
        self.setSizes([high, whole - high])

    @property
    def is_asking(self) -> bool:
        """Whether it is asked which of two comes first, and the answer is in sight."""
        return self.reasons.currentWidget() is self._asking and not self.reasons.isHidden()

    @property
    def is_week(self) -> bool:
        """Whether the week is in sight."""
        return self.tabs.currentWidget() is self.week and not self.tabs.isHidden()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        was_px = event.oldSize().height()
        if any((0 <= was_px < low) != (self.height() < low) for low in (LOW_PX, WEEK_LOW_PX)):
            self._make_room()
        self._share()

    def show_reach(self, wanted: bool) -> None:
        """Turn to the parts and show reach over them, which takes more of the height, or leave it."""
        self.tabs.show()
        if wanted:
            self.tabs.setCurrentWidget(self.parts)
        self.parts.show_closing(wanted)
        self._make_room()
        self._share()

    def end_jobs(self) -> None:
        """Wait for what is still being reckoned or written."""
        self.needs.end_jobs()
        self.week.end_jobs()
        self.drying.end_jobs()
        self.parts.closing_desk.close()
        self.shapes.later.close()
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
        is_asked = self.is_asking
        self.turned.emit()
        self.tabs.setHidden(is_asked and self.height() < LOW_PX)
        self._share()
        if is_asked and self.between.is_blank():
            self.between.begin()

    def _make_room(self) -> None:
        """The pages of shapes and of drying say why themselves: they get the room of the reasons too.

        So do the parts while reach is shown over them, and the week, where there is no room for both.
        """
        page = self.tabs.currentWidget()
        is_reach = page is self.parts and self.parts.closing_desk.is_on
        is_whole = page in (self.shapes, self.drying) or (is_reach and self.height() < LOW_PX)
        is_whole = is_whole or (page is self.week and self.height() < WEEK_LOW_PX)
        self.reasons.setHidden(is_whole and not self.tabs.isHidden())
        self._share()
        self.turned.emit()


def _scrolled(page: QWidget) -> QScrollArea:
    """Return a page that can be scrolled where it has too little height."""
    room = QScrollArea()
    room.setObjectName("asking_room")
    room.setFrameShape(QFrame.Shape.NoFrame)
    room.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    room.setWidgetResizable(True)
    room.setWidget(page)
    return room
