"""The shapes of a right piece that is folded into a left one: what differs, what is drawn, what goes."""

from collections.abc import Collection, Iterable

from armorplan.app.editing.hands import TOLD_MM, Hands
from armorplan.app.editing.holes import draw_hole, next_hole
from armorplan.app.editing.pending import Pending
from armorplan.pattern.parts import Part


def tell_differences(pending: Pending, pairs: Iterable[Hands]) -> None:
    """Tell where the left and the right parts of pairs differ."""
    tell = pending.tell
    for hands in pairs:
        name = pending.part(hands.left).name
        if hands.off_mm > TOLD_MM:
            tell(f"The outlines of the {name} differ by {hands.off_mm:.1f} mm; the left holds.")
        for hole, off_mm in hands.holes_mm.items():
            if off_mm > TOLD_MM:
                tell(
                    f'The hole "{hole}" lies {off_mm:.1f} mm elsewhere on the right; the left holds.'
                )
        for hole in hands.lonely:
            tell(f'The hole "{hole}" was there on the left only; now it is in both.')
        for hole in hands.extra:
            tell(
                f'The hole "{hole}" of the {name} was there on the right only; now it is in both.'
            )


class FoldedShapes:
    """Draws what only the right one has into the left one, and takes the right one out."""

    def __init__(self, pending: Pending) -> None:
        self._pending = pending
        self._new: set[str] = set()

    def drawn_anew(self, hands: Hands) -> dict[str, str]:
        """Draw holes that only the right one has into the left one, and return what they become."""
        part = self._pending.part(hands.left)
        found: dict[str, str] = {}
        for hole, spot in hands.extra.items():
            told = self._pending.hole(hole)
            if not told.travel_mm:
                found[hole] = next_hole(self._pending, part.id, self._new)
                self._new.add(found[hole])
                draw_hole(self._pending, part, found[hole], (*spot, told.diameter_mm))
        return found

    def take_out(self, gone: Iterable[Part], lines: Collection[str]) -> None:
        """Take out right parts and lines that the left drawing stands for now, and empty drawings."""
        pending = self._pending
        shapes = [shape for part in gone for shape in self._of(part)]
        for shape in (*shapes, *sorted(lines)):
            pending.drawings.of(shape).remove(shape)
        empty = pending.drawings.drop_empty()
        if empty:
            names = pending.values["pattern"]["drawings"]
            pending.put(("pattern", "drawings"), [name for name in names if name not in empty])

    def _of(self, part: Part) -> list[str]:
        """Return the shapes of a part, whose entry may be gone by now."""
        outline = str(self._pending.draft.entry("parts", part.id).get("outline", part.id))
        return [outline, *(hole.id for hole in part.holes), *(slot.id for slot in part.slots)]
