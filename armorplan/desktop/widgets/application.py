"""The one QApplication, in our theme and text size."""

from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QStyleFactory

from armorplan.desktop.settings import Settings
from armorplan.desktop.widgets.looks import dress


def make_application(settings: Settings) -> QApplication:
    """Return the process's application, dressed as the settings say."""
    QGuiApplication.setDesktopFileName("armorplan")
    app = QApplication.instance()
    if not isinstance(app, QApplication):
        app = QApplication(["armorplan"])
    app.setApplicationName("armorplan")
    app.setApplicationDisplayName("Armorplan")
    app.setStyle(QStyleFactory.create("Fusion"))
    dress(app, settings)
    app.styleHints().colorSchemeChanged.connect(lambda: dress(app, settings))
    return app
