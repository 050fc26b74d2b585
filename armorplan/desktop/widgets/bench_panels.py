"""Panels that lie over the bench view: what went wrong, and what a fit showed."""

from collections.abc import Callable

from PySide6.QtCore import QObject, QRect
from PySide6.QtWidgets import QWidget

from armorplan.desktop.bench_desk import BenchDesk
from armorplan.desktop.bench_leaf import PanelLeaf
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.bench_writing import letters
from armorplan.desktop.widgets.way_back_panel import WayBackPanel

PANEL_SHARE = 0.8
"""Letters of a panel are so much of the view's: it has lists and tables to show."""


class BenchPanels(QObject):
    """Makes each panel once, shows it over the view, and lets it have the verbs meanwhile."""

    def __init__(self, bridge: Bridge, desk: BenchDesk, view: QWidget) -> None:
        super().__init__(view)
        self._bridge, self._desk, self._view = bridge, desk, view
        self._room, self._px = QRect(), 12
        self._amiss: WayBackPanel | None = None
        self._shown: QWidget | None = None

    def open_amiss(self, close: Callable[[], None], *, look: str) -> None:
        """Ask what went wrong at the step in hand."""
        if self._amiss is None:
            self._amiss = WayBackPanel(self._bridge, big=True, parent=self._view)
            self._amiss.left.connect(close)
        panel = self._amiss
        self._show(panel)
        panel.begin()
        self._desk.open_leaf(PanelLeaf(panel, close))

    def take_room(self, room: QRect, px: int) -> None:
        """Lie where there is room, in letters that fit those of the view."""
        self._room, self._px = room, px
        if self._shown is not None:
            self._lay(self._shown)

    def _show(self, panel: QWidget) -> None:
        self._shown = panel
        panel.setAutoFillBackground(True)
        self._lay(panel)
        panel.show()
        panel.raise_()

    def _lay(self, panel: QWidget) -> None:
        font = letters(self._view.font(), round(self._px * PANEL_SHARE))
        if font != panel.font():
            panel.setFont(font)
        panel.setGeometry(self._room)

    def close(self) -> None:
        """Show the step again."""
        if self._shown is not None:
            self._shown.hide()
            self._shown = None

    def end_jobs(self) -> None:
        """Wait for what is still asked."""
        if self._amiss is not None:
            self._amiss.close_jobs()
