"""Panels that lie over the bench view and have the keyboard meanwhile; pedals still speak the verbs."""

from enum import Enum, auto
from typing import Protocol

from PySide6.QtCore import QEvent, QObject, QRect, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QPushButton, QWidget

from armorplan.desktop.bench_desk import BenchDesk
from armorplan.desktop.bench_leaf import Panel
from armorplan.desktop.bench_verbs import key_name, read_pedals
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.settings import BENCH_PEDALS, Settings
from armorplan.desktop.widgets.bench_writing import letters
from armorplan.desktop.widgets.dry_fit_panel import DryFitPanel
from armorplan.desktop.widgets.hindsight_panel import HindsightPanel
from armorplan.desktop.widgets.way_back_panel import WayBackPanel


class BenchPanel(Panel, Protocol):
    """A panel of another page of the window, in large."""

    go_back: QPushButton
    go_on: QPushButton

    def close_jobs(self) -> None:
        """Wait for what is still under way."""
        ...


AnyPanel = WayBackPanel | HindsightPanel | DryFitPanel


class Asks(Enum):
    """What a panel asks."""

    AMISS = auto()
    EARLIER = auto()
    FIT = auto()


class BenchPanels(QObject):
    """Makes each panel once and shows it over the view; ``left`` says that it is done with."""

    left = Signal()

    def __init__(self, bridge: Bridge, desk: BenchDesk, settings: Settings, view: QWidget) -> None:
        super().__init__(view)
        self._bridge, self._desk, self._settings, self._view = bridge, desk, settings, view
        self._room, self._px = QRect(), 12
        self._made: dict[Asks, AnyPanel] = {}
        self._shown: QWidget | None = None

    def open(self, asks: Asks) -> BenchPanel:
        """Show a panel, with the step in hand as what it is about."""
        panel = self._made.get(asks)
        if panel is None:
            self._made[asks] = panel = self._make(asks)
        self._shown = panel
        self._lay(panel)
        panel.show()
        panel.raise_()
        panel.begin()
        return panel

    def _make(self, asks: Asks) -> AnyPanel:
        made: AnyPanel
        if asks is Asks.AMISS:
            made = WayBackPanel(self._bridge, big=True, parent=self._view)
        elif asks is Asks.EARLIER:
            made = HindsightPanel(self._bridge, big=True, parent=self._view)
        else:
            made = DryFitPanel(self._bridge, big=True, parent=self._view)
        made.left.connect(self.left)
        made.setAutoFillBackground(True)
        # The plates of the view say the same, larger.
        made.go_back.hide()
        made.go_on.hide()
        for child in made.findChildren(QWidget):
            if not isinstance(child, QLineEdit):
                child.installEventFilter(self)
        return made

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Hear pedals before the panel does."""
        if event.type() is QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            pedals = read_pedals(self._settings.value(BENCH_PEDALS))
            verb = pedals.get(key_name(event.key()))
            if verb is not None:
                if not event.isAutoRepeat():
                    self._desk.act(verb)
                return True
        return super().eventFilter(watched, event)

    def take_room(self, room: QRect, px: int) -> None:
        """Lie where there is room, in letters that fit those of the view."""
        self._room, self._px = room, px
        if self._shown is not None:
            self._lay(self._shown)

    def _lay(self, panel: QWidget) -> None:
        font = letters(self._view.font(), self._px)
        if font != panel.font():
            panel.setFont(font)
        panel.setGeometry(self._room)

    def close(self) -> None:
        """Be out of sight."""
        if self._shown is not None:
            self._shown.hide()
            self._shown = None

    def end_jobs(self) -> None:
        """Wait for what is still asked."""
        for panel in self._made.values():
            panel.close_jobs()
