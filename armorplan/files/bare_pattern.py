"""The ``pattern.toml`` of a bare drawing: what is drawn, and what is assumed until it is written."""

import json
import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from armorplan.files.brought_text import uuid_of
from armorplan.files.faults import brief

ASSUMED_LEATHER = "cop_and_lame"
ASSUMED_MM = 3.6
"""9 oz: the middle of what cops and lames are cut from (common practice, no source)."""
_NOT_IN_ID = re.compile(r"[^A-Za-z0-9_-]+")
_WORDS = re.compile(r"[\s_-]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class BarePart:
    """A part to be written: its own id, that of its outline, and its name."""

    id: str
    outline: str
    name: str


def plain_id(text: str, taken: Collection[str], *, otherwise: str) -> str:
    """Return an id made of a text, unlike all those taken."""
    stem = _NOT_IN_ID.sub("_", brief(text)).strip("_-") or otherwise
    found, number = stem, 2
    while found in taken:
        found, number = f"{stem}_{number}", number + 1
    return found


def in_words(text: str) -> str:
    """Return an id or file name as words."""
    return _WORDS.sub(" ", brief(text)).strip()


def pattern_text(drawing: str, svg: str, parts: Sequence[BarePart]) -> str:
    """Return the text of ``pattern.toml`` for a drawing.

    The same drawing is the same pattern.
    """
    stem = drawing.rpartition("/")[2].rpartition(".")[0]
    title = in_words(stem)
    name = title[:1].upper() + title[1:] or "Pattern"
    uuid = uuid_of(svg)
    piece = plain_id(stem, (), otherwise="piece")
    head = f"""\
# Written from the drawing {brief(drawing)}. Lengths are millimetres; the ids of outlines and holes
# are those of the drawing. What is assumed says so: change it to what you make.
# Made from this pattern it is costume, not protective equipment.
format = 1

[pattern]
uuid = "{uuid}"
name = {_said(name)}
version = 1
drawings = [{_said(drawing)}]

# Assumed: one piece, made once. Write mirrored = true if a left and a right of it are made.
[pieces.{piece}]
name = {_said(name)}

# Assumed. Say weight_oz = 9 or sold = "8-9 oz" instead, if that is how you buy it.
[materials.leather]
leather = "{ASSUMED_LEATHER}"
thickness_mm = {ASSUMED_MM}

# Each part needs a kind: plate, lame, cop, strap, keeper, trim, lining or internal leather.
# Assumed of all: plates, the grain outward, up the page is up on the wearer.
"""
    return head + "".join(_part_table(part, piece) for part in parts) + _JOINTS


def _part_table(part: BarePart, piece: str) -> str:
    outline = "" if part.outline == part.id else f"outline = {_said(part.outline)}\n"
    return f"""
[parts.{part.id}]
name = {_said(part.name)}
piece = "{piece}"
kind = "plate"
material = "leather"
{outline}grain = "out"
up_deg = 90
"""


_JOINTS = """
# What holds the parts together is not drawn, so it is still missing. A rivet, for example:
#
# [joints.row_1]
# kind = "rivet"
# stack = ["hole_of_the_outer_part", "hole_of_the_part_beneath"]
# fastener = "tubular_9"
#
# Lames turn on a rivet at each side of the limb; [movements] says how far it bends:
#
# [joints.pivot_left]
# kind = "rivet"
# stack = ["hole_of_the_outer_lame", "hole_of_the_lame_beneath"]
# fastener = "tubular_9"
# motion = "turning"
#
# [movements.it_bends]
# name = "it bends"
# parts = ["the_uppermost_lame", "the_next_one"]
# angle_deg = 60
#
# And what is put on the leather:
#
# [treatments.brown]
# use = "alcohol_dye"
# pieces = ["the_id_of_the_piece"]
# colour = "brown"
# coats = 2
"""


def _said(text: str) -> str:
    return json.dumps(text.replace("\x7f", " "), ensure_ascii=False)
