"""Edits of what parts are, what they are made of, and what is put on them."""

from collections.abc import Collection, Mapping, Sequence
from typing import Any

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.pending import NotTakenError, Pending, an_edit, check_id
from armorplan.app.editing.references import What, users
from armorplan.pattern.parts import PartKind, Ring

FACTS = frozenset(
    {
        "name",
        "kind",
        "material",
        "grain",
        "drawn_from",
        "up_deg",
        "backbone_deg",
        "bevelled",
        "skived",
        "burnished",
        "tooling",
        "count",
        "made_on",
        "copied",
        "notes",
    }
)
"""Keys of a part that say what it is, by their names in the file."""


@an_edit
def set_parts(draft: Draft, parts: Collection[str], facts: Mapping[str, Any]) -> Draft | Refused:
    """Say the same of several parts; ``None`` takes what is said of them out.

    Args:
        draft: the pattern.
        parts: ids.
        facts: values by their keys in the file: ``{"grain": "in", "up_deg": 180.0}``.
    """
    pending = Pending(draft)
    unknown = sorted(set(facts) - FACTS)
    if unknown:
        raise NotTakenError(f'"{unknown[0]}" is nothing that a part can be.')
    for part in dict.fromkeys(parts):
        told = pending.entry("parts", part)
        for key, value in facts.items():
            if told.get(key) != value:
                pending.put(("parts", part, key), value)
    return pending.taken()


@an_edit
def turn_up(draft: Draft, parts: Collection[str], by_deg: float) -> Draft | Refused:
    """Turn where up on the wearer lies in the drawing of parts, in degrees; left turns count up."""
    pending = Pending(draft)
    for part in dict.fromkeys(parts):
        now = pending.part(part).up_deg
        pending.put(("parts", part, "up_deg"), plain_deg(now + by_deg))
    return pending.taken()


def plain_deg(angle_deg: float) -> float | int:
    """Return an angle from 0 to below 360°, written as briefly as it can be."""
    turned = round(angle_deg % 360.0, 3) % 360.0
    return int(turned) if turned.is_integer() else turned


@an_edit
def set_outline(draft: Draft, part: str, ring: Ring) -> Draft | Refused:
    """Give a part another outline, its corners in mm on the page; holes stay where they are."""
    pending = Pending(draft)
    pending.part(part)
    outline = outline_of(pending, part)
    pending.drawings.of(outline).replace_outline(outline, ring)
    return pending.taken()


def outline_of(pending: Pending, part: str) -> str:
    """Return the id of a part's outline in its drawing."""
    return str(pending.entry("parts", part).get("outline", part))


@an_edit
def rename(draft: Draft, table: str, entry: str, name: str) -> Draft | Refused:
    """Give a part, joint, row, piece, leather or form another id, wherever it is named.

    Of a part whose outline goes by the same id, that is called anew in the drawing as well.
    """
    pending = Pending(draft)
    check_id(name)
    if table == "parts" and "outline" not in pending.entry(table, entry):
        pending.drawings.of(entry).rename(entry, name)
        pending.call_anew(What.OUTLINE, entry, name)
    pending.rename(table, entry, name)
    return pending.taken()


@an_edit
def drop_parts(draft: Draft, parts: Collection[str]) -> Draft | Refused:
    """Take parts out with their outlines, holes and slots, and all that is nothing without them."""
    pending = Pending(draft)
    for each in dict.fromkeys(parts):
        part = pending.part(each)
        shapes = [hole.id for hole in part.holes] + [slot.id for slot in part.slots]
        for shape in (outline_of(pending, each), *shapes):
            pending.drawings.of(shape).remove(shape)
        for hole in part.holes:
            if hole.id in pending.values.get("holes", {}):
                pending.drop("holes", hole.id)
        pending.forget(What.HOLE, [hole.id for hole in part.holes])
        pending.forget(What.OUTLINE, [slot.id for slot in part.slots])
        pending.drop("parts", each)
    return pending.taken()


@an_edit
def add_material(
    draft: Draft, name: str, *, leather: str, thickness_mm: float | Sequence[float]
) -> Draft | Refused:
    """Name another leather that parts can be made of.

    Args:
        draft: the pattern.
        name: its id in the pattern.
        leather: what it is on the shelf.
        thickness_mm: as it is bought; two ends where it is sold as a range.
    """
    pending = Pending(draft)
    check_id(name)
    thick = thickness_mm if isinstance(thickness_mm, int | float) else list(thickness_mm)
    pending.add("materials", name, {"leather": leather, "thickness_mm": thick})
    return pending.taken()


@an_edit
def add_part(
    draft: Draft, outline: str, *, name: str, piece: str, kind: PartKind, material: str
) -> Draft | Refused:
    """Make a closed outline of the drawing a part; its id is the outline's."""
    pending = Pending(draft)
    pending.drawings.of(outline)
    told = {"name": name, "piece": piece, "kind": kind.value, "material": material}
    pending.add("parts", outline, told)
    return pending.taken()


@an_edit
def put_to_piece(
    draft: Draft, parts: Collection[str], piece: str, *, name: str = ""
) -> Draft | Refused:
    """Make parts belong to another piece; a piece that none is left of goes, and is told.

    Args:
        draft: the pattern.
        parts: ids.
        piece: the piece's id; empty: a new one is made, like that of the first part.
        name: what a new piece is called.
    """
    pending = Pending(draft)
    former = dict.fromkeys(pending.part(part).piece for part in parts)
    if not piece:
        piece = _new_piece(pending, next(iter(former)), name)
    pending.entry("pieces", piece)
    for part in dict.fromkeys(parts):
        pending.put(("parts", part, "piece"), piece)
    left = {part.piece for part in pending.pattern.parts if part.id not in set(parts)}
    for empty in sorted(former.keys() - left - {piece}):
        told = pending.entry("pieces", empty).get("name", empty)
        for naming, entry, _ in list(users(pending.values, What.PIECE, empty)):
            if naming.key == "piece":
                pending.put((naming.table, entry, naming.key), piece)
        pending.drop("pieces", empty, words=f"{told} has no part left and went.")
    return pending.taken()


def _new_piece(pending: Pending, like: str, name: str) -> str:
    """Add a piece that is made and treated like another one, and return its id."""
    made = pending.free_id("pieces", name or "piece")
    pending.add("pieces", made, {**pending.entry("pieces", like), "name": name or made})
    for coat, told in list(pending.values.get("treatments", {}).items()):
        if like in told.get("pieces", ()):
            pending.put(("treatments", coat, "pieces"), [*told["pieces"], made])
    return made


@an_edit
def set_treated(draft: Draft, treatment: str, parts: Sequence[str]) -> Draft | Refused:
    """Put a treatment on just these parts; it is written as whole pieces where it is those."""
    pending = Pending(draft)
    pending.entry("treatments", treatment)
    of_piece: dict[str, list[str]] = {}
    for part in pending.pattern.parts:
        of_piece.setdefault(part.piece, []).append(part.id)
    whole = [piece for piece, all_ in of_piece.items() if set(all_) <= set(parts)]
    whole = whole if "pieces" in pending.entry("treatments", treatment) else []
    rest = [part for part in parts if not any(part in of_piece[piece] for piece in whole)]
    pending.put(("treatments", treatment, "pieces"), whole)
    pending.put(("treatments", treatment, "parts"), rest)
    return pending.taken()


@an_edit
def add_treatment(
    draft: Draft, use: str, *, parts: Sequence[str], colour: str = "", coats: int = 1
) -> Draft | Refused:
    """Put a treatment of the shelf on parts, in so many coats; of dyes with a colour."""
    pending = Pending(draft)
    told: dict[str, Any] = {"use": use, "parts": list(parts), "colour": colour or None}
    told["coats"] = coats if coats > 1 else None
    pending.add("treatments", pending.free_id("treatments", colour or use), told)
    return pending.taken()
