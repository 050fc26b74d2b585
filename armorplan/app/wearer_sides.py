"""Limbs that differ: mirrored pieces become two with drawings of their own, each fitted to its side."""

from dataclasses import dataclass

from armorplan.app.draft import Bench, Refused, drafted
from armorplan.app.editing.unpairing import unpaired
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PatternFiles, from_texts
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import one_maker
from armorplan.workshop.wearers import Wearer


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoSides:
    """A pattern whose right pieces have drawings of their own.

    Attributes:
        right: ids of the parts of the right side; all others are of the left, or of both.
    """

    files: PatternFiles
    pattern: Pattern
    right: frozenset[str]


def differs(pattern: Pattern, wearer: Wearer) -> bool:
    """Tell whether a mirrored piece has parts that follow a measure which differs left and right."""
    mirrored = {piece.id for piece in pattern.pieces if piece.mirrored}
    return any(
        pattern.part(part).piece in mirrored
        for scaling in pattern.scalings
        if {scaling.along, scaling.around} & set(wearer.differing)
        for part in scaling.parts
    )


def two_sided(files: PatternFiles, pattern: Pattern, shelf: Shelf) -> TwoSides | Refused:
    """Return a pattern with its mirrored pieces made two each, or why that cannot be.

    Args:
        files: as it was drawn.
        pattern: the same, read.
        shelf: the catalogues.
    """
    draft = drafted(files, Bench(shelf=shelf, shop=one_maker("UTC"))).in_haste()
    for piece in pattern.pieces:
        if draft.entry("pieces", piece.id).get("mirrored") is not True:
            continue
        made = unpaired(draft, piece.id)
        if isinstance(made, Refused):
            return made
        draft = made
    parted = from_texts(files.slug, dict(draft.texts))
    read = read_pattern(parted, shelf)
    if read.pattern is None:
        return Refused(findings=read.findings)
    known = {part.id for part in pattern.parts}
    right = frozenset(part.id for part in read.pattern.parts if part.id not in known)
    return TwoSides(files=parted, pattern=read.pattern, right=right)
