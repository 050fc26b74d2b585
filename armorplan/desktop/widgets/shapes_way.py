"""The way from what is chosen to the numbers about it, and back."""

from dataclasses import dataclass

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QApplication, QTabWidget, QWidget
from shiboken6 import isValid

from armorplan.app.rows import Selection
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.shapes_choice import about, about_rule, of_finding
from armorplan.desktop.widgets.shapes_page import ShapesView
from armorplan.kernel.findings import Finding


@dataclass(frozen=True, slots=True)
class _Left:
    """Where one came from: the picture in front, what had the keyboard, what was chosen."""

    picture: QWidget
    keyboard: QWidget | None
    chosen: Selection


class ShapesWay(QObject):
    """Takes one to the page of shapes and back with the same key."""

    def __init__(self, bridge: Bridge, tabs: QTabWidget, page: ShapesView) -> None:
        super().__init__(tabs)
        self._bridge = bridge
        self._tabs = tabs
        self._page = page
        self._left: _Left | None = None
        page.gone_back.connect(self.go_back)
        page.gone_on.connect(self._go_on)
        bridge.opened.connect(self._forget)

    def reckon(self, finding: Finding | None = None) -> None:
        """Go to the measure about a finding or what is chosen, the gravest first; or back."""
        is_here = self._tabs.currentWidget() is self._page
        if is_here and self._left is not None:
            self.go_back()
            return
        rows, chosen = self._page.rows, self._bridge.selection
        found = of_finding(rows, finding) if finding else ""
        self._show(found or about(rows, chosen))

    def reckon_rule(self, rule: str) -> None:
        """Go to what a rule between the chosen step and others was reckoned from."""
        rows, chosen = self._page.rows, self._bridge.selection
        self._show(about_rule(rows, chosen, rule) or about(rows, chosen))

    def _show(self, found: str) -> None:
        """Go to a measure, and keep where one came from."""
        if not found:
            self._bridge.said.emit(
                self.tr(
                    "No number of the shapes speaks of what is chosen. Choose a finding, "
                    "a fastener, a part or a step that a row, bend, cover or lame has to do with."
                )
            )
            return
        if self._tabs.currentWidget() is not self._page:
            keyboard, chosen = QApplication.focusWidget(), self._bridge.selection
            self._left = _Left(self._tabs.currentWidget(), keyboard, chosen)
            self._tabs.setCurrentWidget(self._page)
        self._page.go_to(found)

    def go_back(self) -> None:
        """Go back to where one came from; nothing happens where one came by oneself."""
        left, self._left = self._left, None
        if left is None:
            return
        self._tabs.setCurrentWidget(left.picture)
        self._bridge.select(left.chosen)
        # A line of the reasons is made anew whenever something else is chosen.
        stays = left.keyboard is not None and isValid(left.keyboard)
        there = left.keyboard if stays else None
        (there or left.picture).setFocus()

    def _go_on(self) -> None:
        self._left = None
        self._tabs.setCurrentIndex(0)
        self._tabs.currentWidget().setFocus()

    def _forget(self) -> None:
        self._left = None
