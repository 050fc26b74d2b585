"""The form of what can be done on the drawing table: a label, a key, what has to be chosen."""

from dataclasses import dataclass
from enum import StrEnum

from PySide6.QtCore import QCoreApplication


class TableMenu(StrEnum):
    """Menus of the drawing table, left to right."""

    CHOOSE = "&Choose"
    HOLES = "&Holes"
    ROWS = "&Rows and joints"
    PARTS = "&Parts"
    BENDS = "&Bends and straps"
    SIDES = "&Left and right"


class Needs(StrEnum):
    """What has to be chosen for it."""

    NOTHING = ""
    THING = "a hole, a part or a line"
    HOLE = "a hole"
    ONE_HOLE = "one hole"
    HOLES = "two holes or more, or a hole and a slot"
    JOINT = "a hole that is in a joint"
    PART = "a part, or a hole in it"
    WHOLE_PART = "a part"
    AXIS = "the line of a bend"
    SPARE = "an outline that is no part yet"


@dataclass(frozen=True, slots=True, kw_only=True)
class TableAct:
    """One thing to do: its slug, label, key while the drawing has the keyboard, and a sentence."""

    id: str
    menu: TableMenu
    text: str
    key: str
    does: str
    needs: Needs = Needs.NOTHING


def told(text: str) -> str:
    """Return a text of the table in the person's language."""
    return QCoreApplication.translate("table_acts", text)
