"""Without a display the program says so in one sentence and names what works instead."""

import subprocess
import sys

import pytest

from armorplan.desktop import display
from armorplan.desktop.display import why_no_window


@pytest.fixture(autouse=True)
def all_libraries(monkeypatch):
    monkeypatch.setattr(display, "_loads", lambda _library: True)


def test_no_display_names_the_commands_that_need_none():
    said = why_no_window({}, "linux")
    for command in ("armorplan check", "armorplan order", "armorplan plan"):
        assert command in said
    assert "\n" not in said


@pytest.mark.parametrize(
    "environ",
    [
        {"DISPLAY": ":0"},
        {"WAYLAND_DISPLAY": "wayland-0"},
        {"QT_QPA_PLATFORM": "offscreen"},
        {"QT_QPA_PLATFORM": "vnc:size=1440x900"},
    ],
)
def test_a_display_or_a_plugin_that_needs_none_is_fine(environ):
    assert why_no_window(environ, "linux") == ""


@pytest.mark.parametrize("platform", ["win32", "darwin"])
def test_other_systems_always_have_a_display(platform):
    assert why_no_window({}, platform) == ""


def test_a_plugin_that_needs_a_display_is_not_enough():
    assert "DISPLAY" in why_no_window({"QT_QPA_PLATFORM": "xcb"}, "linux")


def test_missing_libraries_are_named_as_packages(monkeypatch):
    monkeypatch.setattr(display, "_loads", lambda library: "cursor" not in library)
    assert "apt-get install libxcb-cursor0." in why_no_window({"DISPLAY": ":0"}, "linux")
    assert why_no_window({"WAYLAND_DISPLAY": "wayland-0"}, "linux") == ""
    assert why_no_window({"QT_QPA_PLATFORM": "offscreen"}, "linux") == ""


def test_the_check_imports_no_qt():
    code = "import sys, armorplan.desktop.display; assert 'PySide6' not in sys.modules"
    subprocess.run([sys.executable, "-c", code], check=True, timeout=60)
