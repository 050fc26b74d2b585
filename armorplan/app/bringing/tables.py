"""The tables of pattern.toml for what a drawing was taken for."""

from collections.abc import Iterator
from math import atan2, degrees

from armorplan.app.bringing.naming import Names
from armorplan.app.bringing.rows_taken import Row
from armorplan.app.bringing.shaping_questions import Shaping
from armorplan.app.bringing.standing import Standing
from armorplan.files.bare_pattern import plain_id
from armorplan.files.brought_text import Written
from armorplan.files.toml_values import TomlValue
from armorplan.geometry.widths import LIMP, long_side
from armorplan.pattern.parts import Part, PartKind, Point
from armorplan.workshop.shelf import Fastener

_INSIDE = frozenset({PartKind.LINING, PartKind.INTERNAL_LEATHER})
_HALF_DEG = 180.0


def tables_of(
    stands: Standing, names: Names, *, corner: Point, fasteners: dict[str, Fastener]
) -> Iterator[Written]:
    """Give all tables behind the head, in the order they are read.

    Args:
        stands: what was answered and suggested.
        names: what everything is called.
        corner: what is taken off coordinates of the drawing, mm.
        fasteners: those of the shelf by id.
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
    yield from _joints(stands, names, fasteners)
    yield from _threads(stands, names)
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


def _joints(stands: Standing, names: Names, fasteners: dict[str, Fastener]) -> Iterator[Written]:
    mirrored = _mirrored(stands)
    for row in stands.rows:
        ids = joint_ids(row, names)
        motion = "turning" if row.turns else None
        one_sided = (row.outer in mirrored) != (row.inner in mirrored)
        for number, (key, pair) in enumerate(zip(ids, row.pairs, strict=True)):
            values: dict[str, TomlValue | None] = {
                "kind": fasteners[row.fastener].kind,
                "stack": [names.holes[hole] for hole in pair],
                "fastener": row.fastener,
                "motion": motion,
                "placed_on_wearer": True if row.on_wearer else None,
                "made_on": "left" if one_sided else None,
            }
            above = _above(row, names) if number == 0 else ""
            yield Written(path=("joints", key), values=values, above=above)
    for row in stands.rows:
        ids = joint_ids(row, names)
        if len(ids) > 1 and not row.turns:
            yield Written(
                path=("seams", names.rows[row.match.key]),
                values={"name": names.row_names[row.match.key], "joints": list(ids)},
            )


def _mirrored(stands: Standing) -> set[str]:
    return {part for piece in stands.pieces if piece.mirrored for part in piece.parts}


def _above(row: Row, names: Names) -> str:
    outer, inner = names.part_names[row.outer], names.part_names[row.inner]
    if row.outer == row.inner:
        return f"The {outer} is joined to itself."
    return f"The {outer} lies outside on the {inner}."


def joint_ids(row: Row, names: Names) -> tuple[str, ...]:
    """Return ids of a row's joints, in order; of a single one it is that of the row."""
    stem = names.rows[row.match.key]
    if len(row.pairs) == 1:
        return (stem,)
    return tuple(f"{stem}_{number}" for number in range(1, len(row.pairs) + 1))


def _threads(stands: Standing, names: Names) -> Iterator[Written]:
    mirrored = _mirrored(stands)
    for passed in stands.threads:
        closing = [
            key
            for row in stands.rows
            if row.outer == row.inner == passed.part
            for key in joint_ids(row, names)
        ]
        yield Written(
            path=("threads", f"{names.parts[passed.part]}_through"),
            values={
                "part": names.parts[passed.part],
                "through": [names.slots[slot] for slot in passed.through],
                "closed_by": closing or None,
                "made_on": "left"
                if (passed.part in mirrored) != (passed.of in mirrored)
                else None,
            },
        )


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
    for coating in stands.coatings:
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
