"""The tables of a pattern that say what it is made of: pieces, materials, parts, holes."""

from collections.abc import Collection
from dataclasses import dataclass
from enum import StrEnum

from armorplan.files.layout import Declared
from armorplan.files.limits import COUNT, DIRECTION
from armorplan.files.option_rows import read_only_with
from armorplan.files.references import Names, check_ref, ref
from armorplan.files.tables import Table
from armorplan.files.thickness_words import read_thickness
from armorplan.files.values import (
    choice,
    flag,
    maybe_choice,
    maybe_number,
    maybe_text,
    number,
    text,
    texts,
    whole,
)
from armorplan.pattern.parts import MadeOn, Material, Part, PartKind, Piece
from armorplan.workshop.shelf import Shelf

MAX_PARTS = 1_000


class GrainSide(StrEnum):
    """Which way the grain side shows."""

    OUT = "out"
    IN = "in"


class DrawnFrom(StrEnum):
    """Which face of the part the drawing shows."""

    OUTSIDE = "outside"
    INSIDE = "inside"


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
            id=key,
            name=text(row, "name"),
            mirrored=flag(row, "mirrored", default=False),
            notes=maybe_text(row, "notes") or "",
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
    leathers = Names(what="leather", where="on the shelf", ids={e.id for e in shelf.leathers})
    materials: dict[str, Material] = {}
    for key, row in top.table("materials").rows():
        thickness = read_thickness(row)
        materials[key] = Material(
            id=key,
            leather=ref(row, "leather", leathers),
            thickness_mm=thickness.thickness_mm,
            least_mm=thickness.least_mm,
            notes=maybe_text(row, "notes") or "",
        )
        row.finish()
    return materials


def read_parts(
    top: Table,
    pieces: tuple[Piece, ...],
    materials: dict[str, Material],
    *,
    choices: Names,
) -> tuple[PartRow, ...]:
    """Return the parts, in the order they are written; holes and outlines come later."""
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
    reading = _Parts({piece.id: piece for piece in pieces}, materials, choices=choices)
    found = [reading.read(key, row) for key, row in rows[:MAX_PARTS]]
    _check_outlines(found)
    return tuple(found)


class _Parts:
    """The reading of parts, with what they may name."""

    def __init__(
        self, pieces: dict[str, Piece], materials: dict[str, Material], *, choices: Names
    ) -> None:
        self._pieces = pieces
        self._materials = materials
        self._choices = choices
        self._piece_names = Names(what="piece", ids=pieces)
        self._material_names = Names(what="material", ids=materials)

    def read(self, key: str, row: Table) -> PartRow:
        material = ref(row, "material", self._material_names)
        stock = self._materials.get(material)
        grain = maybe_choice(row, "grain", GrainSide)
        part = Part(
            id=key,
            name=text(row, "name"),
            piece=self._piece(row),
            # The stand-in after a fault is the one kind that no later check asks for.
            kind=choice(row, "kind", PartKind) or PartKind.KEEPER,
            outline=(),
            material=material,
            thickness_mm=stock.thickness_mm if stock else 0.0,
            least_mm=stock.least_mm if stock else None,
            count=whole(row, "count", least=1, most=COUNT, default=1),
            made_on=maybe_choice(row, "made_on", MadeOn) or MadeOn.BOTH,
            copied=flag(row, "copied", default=False),
            grain_out=grain is not GrainSide.IN,
            drawn_from_inside=maybe_choice(row, "drawn_from", DrawnFrom) is DrawnFrom.INSIDE,
            up_deg=number(row, "up_deg", DIRECTION, default=90.0),
            backbone_deg=maybe_number(row, "backbone_deg", DIRECTION),
            bevelled=flag(row, "bevelled", default=True),
            skived=flag(row, "skived", default=False),
            burnished=flag(row, "burnished", default=False),
            tooling=maybe_text(row, "tooling") or None,
            hides=texts(row, "hides"),
            lies_over=texts(row, "lies_over"),
            notes=maybe_text(row, "notes") or "",
            only_with=read_only_with(row, self._choices),
        )
        outline = maybe_text(row, "outline") or key
        row.finish()
        return PartRow(table=row, part=part, outline=outline)

    def _piece(self, row: Table) -> str:
        piece = ref(row, "piece", self._piece_names)
        if piece in self._pieces and not self._pieces[piece].mirrored:
            for key in ("made_on", "copied"):
                row.idle(key, because=f'the piece "{piece}" is not mirrored')
        return piece


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


def check_covers(rows: Collection[PartRow], *, joints: Names, parts: Names) -> None:
    """Tell where what a part hides or lies over is not there, or each of two lies over the other."""
    over = {row.part.id: row.part.lies_over for row in rows}
    for row in rows:
        for joint in row.part.hides:
            check_ref(row.table, "hides", value=joint, names=joints)
        for part in row.part.lies_over:
            check_ref(row.table, "lies_over", value=part, names=parts)
            if row.part.id in over.get(part, ()):
                row.table.fault(
                    "lies_over",
                    "each-over-the-other",
                    f'"{row.part.id}" lies over "{part}", which lies over it.',
                    mend="Keep the part in the lies_over of the one that lies outside.",
                )
