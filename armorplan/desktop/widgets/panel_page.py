"""A panel in a window of its own beside the bench; the bench view shows the same panels within it."""

from typing import Protocol

from PySide6.QtCore import SignalInstance
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QDialog, QVBoxLayout, QWidget

from armorplan.desktop.widgets.closing_keys import ClosingKeys
from armorplan.desktop.widgets.page_foot import fit_screen


class Panel(Protocol):
    """What a page needs of its panel, beside that it is a widget."""

    @property
    def left(self) -> SignalInstance:
        """Says that the panel is done with."""
        ...

    def begin(self) -> None:
        """Show what is chosen now."""
        ...

    def close_jobs(self) -> None:
        """Wait for what is still under way."""
        ...


class PanelPage(QDialog):
    """Shows one panel; does not hold up the bench."""

    def __init__(
        self, panel: Panel, title: str, size_px: tuple[int, int], parent: QWidget
    ) -> None:
        super().__init__(parent)
        self.panel = panel
        self.setWindowTitle(title)
        self.setModal(False)
        if isinstance(panel, QWidget):
            self.setObjectName(f"{panel.objectName()}_page")
            whole = QVBoxLayout(self)
            whole.setContentsMargins(0, 0, 0, 0)
            whole.addWidget(panel)
        panel.left.connect(self.close)
        ClosingKeys(self)
        fit_screen(self, *size_px)

    def closeEvent(self, event: QCloseEvent) -> None:
        self.panel.close_jobs()
        super().closeEvent(event)
