"""The sheets on which the right side of what was mirrored is drawn, each for one drawing of the left."""

from collections.abc import Iterable
from math import ceil
from pathlib import PurePosixPath

from fontTools.misc.transform import Identity, Transform

from armorplan.app.editing.parts import outline_of
from armorplan.app.editing.pending import Pending
from armorplan.app.editing.references import What
from armorplan.app.editing.side_names import LEFT, RIGHT, SideNames
from armorplan.files.source import PATTERN_FILE
from armorplan.files.svg_copy import SheetCopy
from armorplan.pattern.parts import Part
from armorplan.pattern.sides import named_sides

_STEP_MM = 10.0


class RightSheets:
    """Draws the right side of parts on sheets of their own, beside all that is drawn by now."""

    def __init__(self, pending: Pending, names: SideNames) -> None:
        self._pending = pending
        self._names = names
        self._sheets: dict[str, SheetCopy] = {}

    def over(self, part: str) -> Transform:
        """Return the motion in mm by which a left part comes to lie on its right sheet."""
        return self._of_part(part).over

    def draw(self, parts: Iterable[Part]) -> None:
        """Draw all parts, holes, slots and lines of the right, and take out what the left has not."""
        for part in parts:
            sides = named_sides(part.made_on)
            if RIGHT in sides:
                self._draw_part(part)
            if LEFT not in sides:
                for shape in self._shapes(part):
                    self._pending.drawings.of(shape).remove(shape)
        for (what, line), right in self._names.right.items():
            if what is What.LINE:
                sheet = self._sheet(self._pending.drawings.name_of(line))
                sheet.draw(line, right, sheet.over)
        self._put()

    def _put(self) -> None:
        """Put the sheets beside the other drawings."""
        drawings = list(self._pending.values["pattern"]["drawings"])
        for drawing, sheet in self._sheets.items():
            path = PurePosixPath(drawing)
            taken = {name for name, _ in self._pending.draft.texts if name != PATTERN_FILE}
            stem = str(path.with_name(f"{path.stem}_right"))
            name = f"{free_name(stem, (each[:-4] for each in taken))}.svg"
            self._pending.drawings.put(name, sheet.text)
            drawings.append(name)
        self._pending.put(("pattern", "drawings"), drawings)

    def _draw_part(self, part: Part) -> None:
        sheet = self._of_part(part.id)
        motion = _beside(part, sheet.over) if part.copied else sheet.over
        for shape in self._shapes(part):
            sheet.draw(shape, self._right_shape(part, shape), motion)

    def _of_part(self, part: str) -> SheetCopy:
        return self._sheet(self._pending.drawings.name_of(outline_of(self._pending, part)))

    def _sheet(self, drawing: str) -> SheetCopy:
        if drawing not in self._sheets:
            text = dict(self._pending.draft.texts)[drawing]
            title = f"{self._pending.pattern.name}: the right side"
            self._sheets[drawing] = SheetCopy(text, title, _edge_mm(self._pending.pattern.parts))
        return self._sheets[drawing]

    def _shapes(self, part: Part) -> list[str]:
        outline = outline_of(self._pending, part.id)
        return [outline, *(hole.id for hole in part.holes), *(slot.id for slot in part.slots)]

    def _right_shape(self, part: Part, shape: str) -> str:
        for what in (What.HOLE, What.OUTLINE, What.PART):
            if (what, shape) in self._names.right:
                return self._names.right[what, shape]
        return part.id


def free_name(name: str, taken: Iterable[str]) -> str:
    """Return a name that is not taken, with the next number behind it where it is."""
    known, number, found = set(taken), 2, name
    while found in known:
        found, number = f"{name}_{number}", number + 1
    return found


def _edge_mm(parts: Iterable[Part]) -> float:
    """Return where the sheets of the left end and those of the right begin, in mm from the left."""
    right = max(x for part in parts for x, _ in part.outline)
    return _STEP_MM * (ceil(right / _STEP_MM) + 1)


def _beside(part: Part, over: Transform) -> Transform:
    """Return the motion that puts a part where its mirror would lie, not turned over."""
    xs = [x for x, _ in part.outline]
    middle = (min(xs) + max(xs)) / 2
    there, _ = over.transformPoint((middle, 0.0))
    return Identity.translate(there - middle, 0.0)
