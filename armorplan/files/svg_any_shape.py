"""A drawing's text under change: what can be done with any shape of it, whatever it is drawn as."""

from collections.abc import Collection
from math import isclose, sqrt

from fontTools.misc.transform import Transform

from armorplan.files.faults import brief
from armorplan.files.svg_changes import SvgChanges
from armorplan.files.svg_places import Drawn, DrawnText
from armorplan.files.svg_write import transform_words
from armorplan.files.toml_patch import UnpatchableError
from armorplan.files.transforms import read_transform
from armorplan.pattern.parts import Ring


class AnyShapePatch:
    """Collects changes of one drawing's text; each is of the text as it was given.

    Raises:
        UnpatchableError: here the drawing cannot be read; in each method, the shape is not there,
            or cannot be changed by itself.
    """

    def __init__(self, text: str) -> None:
        self._drawn = DrawnText(text)
        self._changes = SvgChanges(self._drawn.data)

    @property
    def text(self) -> str:
        """The text with all changes so far."""
        return self._drawn.mark + self._changes.data.decode()

    def draws(self, shape_id: str) -> bool:
        """Tell whether a shape is drawn by this id."""
        return self._drawn.draws(shape_id)

    @property
    def has_shapes(self) -> bool:
        """Whether a shape with an id is drawn."""
        return self._drawn.has_shapes

    def is_round(self, shape_id: str) -> bool:
        """Tell whether a shape is drawn as a circle."""
        return self._drawn.shape(shape_id).is_circle

    def lay(self, shape_id: str, motion: Transform) -> None:
        """Move, turn or turn over a shape by a motion of the page in mm; twice over is nothing."""
        self._lay(self._drawn.shape(shape_id), motion)

    def lay_within(self, ring: Ring, motion: Transform, but: Collection[str]) -> None:
        """Do so with all else that is drawn within an outline, but shapes of these ids."""
        for drawn in self._drawn.within(ring):
            if drawn.id not in but:
                self._lay(drawn, motion)

    def _lay(self, drawn: Drawn, motion: Transform) -> None:
        own = read_transform(drawn.named.attrs.get("transform"))
        moved = back_of(drawn.above).transform(motion).transform(drawn.above).transform(own)
        self._changes.put(drawn.at, {"transform": transform_words(moved)})

    def rename(self, shape_id: str, new: str) -> None:
        """Give a shape another id, also where the drawing names it."""
        if new in self._drawn.ids:
            message = f'The drawing has a "{brief(new)}" already.'
            raise UnpatchableError(message)
        self._changes.put(self._drawn.shape(shape_id).at, {"id": new})
        for element in self._drawn.naming(shape_id):
            self._changes.put(self._drawn.stretch(element), {"href": f"#{new}"})

    def remove(self, shape_id: str) -> None:
        """Take a shape out, with its line where nothing else stands on it."""
        self._changes.cut(self._drawn.shape(shape_id).at)


def back_of(to_mm: Transform) -> Transform:
    """Return the way from mm to a shape's own numbers; UnpatchableError where it is squeezed flat."""
    if isclose(to_mm.xx * to_mm.yy - to_mm.xy * to_mm.yx, 0.0, abs_tol=1e-12):
        message = "A group of the drawing squeezes it to nothing."
        raise UnpatchableError(message)
    return to_mm.inverse()


def unit_mm_of(to_mm: Transform) -> float:
    """Return what one unit of a shape is on the page, on average of both ways."""
    return sqrt(abs(to_mm.xx * to_mm.yy - to_mm.xy * to_mm.yx)) or 1.0
