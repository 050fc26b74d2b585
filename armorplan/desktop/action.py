"""The form of what a person can do in the window: a label, keys, a sentence, its place."""

from dataclasses import dataclass
from enum import StrEnum

from PySide6.QtCore import QCoreApplication


class Menu(StrEnum):
    """Menus, left to right."""

    PATTERN = "&Pattern"
    BENCH = "&Bench"
    TIMERS = "&Timers"
    PLAN = "Pl&an"
    SHOW = "&Show"
    HELP = "&Help"


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """One thing a person can do.

    Attributes:
        id: a stable slug; the window calls the method of this name.
        text: its label.
        keys: keys that work in the whole window, as Qt writes them; the first is shown.
        does: one sentence for the keys page.
        on_row: the key that does it while the checklist has the keyboard.
        button: it also stands as a button above the panels, with this shorter label.
        checkable: it is on or off.
        everywhere: its keys work in the pages beside the window as well.
    """

    id: str
    menu: Menu
    text: str
    keys: tuple[str, ...]
    does: str
    on_row: str = ""
    button: str = ""
    checkable: bool = False
    everywhere: bool = False

    @property
    def shown_key(self) -> str:
        """The key to show: the one in the checklist where there is one."""
        return self.on_row or self.keys[0]


def said(text: str) -> str:
    """Return a text of the table in the person's language."""
    return QCoreApplication.translate("actions", text)
