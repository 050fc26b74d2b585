"""The tables of a pattern that say what it is made of: pieces, materials, parts, holes."""

from collections.abc import Collection
from dataclasses import dataclass
from enum import StrEnum

from armorplan.files.layout import Declared
from armorplan.files.references import Names, check_ref, ref
from armorplan.files.tables import Table
from armorplan.files.values import (
    ABOVE_ZERO,
    choice,
    flag,
    maybe_number,
    maybe_text,
    number,
    text,
    texts,
)
from armorplan.kernel.units import ounces_to_mm
from armorplan.pattern.parts import Material, Part, PartKind, Piece
from armorplan.workshop.shelf import Shelf

MAX_PARTS = 1_000


class GrainSide(StrEnum):
    """Which way the grain side shows."""

    OUT = "out"
    IN = "in"


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    """A part as its table tells it, still without holes, slots and outline.

    ``outline`` is the id of its outline in a drawing.
    """

    table: Table
    part: Part
    outline: str


def read_pieces(top: Table) -> tuple[Piece, ...]:
    """Return the pieces, in the order they are written."""
    pieces: list[Piece] = []
    for key, row in top.table("pieces").rows():
        piece = Piece(
            id=key, name=text(row, "name"), mirrored=flag(row, "mirrored", default=False)
        )
        row.finish()
        pieces.append(piece)
    if not pieces:
        _tell_none(top, "pieces")
    return tuple(pieces)


def _tell_none(top: Table, kind: str) -> None:
    text = f"The pattern has no {kind}."
    top.fault(kind, "nothing-there", text, mend=f"Write a table [{kind}.ID] for each.")


def read_materials(top: Table, shelf: Shelf) -> dict[str, Material]:
    """Return the materials by id."""
    leathers = Names(what="leather on the shelf", ids={e.id for e in shelf.leathers})
    materials: dict[str, Material] = {}
    for key, row in top.table("materials").rows():
        materials[key] = Material(
            id=key, leather=ref(row, "leather", leathers), thickness_mm=_thickness_mm(row)
        )
        row.finish()
    return materials


def _thickness_mm(row: Table) -> float:
    in_mm = maybe_number(row, "thickness_mm", ABOVE_ZERO)
    in_oz = maybe_number(row, "weight_oz", ABOVE_ZERO)
    written = [key for key in ("thickness_mm", "weight_oz") if row.has(key)]
    if not written:
        row.missing("thickness_mm", wanted="3.2, or weight_oz = 8")
    elif len(written) > 1:
        row.fault(
            "weight_oz",
            "two-thicknesses",
            "Both thickness_mm and weight_oz are written.",
            mend="Keep one of them.",
        )
    return ounces_to_mm(in_oz) if in_oz is not None else (in_mm or 0.0)


def read_parts(
    top: Table, pieces: tuple[Piece, ...], materials: dict[str, Material]
) -> tuple[PartRow, ...]:
    """Return the parts, in the order they are written; holes and outlines come later."""
    piece_names = Names(what="piece", ids={piece.id for piece in pieces})
    material_names = Names(what="material", ids=materials)
    rows = top.table("parts").rows()
    if not rows:
        _tell_none(top, "parts")
    if len(rows) > MAX_PARTS:
        top.fault(
            "parts",
            "too-many-parts",
            f"There are {len(rows):,} parts; at most {MAX_PARTS:,} are read.",
            mend="Divide the pattern.",
        )
    found: list[PartRow] = []
    for key, row in rows[:MAX_PARTS]:
        material = ref(row, "material", material_names)
        thickness_mm = materials[material].thickness_mm if material in materials else 0.0
        part = _part(key, row, piece_names, material=(material, thickness_mm))
        found.append(PartRow(table=row, part=part, outline=maybe_text(row, "outline") or key))
        row.finish()
    _check_outlines(found)
    return tuple(found)


def _part(key: str, row: Table, pieces: Names, *, material: tuple[str, float]) -> Part:
    grain = choice(row, "grain", GrainSide) if row.has("grain") else None
    return Part(
        id=key,
        name=text(row, "name"),
        piece=ref(row, "piece", pieces),
        # The stand-in after a fault is the one kind that no later check asks for.
        kind=choice(row, "kind", PartKind) or PartKind.KEEPER,
        outline=(),
        material=material[0],
        thickness_mm=material[1],
        grain_out=grain is not GrainSide.IN,
        up_deg=number(row, "up_deg", default=90.0),
        bevelled=flag(row, "bevelled", default=True),
        tooling=maybe_text(row, "tooling") or None,
        hides=texts(row, "hides"),
    )


def _check_outlines(rows: list[PartRow]) -> None:
    """Tell outlines that two parts lay claim to; whose their holes are could not be told."""
    claimed: dict[str, str] = {}
    for row in rows:
        other = claimed.setdefault(row.outline, row.part.id)
        if other != row.part.id:
            row.table.fault(
                "outline" if row.table.has("outline") else None,
                "outline-shared",
                f'The outline "{row.outline}" is already that of the part "{other}".',
                mend="Draw an outline for each part, each with holes of its own.",
                about=(row.part.id, other),
            )


def read_declared_holes(top: Table, parts: Collection[str]) -> dict[str, Declared]:
    """Return the holes that have a table, with the part it gives them to, if any."""
    names = Names(what="part", ids=parts)
    declared: dict[str, Declared] = {}
    for key, row in top.table("holes").rows():
        part = maybe_text(row, "part")
        if part is not None:
            check_ref(row, "part", value=part, names=names)
        declared[key] = Declared(part=part, place=row.place("part"))
        row.finish()
    return declared
