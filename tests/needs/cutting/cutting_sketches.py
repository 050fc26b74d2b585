"""Builds to cut: plates of known size in a leather that says how it is tanned."""

from dataclasses import replace

from geometry.leather_sketches import LEATHER, box, part, pattern
from needs.needs_sketches import shelf

from armorplan.assembly.expand import assemble
from armorplan.needs.cutting.blanks import CutScene
from armorplan.pattern.parts import Part, Piece
from armorplan.steps.scene import Scene
from armorplan.workshop.shelf import Duration, Shelf
from armorplan.workshop.shop import one_maker

CUT = Duration(kind="cut", fixed_min=2.0, per_part_min=1.0, per_cm_min=0.1)
PUNCH = Duration(kind="punch", per_hole_min=0.5)
MACHINE = Duration(kind="cut by machine", fixed_min=8.0, per_part_min=0.5, per_cm_min=0.01)


def plate(part_id: str = "plate", wide: float = 200.0, high: float = 100.0) -> Part:
    """Return a plate with one hole of 4 mm at (10, 10)."""
    made = part(part_id, box(wide, high), {f"{part_id}_hole": (10.0, 10.0)})
    return replace(made, holes=tuple(replace(hole, diameter_mm=4.0) for hole in made.holes))


def cutting_shelf(tanning: str = "vegetable") -> Shelf:
    """Return a shelf with times to cut by hand and by machine."""
    leather = replace(LEATHER, yield_pct=75.0, tanning=tanning)
    return replace(shelf(), leathers=(leather,), durations=(CUT, PUNCH, MACHINE))


def scene(
    *parts: Part,
    mirrored: bool = False,
    tanning: str = "vegetable",
    shaped: frozenset[str] = frozenset(),
) -> CutScene:
    """Return a build of these parts, as one piece or a pair."""
    made = replace(pattern(*parts), pieces=(Piece(id="piece", name="Piece", mirrored=mirrored),))
    stock = cutting_shelf(tanning)
    assembly = assemble(made, stock, build="build")
    whole = Scene(assembly=assembly, shelf=stock, room=one_maker("UTC").room)
    return CutScene(scene=whole, shaped_first=shaped)
