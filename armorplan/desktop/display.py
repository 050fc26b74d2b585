"""Whether a window can open at all. No Qt here: without a display Qt ends the whole process."""

import ctypes
from collections.abc import Mapping

_NEEDS_NO_SCREEN = frozenset(
    {"offscreen", "minimal", "minimalegl", "vnc", "linuxfb", "eglfs", "vkkhrdisplay"}
)
_ALWAYS = {"libGL.so.1": "libgl1", "libEGL.so.1": "libegl1", "libxkbcommon.so.0": "libxkbcommon0"}
_ON_X11 = {
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
}
_INSTEAD = "These commands need none: armorplan check, armorplan order, armorplan plan."


def why_no_window(environ: Mapping[str, str], platform: str) -> str:
    """Return one sentence on why no window can open here, or an empty string.

    Args:
        environ: the process's environment.
        platform: ``sys.platform``; only Linux and the BSDs are looked at.
    """
    if not platform.startswith(("linux", "freebsd", "openbsd", "netbsd")):
        return ""
    plugin = environ.get("QT_QPA_PLATFORM", "").split(":")[0].split(";")[0]
    if plugin in _NEEDS_NO_SCREEN:
        return _missing_libraries(_ALWAYS)
    if not (environ.get("DISPLAY") or environ.get("WAYLAND_DISPLAY")):
        return (
            "The window needs a display, and none is set (DISPLAY, WAYLAND_DISPLAY). " + _INSTEAD
        )
    on_x11 = plugin == "xcb" or not environ.get("WAYLAND_DISPLAY")
    return _missing_libraries(_ALWAYS | _ON_X11 if on_x11 else _ALWAYS)


def _missing_libraries(needed: Mapping[str, str]) -> str:
    """Say which system libraries the window needs and this machine lacks."""
    packages = [package for library, package in needed.items() if not _loads(library)]
    if not packages:
        return ""
    names = " ".join(packages)
    return (
        "The window needs system libraries that are not installed; "
        f"on Debian or Ubuntu: apt-get install {names}. {_INSTEAD}"
    )


def _loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True
