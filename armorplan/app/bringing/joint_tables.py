"""The tables of pattern.toml for what is joined: joints, seams, what passes through slots."""

from collections.abc import Iterator

from armorplan.app.bringing.naming import Names
from armorplan.app.bringing.rows_taken import Row
from armorplan.app.bringing.standing import Standing
from armorplan.files.brought_text import Written
from armorplan.files.toml_values import TomlValue
from armorplan.workshop.fastening import choose_length
from armorplan.workshop.shelf import Fastener, Shelf

_WASHERS_MM = (0.5, 1.0, 1.5, 2.0)
"""Washers and spacers that are easily had (common practice, no source)."""


def joint_tables(stands: Standing, names: Names, shelf: Shelf) -> Iterator[Written]:
    """Give all joints, row by row, then the seams of those that are worked as one."""
    fasteners = {each.id: each for each in shelf.fasteners}
    pinch_pct = shelf.constants.pinch.value
    thick_mm = {part.id: part.thickness_mm for part in stands.parts}
    mirrored = _mirrored(stands)
    for row in stands.rows:
        ids = joint_ids(row, names)
        stack_mm = thick_mm[row.outer] + thick_mm[row.inner]
        washer_mm = _washer_mm(fasteners[row.fastener], stack_mm, pinch_pct)
        one_sided = (row.outer in mirrored) != (row.inner in mirrored)
        for number, (key, pair) in enumerate(zip(ids, row.pairs, strict=True)):
            values: dict[str, TomlValue | None] = {
                "kind": fasteners[row.fastener].kind,
                "stack": [names.holes[hole] for hole in pair],
                "fastener": row.fastener,
                "motion": "turning" if row.turns else None,
                "washer_mm": washer_mm or None,
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


def closing_tables(stands: Standing, names: Names) -> Iterator[Written]:
    """Give where straps close, and round what girth."""
    for closing in stands.closings:
        strap = names.parts[closing.strap]
        yield Written(
            path=("strap_places", f"{strap}_closes"),
            values={
                "name": f"the {names.part_names[closing.strap]}",
                "strap": strap,
                "meets": names.parts[closing.meets],
                "girth_mm": list(closing.girth_mm),
                "holes": [names.holes[hole] for hole in closing.holes],
            },
            above="The girth is reckoned from the drawing, the buckle at the "
            f"{'slot' if closing.fold else 'end'} of what it meets.",
        )


def _washer_mm(fastener: Fastener, stack_mm: float, pinch_pct: float) -> float:
    """Return the thinnest washers with which a post on sale fits a stack; 0 where none help."""
    for washer_mm in (0.0, *_WASHERS_MM):
        thick_mm = stack_mm + washer_mm
        if choose_length(thick_mm, fastener, washer_mm=washer_mm, pinch_pct=pinch_pct) is not None:
            return washer_mm
    return 0.0


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


def thread_tables(stands: Standing, names: Names) -> Iterator[Written]:
    """Give what passes through slots; its own joint, where it has one, shuts it."""
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
