"""Whether a widget stands on a page that is not in sight, and so has time."""

from PySide6.QtWidgets import QStackedWidget, QWidget


def is_turned_away(widget: QWidget) -> bool:
    """Tell whether any of the pages that a widget stands on is turned away."""
    page, around = widget, widget.parentWidget()
    while around is not None:
        if isinstance(around, QStackedWidget) and around.currentWidget() is not page:
            return True
        page, around = around, around.parentWidget()
    return False
