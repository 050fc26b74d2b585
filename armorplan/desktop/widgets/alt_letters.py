"""Keeps a letter pressed with Alt out of fields: where its button is greyed out Qt would type it."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QWidget


class AltLetters(QObject):
    """Watches every line of a form for keys pressed with Alt that no button took."""

    def __init__(self, form: QWidget) -> None:
        super().__init__(form)
        for line in form.findChildren(QLineEdit):
            line.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            has_alt = event.modifiers() == Qt.KeyboardModifier.AltModifier
            if has_alt and event.text().isprintable() and event.text():
                return True
        return super().eventFilter(watched, event)
