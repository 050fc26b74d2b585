"""The tables of pattern.toml for what a drawing was taken for."""

from collections.abc import Iterator
from math import atan2, degrees

from armorplan.app.bringing.joint_tables import closing_tables, joint_tables, thread_tables
from armorplan.app.bringing.naming import Names
from armorplan.app.bringing.round_questions import Shaping
from armorplan.app.bringing.standing import Standing
from armorplan.app.bringing.wearer_tables import wearer_tables
from armorplan.files.bare_pattern import plain_id
from armorplan.files.brought_text import Written
from armorplan.files.toml_values import TomlValue
from armorplan.geometry.widths import LIMP, long_side
from armorplan.pattern.parts import Part, PartKind, Point
from armorplan.workshop.shelf import Shelf

_INSIDE = frozenset({PartKind.LINING, PartKind.INTERNAL_LEATHER})
_HALF_DEG = 180.0


def tables_of(stands: Standing, names: Names, *, corner: Point, shelf: Shelf) -> Iterator[Written]:
    """Give all tables behind the head, in the order they are read.

    Args:
        stands: what was answered and suggested.
        names: what everything is called.
        corner: what is taken off coordinates of the drawing, mm.
        shelf: the fasteners it has.
    """
    pieces: dict[str, str] = {}
    piece_ids: list[str] = []
    for piece in stands.pieces:
        key = plain_id(piece.name.lower(), piece_ids, otherwise="piece")
        piece_ids.append(key)
        pieces |= dict.fromkeys(piece.parts, key)
        above = "Drawn is the left one; the right one is its mirror." if piece.mirrored else ""
        yield Written(
            path=("pieces", key),
            values={"name": piece.name, "mirrored": piece.mirrored},
            above=above,
        )
    for leather, key in names.materials.items():
        yield Written(
            path=("materials", key),
            values={"leather": leather.leather, "thickness_mm": leather.thickness_mm},
        )
    yield from _parts(stands, names, pieces)
    yield from joint_tables(stands, names, shelf)
    yield from thread_tables(stands, names)
    yield from closing_tables(stands, names)
    yield from _forms(stands, names, corner)
    yield from _coatings(stands, names, piece_ids)
    for number, bending in enumerate(stands.movements, start=1):
        yield Written(
            path=("movements", "it_bends" if number == 1 else f"it_bends_{number}"),
            values={
                "name": "it bends",
                "parts": [names.parts[part] for part in bending.parts],
                "angle_deg": bending.angle_deg,
            },
            above="From the upper to the lower end of the limb; all pivots together.",
        )
    yield from wearer_tables(stands, names)


def _parts(stands: Standing, names: Names, pieces: dict[str, str]) -> Iterator[Written]:
    leathers = dict(stands.leathers)
    for part in stands.parts:
        count = stands.folding.counts.get(part.id)
        backbone = round(_along_deg(part)) if part.kind in LIMP else None
        yield Written(
            path=("parts", names.parts[part.id]),
            values={
                "name": names.part_names[part.id],
                "piece": pieces[part.id],
                "kind": part.kind.value,
                "material": names.materials[leathers[part.id]],
                "grain": "in" if part.kind in _INSIDE else "out",
                "backbone_deg": backbone,
                "count": count,
            },
        )


def _along_deg(part: Part) -> float:
    """Return where the long side of a part lies, from 0 to below 180; y runs down the page."""
    x, y = long_side(part)
    return degrees(atan2(-y, x)) % _HALF_DEG


def _forms(stands: Standing, names: Names, corner: Point) -> Iterator[Written]:
    taken: list[str] = []
    for form in stands.shaping:
        stem = "cup" if form.rows else f"{names.parts[form.parts[0]]}_{form.kind.value}"
        key = plain_id(stem, taken, otherwise="form")
        taken.append(key)
        yield Written(
            path=("forms", key),
            values={
                "kind": form.kind.value,
                "parts": [names.parts[part] for part in form.parts],
                "route": form.route.value,
                "seams": [names.rows[row] for row in form.rows] or None,
                "axis": _axis(form, corner),
                "radius_mm": form.radius_mm,
                "angle_deg": form.angle_deg,
            },
            above="Radius and angle are guessed from the size: measure the limb."
            if form.radius_mm
            else "",
        )


def _axis(form: Shaping, corner: Point) -> TomlValue | None:
    if form.line:
        return line_id(form)
    if form.axis is None:
        return None
    return [[round(x - corner[0], 1), round(y - corner[1], 1)] for x, y in form.axis]


def line_id(form: Shaping) -> str:
    """Return the id of the drawn line that a form is about."""
    return plain_id(f"line_{form.line}", (), otherwise="line")


def _coatings(stands: Standing, names: Names, pieces: list[str]) -> Iterator[Written]:
    coated = [p.id for p in stands.parts if p.kind is not PartKind.LINING]
    every = len(coated) == len(stands.parts)
    for coating in stands.coatings if coated else ():
        yield Written(
            path=("treatments", coating.use),
            values={
                "use": coating.use,
                "pieces": pieces if every else None,
                "parts": None if every else [names.parts[part] for part in coated],
                "colour": coating.colour or None,
                "coats": coating.coats,
            },
        )
