"""A section of a way in that folds away: what the answer to which of two comes first shows."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QToolButton, QVBoxLayout, QWidget

from armorplan.desktop.widgets.checklist_delegate import small_font
from armorplan.desktop.widgets.shapes_picture import ShapePicture
from armorplan.geometry.ways_in import ReachPicture

MOST_PX = 180
"""The section is no higher than this: the words above it need their room."""


class ReachSection(QWidget):
    """Shows a picture below a button that folds it; nothing at all where there is none."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("reach_section")
        self.fold = QToolButton(self)
        self.fold.setObjectName("reach_section_fold")
        self.fold.setText(self.tr("In section, to scale"))
        self.fold.setToolTip(self.tr("Show or fold the section (Alt+X)"))
        self.fold.setShortcut("Alt+X")
        self.fold.setCheckable(True)
        self.fold.setChecked(True)
        self.fold.setAutoRaise(True)
        self.fold.setFont(small_font(self.font()))
        self.fold.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.fold.toggled.connect(self._turn)
        self.picture = ShapePicture(self)
        self.picture.setObjectName("reach_section_picture")
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(0)
        down.addWidget(self.fold)
        down.addWidget(self.picture)
        self.show_picture(None)

    def show_picture(self, picture: ReachPicture | None) -> None:
        """Show a picture, or nothing."""
        self.picture.show_picture(picture)
        self.setVisible(picture is not None)
        self._turn()

    def _turn(self) -> None:
        is_open = self.fold.isChecked()
        self.fold.setArrowType(Qt.ArrowType.DownArrow if is_open else Qt.ArrowType.RightArrow)
        self.picture.setVisible(is_open and self.picture.picture is not None)
        high = min(self.picture.least_px(self.width()), MOST_PX)
        self.picture.setFixedHeight(max(high, 1))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._turn()
