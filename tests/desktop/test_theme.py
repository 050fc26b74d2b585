"""Themes and fonts reach the widgets."""

import importlib.util
import subprocess
import sys

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontDatabase, QPalette
from PySide6.QtWidgets import QLabel

from armorplan.desktop import theme
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.theme import Mode, apply_font, apply_theme, colours_of, palette_of


@pytest.fixture(autouse=True)
def former_look(qapp):
    palette, font = qapp.palette(), qapp.font()
    yield
    qapp.styleHints().setColorScheme(Qt.ColorScheme.Unknown)
    qapp.setPalette(palette)
    qapp.setFont(font)


def test_a_chosen_mode_recolours_what_is_shown(qapp, qtbot):
    label = QLabel("Bevel the lower petal")
    qtbot.addWidget(label)
    label.show()
    for mode, colours in ((Mode.DARK, DARK), (Mode.LIGHT, LIGHT)):
        apply_theme(qapp, mode)
        qapp.processEvents()
        assert label.palette().color(QPalette.ColorRole.Window).name() == colours.window
        assert colours_of(label.palette()) is colours


def test_the_system_mode_takes_the_systems_scheme(qapp, monkeypatch):
    apply_theme(qapp, Mode.SYSTEM)
    scheme = qapp.styleHints().colorScheme()
    expected = DARK if scheme is Qt.ColorScheme.Dark else LIGHT
    assert colours_of(qapp.palette()) is expected


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_a_palette_knows_its_theme(colours):
    assert colours_of(palette_of(colours)) is colours


def test_text_grows_with_the_scale(qapp, qtbot):
    label = QLabel("Bevel")
    qtbot.addWidget(label)
    label.show()
    apply_font(qapp, 100)
    qapp.processEvents()
    narrow = label.sizeHint().width()
    apply_font(qapp, 200)
    qapp.processEvents()
    assert label.sizeHint().width() > 1.6 * narrow


def test_a_label_is_drawn_with_real_letters(qapp, qtbot):
    apply_font(qapp, 100)
    label = QLabel("Rivet the lower row")
    qtbot.addWidget(label)
    image = label.grab().toImage()
    seen = {image.pixel(x, y) for x in range(image.width()) for y in range(image.height())}
    assert len(seen) > 20


def test_a_machine_without_fonts_gets_the_bundled_one(qapp, monkeypatch):
    monkeypatch.setattr(theme.QFontDatabase, "families", list)
    apply_font(qapp, 100)
    assert qapp.font().family() == "DejaVu Sans"
    monkeypatch.undo()
    assert "DejaVu Sans" in QFontDatabase.families()


def test_finding_the_font_does_not_import_matplotlib():
    assert importlib.util.find_spec("matplotlib") is not None
    code = (
        "import sys; from armorplan.desktop.theme import _bundled_family;"
        "from PySide6.QtGui import QGuiApplication; app = QGuiApplication([]);"
        "assert _bundled_family(); assert 'matplotlib' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True, timeout=60)
