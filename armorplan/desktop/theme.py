"""Puts a theme and a font on the application: light, dark, or as the system has it."""

from enum import StrEnum
from importlib.util import find_spec
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QFontDatabase, QGuiApplication, QPalette

from armorplan.desktop.colours import DARK, LIGHT, Colours

BASE_PT = 11.0
"""Point size of text at 100 %."""


class Mode(StrEnum):
    """Which theme the person wants."""

    SYSTEM = "system"
    LIGHT = "light"
    DARK = "dark"


_SCHEMES = {
    Mode.SYSTEM: Qt.ColorScheme.Unknown,
    Mode.LIGHT: Qt.ColorScheme.Light,
    Mode.DARK: Qt.ColorScheme.Dark,
}


def apply_theme(app: QGuiApplication, mode: Mode) -> None:
    """Put the theme on the application; call it again when the system's scheme changes."""
    hints = app.styleHints()
    hints.setColorScheme(_SCHEMES[mode])
    dark = mode is Mode.DARK or (
        mode is Mode.SYSTEM and hints.colorScheme() is Qt.ColorScheme.Dark
    )
    app.setPalette(palette_of(DARK if dark else LIGHT))


def colours_of(palette: QPalette) -> Colours:
    """Return the theme a widget's palette belongs to; ask for it when painting."""
    return DARK if palette.color(QPalette.ColorRole.Window).lightness() < 128 else LIGHT  # noqa: PLR2004 - half of 255


def palette_of(colours: Colours) -> QPalette:
    """Return the Qt palette of a theme."""
    role = QPalette.ColorRole
    filled = {
        role.Window: colours.window,
        role.WindowText: colours.text,
        role.Base: colours.panel,
        role.AlternateBase: colours.stripe,
        role.Text: colours.text,
        role.PlaceholderText: colours.quiet,
        role.Button: colours.bar,
        role.ButtonText: colours.text,
        role.BrightText: colours.alarm,
        role.ToolTipBase: colours.panel,
        role.ToolTipText: colours.text,
        role.Highlight: colours.strong,
        role.HighlightedText: colours.strong_text,
        role.Link: colours.running,
        role.LinkVisited: colours.paused,
        role.Accent: colours.focus,
        role.Mid: colours.line,
        role.Dark: colours.line,
    }
    palette = QPalette(QColor(colours.bar), QColor(colours.window))
    for which, colour in filled.items():
        palette.setColor(which, QColor(colour))
    for which in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, which, QColor(colours.line))
    return palette


def apply_font(app: QGuiApplication, scale_pct: int) -> None:
    """Set the text size, with digits of one width, and a font where the machine has none."""
    font = QFont(QGuiApplication.font())
    if not QFontDatabase.families():
        font.setFamily(_bundled_family())
    font.setPointSizeF(BASE_PT * scale_pct / 100)
    font.setFeature(QFont.Tag("tnum"), 1)
    app.setFont(font)


def _bundled_family() -> str:
    """Load the font that ships with matplotlib, found without importing matplotlib."""
    spec = find_spec("matplotlib")
    folders = spec.submodule_search_locations if spec else None
    family = ""
    for name in ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf"):
        for folder in folders or ():
            path = Path(folder) / "mpl-data" / "fonts" / "ttf" / name
            number = QFontDatabase.addApplicationFont(str(path))
            families = QFontDatabase.applicationFontFamilies(number)
            family = families[0] if families else family
    return family
