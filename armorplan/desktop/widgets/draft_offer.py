"""Asks whether to go on with changes that were not saved when a window was ended."""

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QDateTime, QLocale, Qt
from PySide6.QtWidgets import QMessageBox, QWidget

from armorplan.app.autosave import LeftOver


def offer(left: LeftOver, name: str, parent: QWidget, answer: Callable[[bool], None]) -> None:
    """Ask over a window, which can be worked at meanwhile; ``answer`` hears yes or no.

    Closing the question without an answer leaves everything as it is, to be asked again.
    """
    box = QMessageBox(parent)
    box.setObjectName("draft_offer")
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    box.setIcon(QMessageBox.Icon.Question)
    box.setWindowTitle(_told("Not saved when the window was ended"))
    box.setText(_words(left, name))
    go_on = box.addButton(_told("&Go on with them"), QMessageBox.ButtonRole.AcceptRole)
    drop = box.addButton(_told("&Drop them"), QMessageBox.ButtonRole.DestructiveRole)
    box.addButton(_told("&Later"), QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(go_on)
    box.buttonClicked.connect(
        lambda pressed: answer(pressed is go_on) if pressed in (go_on, drop) else None
    )
    box.setWindowModality(Qt.WindowModality.NonModal)
    box.show()


def _words(left: LeftOver, name: str) -> str:
    kept_at = QDateTime.fromSecsSinceEpoch(int(left.at.timestamp()))
    at = QLocale().toString(kept_at, QLocale.FormatType.ShortFormat)
    words = _told(
        "'{0}' has changes of {1} that were not saved: the window was ended before. Going on with "
        "them can be taken back, and nothing is written until you save."
    ).format(name, at)
    if left.is_old:
        words += " " + _told(
            "The pattern's files were changed since then; what you save would take their place."
        )
    return words


def _told(text: str) -> str:
    return QCoreApplication.translate("draft_offer", text)
