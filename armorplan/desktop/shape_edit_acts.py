"""All that can be done on the drawing table, as one table: menus and keys."""

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
    HOLES = "two holes or more"
    JOINT = "a hole that is in a joint"
    PART = "a part, or a hole in it"
    AXIS = "the line of a bend"


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


_CHOOSE, _HOLES, _ROWS = TableMenu.CHOOSE, TableMenu.HOLES, TableMenu.ROWS
_PARTS, _BENDS, _SIDES = TableMenu.PARTS, TableMenu.BENDS, TableMenu.SIDES

ACTS: tuple[TableAct, ...] = (
    TableAct(
        id="whole_row",
        menu=_CHOOSE,
        text="The whole row",
        key="R",
        does="Choose all holes of the rows that the chosen holes are in.",
        needs=Needs.HOLE,
    ),
    TableAct(
        id="holes_of_part",
        menu=_CHOOSE,
        text="All holes of the part",
        key="H",
        does="Choose every hole of the parts that are chosen.",
        needs=Needs.PART,
    ),
    TableAct(
        id="whole_part",
        menu=_CHOOSE,
        text="The part around it",
        key="P",
        does="Choose the part that the chosen hole or slot lies in.",
        needs=Needs.THING,
    ),
    TableAct(
        id="same_joint",
        menu=_CHOOSE,
        text="All layers of the joint",
        key="L",
        does="Choose the holes of all parts that the joints of the chosen holes go through.",
        needs=Needs.JOINT,
    ),
    TableAct(
        id="show_fields",
        menu=_CHOOSE,
        text="To its fields",
        key="F4",
        does="Give the fields beside the drawing the keyboard.",
    ),
    TableAct(
        id="next_finding",
        menu=_CHOOSE,
        text="The next finding",
        key="N",
        does="Go to the next finding, and to the place it speaks of.",
    ),
    TableAct(
        id="near",
        menu=_CHOOSE,
        text="Near to what is chosen",
        key="Z",
        does="Show what is chosen as large as it can be; 0 shows everything again.",
        needs=Needs.THING,
    ),
)
