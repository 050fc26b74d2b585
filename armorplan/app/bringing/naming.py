"""What parts, holes, rows and materials are called in the pattern that is written."""

from collections.abc import Iterator
from dataclasses import dataclass

from armorplan.app.bringing.leather_questions import Leather
from armorplan.app.bringing.part_names import unlike
from armorplan.app.bringing.part_shapes import said_id
from armorplan.app.bringing.rows_taken import Row
from armorplan.app.bringing.standing import Standing
from armorplan.files.bare_pattern import plain_id


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """Ids and names by the keys of shapes, by rows' keys, by leathers."""

    part_names: dict[str, str]
    parts: dict[str, str]
    holes: dict[str, str]
    slots: dict[str, str]
    rows: dict[str, str]
    row_names: dict[str, str]
    materials: dict[Leather, str]


def names_of(stands: Standing) -> Names:
    """Return a name for everything that is written, each id once in its table."""
    part_names = {part.id: stands.names[part.id] for part in stands.parts}
    drawn: set[str] = set()
    parts: dict[str, str] = {}
    for key, name in part_names.items():
        parts[key] = plain_id(name.lower(), drawn, otherwise="part")
        drawn.add(parts[key])
    row_names = _row_names(stands, part_names)
    rows: dict[str, str] = {}
    for key, name in row_names.items():
        rows[key] = plain_id(name.lower(), rows.values(), otherwise="row")
    holes = _hole_ids(stands, parts, rows, drawn)
    slots: dict[str, str] = {}
    for part in stands.parts:
        for number, slot in enumerate(part.slots, start=1):
            stem = said_id(slot.id) or f"{parts[part.id]}_slot_{number}"
            slots[slot.id] = plain_id(stem, drawn, otherwise="slot")
            drawn.add(slots[slot.id])
    return Names(
        part_names=part_names,
        parts=parts,
        holes=holes,
        slots=slots,
        rows=rows,
        row_names=row_names,
        materials=_material_ids(stands),
    )


def _row_names(stands: Standing, names: dict[str, str]) -> dict[str, str]:
    found: dict[str, str] = {}
    for row in stands.rows:
        outer, inner = names[row.outer], names[row.inner]
        name = f"{outer} end" if row.outer == row.inner else f"{outer} to {inner}"
        found[row.match.key] = unlike(name, found.values())
    return found


def _hole_ids(
    stands: Standing, parts: dict[str, str], rows: dict[str, str], drawn: set[str]
) -> dict[str, str]:
    """Return ids of holes: part, row and number of those in rows, part and number of the rest."""
    found: dict[str, str] = {}
    for part, hole, row, number in _in_rows(stands.rows, rows):
        other = row.inner if part == row.outer else row.outer
        stem = said_id(hole) or f"{parts[part]}_at_{parts[other]}_{number}"
        found[hole] = plain_id(stem, drawn, otherwise="hole")
        drawn.add(found[hole])
    for each in stands.parts:
        for number, hole in enumerate((h.id for h in each.holes if h.id not in found), start=1):
            stem = said_id(hole) or f"{parts[each.id]}_hole_{number}"
            found[hole] = plain_id(stem, drawn, otherwise="hole")
            drawn.add(found[hole])
    return found


def _in_rows(rows: tuple[Row, ...], ids: dict[str, str]) -> Iterator[tuple[str, str, Row, int]]:
    for row in rows:
        if row.match.key in ids:
            for number, (outer, inner) in enumerate(row.pairs, start=1):
                yield row.outer, outer, row, number
                yield row.inner, inner, row, number


def _material_ids(stands: Standing) -> dict[Leather, str]:
    found: dict[Leather, str] = {}
    for _, leather in stands.leathers:
        if leather not in found:
            found[leather] = plain_id(
                f"{leather.leather}_leather", found.values(), otherwise="leather"
            )
    return found
