"""The buttons above the week: how it is laid, how far one sees, as promised, and its picture."""

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QToolButton, QWidget

from armorplan.app.week_rows import By
from armorplan.desktop.widgets.flow import Flow

LEAST_PX = 26
"""Above the least target size (WCAG 2.2, success criterion 2.5.8)."""


class WeekHead(Flow):
    """Tells how the week is to be laid and seen.

    ``laid`` carries a ``week_rows.By``, ``days`` how many days are to fill the width, ``compared``
    whether to draw it as promised too, ``saved`` that a picture is wanted.
    """

    laid = Signal(object)
    days = Signal(int)
    compared = Signal(bool)
    saved = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("week_head")
        self._by: dict[By, QToolButton] = {}
        group = QButtonGroup(self)
        for by, text, spoken in (
            (By.PERSON, self.tr("Person"), self.tr("Lay the week by person")),
            (By.PLACE, self.tr("Bath and rack"), self.tr("Lay the week by bath and rack")),
            (By.BUILD, self.tr("Build"), self.tr("Lay the week by build")),
        ):
            button = self._button(f"week_by_{by.name.lower()}", text, spoken)
            button.setCheckable(True)
            group.addButton(button)
            button.clicked.connect(lambda _on, by=by: self.laid.emit(by))
            self._by[by] = button
        self._by[By.PERSON].setChecked(True)
        for days, name, text, spoken in (
            (1, "week_day", self.tr("Day"), self.tr("Have one day fill the width")),
            (7, "week_week", self.tr("Week"), self.tr("Have a week fill the width")),
        ):
            button = self._button(name, text, spoken)
            button.clicked.connect(lambda _on, days=days: self.days.emit(days))
        self.promised = self._button(
            "week_promised", self.tr("As promised"), self.tr("Show also how it was promised")
        )
        self.promised.setCheckable(True)
        self.promised.toggled.connect(self.compared)
        save = self._button(
            "week_save", self.tr("Picture …"), self.tr("Save the week as a picture")
        )
        save.clicked.connect(self.saved)

    def _button(self, name: str, text: str, spoken: str) -> QToolButton:
        button = QToolButton(self)
        button.setObjectName(name)
        button.setText(text)
        button.setAccessibleName(spoken)
        button.setToolTip(spoken)
        button.setAutoRaise(True)
        button.setMinimumSize(QSize(LEAST_PX, LEAST_PX))
        button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
        self.add(button)
        return button

    def show_laying(self, by: By, *, has_promise: bool) -> None:
        """Show how the week is laid, and whether there is a promise to compare with."""
        self._by[by].setChecked(True)
        self.promised.setEnabled(has_promise)
        if not has_promise:
            self.promised.setChecked(False)
