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
    WHOLE_PART = "a part"
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
        id="rename",
        menu=_CHOOSE,
        text="Give it another id …",
        key="C",
        does="Call a hole, part or bend otherwise, in the drawing and wherever it is named.",
        needs=Needs.THING,
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
    TableAct(
        id="add_hole",
        menu=_HOLES,
        text="Add a hole …",
        key="Insert",
        does="Draw a new hole at a typed or clicked place.",
    ),
    TableAct(
        id="place_hole",
        menu=_HOLES,
        text="Type its place",
        key="F2",
        does="Type where the hole lies, and its diameter.",
        needs=Needs.ONE_HOLE,
    ),
    TableAct(
        id="move_holes",
        menu=_HOLES,
        text="Move by …",
        key="M",
        does="Type how far the chosen holes are moved; Ctrl and arrows move them by 1 mm.",
        needs=Needs.HOLE,
    ),
    TableAct(
        id="size_holes",
        menu=_HOLES,
        text="Diameter …",
        key="D",
        does="Give all chosen holes one diameter.",
        needs=Needs.HOLE,
    ),
    TableAct(
        id="drop_holes",
        menu=_HOLES,
        text="Take out",
        key="Delete",
        does="Take the chosen holes out; a joint with fewer than two layers left goes with them.",
        needs=Needs.HOLE,
    ),
    TableAct(
        id="join",
        menu=_ROWS,
        text="Join …",
        key="J",
        does="Join the chosen holes: one of each part make a joint, a row of two parts a row.",
        needs=Needs.HOLES,
    ),
    TableAct(
        id="add_layer",
        menu=_ROWS,
        text="Add a layer to the joint …",
        key="A",
        does="Take a hole that is free into the joint of the other hole that is chosen.",
        needs=Needs.HOLES,
    ),
    TableAct(
        id="make_row",
        menu=_ROWS,
        text="Make one row of the joints …",
        key="W",
        does="Work the joints of the chosen holes as one row, in the order they were chosen.",
        needs=Needs.JOINT,
    ),
    TableAct(
        id="drop_joints",
        menu=_ROWS,
        text="Take the joints apart",
        key="Shift+Delete",
        does="Take the joints of the chosen holes out; the holes stay drawn.",
        needs=Needs.JOINT,
    ),
    TableAct(
        id="space_row",
        menu=_ROWS,
        text="Space the row …",
        key="S",
        does="Space a row evenly along its own curve, in all its layers, with more or fewer holes.",
        needs=Needs.HOLE,
    ),
    TableAct(
        id="add_row",
        menu=_ROWS,
        text="A row along an edge …",
        key="E",
        does="Draw a row of holes along a part's edge, so far inside it, so far apart.",
        needs=Needs.PART,
    ),
    TableAct(
        id="go_layers",
        menu=_ROWS,
        text="To the layers",
        key="F6",
        does="Give the layers of the joint the keyboard; Alt+Up and Alt+Down move one.",
        needs=Needs.JOINT,
    ),
    TableAct(
        id="matches",
        menu=_ROWS,
        text="Rows that fit each other …",
        key="G",
        does="Look for free rows of holes that fit each other, and show them as ghosts.",
    ),
    TableAct(
        id="turn_left",
        menu=_PARTS,
        text="Turn its up arrow left",
        key="[",
        does="Turn what is up on the wearer by 5° against the clock.",
        needs=Needs.PART,
    ),
    TableAct(
        id="turn_right",
        menu=_PARTS,
        text="Turn its up arrow right",
        key="]",
        does="Turn what is up on the wearer by 5° with the clock.",
        needs=Needs.PART,
    ),
    TableAct(
        id="set_ways",
        menu=_PARTS,
        text="Up and backbone …",
        key="U",
        does="Type where up on the wearer and the backbone of the hide lie on the drawing.",
        needs=Needs.PART,
    ),
    TableAct(
        id="part_facts",
        menu=_PARTS,
        text="Kind, leather and edges",
        key="F",
        does="Go to the fields of the part: name, kind, leather, tooling, edges.",
        needs=Needs.PART,
    ),
    TableAct(
        id="new_leather",
        menu=_PARTS,
        text="Another leather …",
        key="K",
        does="Add a leather from the shelf that parts can be made of.",
    ),
    TableAct(
        id="new_coat",
        menu=_PARTS,
        text="Dye, oil or finish …",
        key="Y",
        does="Put a treatment from the shelf on the chosen parts.",
        needs=Needs.PART,
    ),
    TableAct(
        id="drop_parts",
        menu=_PARTS,
        text="Take the part out",
        key="Ctrl+Delete",
        does="Take the chosen parts out of drawing and pattern, with what is nothing without them.",
        needs=Needs.WHOLE_PART,
    ),
    TableAct(
        id="bend_line",
        menu=_BENDS,
        text="The line of the bend …",
        key="B",
        does="Draw the line of a bend anew by two points, with its radius and angle.",
        needs=Needs.AXIS,
    ),
    TableAct(
        id="new_bend",
        menu=_BENDS,
        text="Bend, fold or dish …",
        key="Shift+B",
        does="Shape the chosen parts about a line of two points, with a radius and an angle.",
        needs=Needs.PART,
    ),
    TableAct(
        id="drop_bend",
        menu=_BENDS,
        text="Take the bend out",
        key="Ctrl+Shift+Delete",
        does="Take the chosen bend out, with the reasons that name it.",
        needs=Needs.AXIS,
    ),
    TableAct(
        id="strap_place",
        menu=_BENDS,
        text="Where the strap closes …",
        key="T",
        does="Say which girths a strap closes, on which part, with the holes that are chosen in it.",
        needs=Needs.PART,
    ),
    TableAct(
        id="draw_correction",
        menu=_BENDS,
        text="Draw the correction in",
        key="X",
        does="Move holes in the drawing as a known correction says, and take the correction out.",
        needs=Needs.HOLE,
    ),
    TableAct(
        id="turn_over",
        menu=_SIDES,
        text="Turn the piece over",
        key="O",
        does="Turn all parts of the piece over in the drawing: what was drawn for the right is left.",
        needs=Needs.PART,
    ),
    TableAct(
        id="made_sides",
        menu=_SIDES,
        text="On which sides it is made",
        key="Shift+O",
        does="Go to the fields of the piece: whether it is made left and right.",
        needs=Needs.PART,
    ),
)
