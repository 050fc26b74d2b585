"""Changes single shapes of a drawing; everything else stays byte for byte.

A shape is named by its id and given in mm on the page; what its groups and view boxes make of its
numbers is reckoned back. Comments, other languages' elements and the order of attributes stay.
"""

from math import isclose

from armorplan.files.faults import brief
from armorplan.files.flatten import half_axes
from armorplan.files.svg_any_shape import AnyShapePatch, back_of, unit_mm_of
from armorplan.files.svg_places import ROUND_TAGS, Drawn, length
from armorplan.files.svg_write import LOOKS, number_words
from armorplan.files.toml_patch import UnpatchableError
from armorplan.files.transforms import read_transform
from armorplan.pattern.parts import Point, Ring

_MEASURES = ("x", "y", "width", "height", "rx", "ry", "cx", "cy", "r", "points", "d")
_DRAWN_ANEW = frozenset({"type", "nodetypes", "path-effect", "original-d"})
"""What a path editor keeps under a name of its own to make path data of anew as it opens a drawing.

It would undo the change. Names as such editors were seen to write them; from memory.
"""


class SvgPatch(AnyShapePatch):
    """Collects changes of one drawing's text; each is of the text as it was given.

    Raises:
        UnpatchableError: here the drawing cannot be read; in each method, the shape is not there,
            or cannot be changed by itself.
    """

    # --- round holes --------------------------------------------------------------------------

    def move_circle(self, shape_id: str, centre: Point, diameter_mm: float | None = None) -> None:
        """Put a circle's centre at a place in mm, and give it a diameter, if one is told."""
        drawn = self._drawn.shape(shape_id)
        if drawn.shape.tag not in ROUND_TAGS:
            message = f'"{brief(shape_id)}" is no circle, but a <{drawn.shape.tag}>.'
            raise UnpatchableError(message)
        if drawn.is_use:
            self._move_use(drawn, centre, diameter_mm)
            return
        x, y = back_of(drawn.to_mm).transformPoint(centre)
        unit_mm = unit_mm_of(drawn.to_mm)
        attrs = drawn.shape.attrs
        changed = {
            "cx": number_words(x, unit_mm, attrs.get("cx")),
            "cy": number_words(y, unit_mm, attrs.get("cy")),
        }
        if diameter_mm is not None:
            share = diameter_mm / drawn.diameter_mm
            for key in ("r",) if drawn.shape.tag == "circle" else ("rx", "ry"):
                size = length(attrs, key) * share
                changed[key] = number_words(size, unit_mm, attrs.get(key))
        self._changes.put(drawn.at, changed)

    def _move_use(self, drawn: Drawn, centre: Point, diameter_mm: float | None) -> None:
        if diameter_mm is not None and not isclose(diameter_mm, drawn.diameter_mm, abs_tol=1e-3):
            message = (
                f'"{brief(drawn.id)}" is a copy (<use>) of another shape, so its size is that one\'s; '
                "unlink it in the drawing first."
            )
            raise UnpatchableError(message)
        (x, y), attrs = drawn.to_mm.transformPoint(drawn.centre), drawn.named.attrs
        own = drawn.above.transform(read_transform(attrs.get("transform")))
        across, down = back_of(own).transformVector((centre[0] - x, centre[1] - y))
        unit_mm = unit_mm_of(own)
        self._changes.put(
            drawn.at,
            {
                "x": number_words(length(attrs, "x") + across, unit_mm, attrs.get("x")),
                "y": number_words(length(attrs, "y") + down, unit_mm, attrs.get("y")),
            },
        )

    def add_circle(self, shape_id: str, centre: Point, *, diameter_mm: float, like: str) -> None:
        """Draw a new circle behind another shape, which it is to look like.

        Of a stretched or skewed group the circle would be oval; it is refused there.
        """
        drawn = self._drawn.shape(like)
        to_mm = drawn.above
        longer, shorter = half_axes(to_mm.transformVector((1, 0)), to_mm.transformVector((0, 1)))
        if not isclose(longer, shorter, rel_tol=1e-3):
            message = f'"{brief(like)}" lies in a stretched group, where a circle becomes an oval.'
            raise UnpatchableError(message)
        x, y = back_of(to_mm).transformPoint(centre)
        measures = {"cx": x, "cy": y, "r": diameter_mm / (longer + shorter)}
        self._add(shape_id, "circle", measures, like=drawn)

    # --- lines and outlines -------------------------------------------------------------------

    def add_line(self, shape_id: str, ends: tuple[Point, Point], *, like: str) -> None:
        """Draw a new straight line behind another shape, which it is to look like."""
        drawn = self._drawn.shape(like)
        (x1, y1), (x2, y2) = (back_of(drawn.above).transformPoint(end) for end in ends)
        self._add(shape_id, "line", {"x1": x1, "y1": y1, "x2": x2, "y2": y2}, like=drawn)

    def move_line(self, shape_id: str, ends: tuple[Point, Point]) -> None:
        """Put the two ends of a straight line at places in mm."""
        drawn = self._drawn.shape(shape_id)
        back, unit_mm = back_of(drawn.to_mm), unit_mm_of(drawn.to_mm)
        corners = tuple(back.transformPoint(end) for end in ends)
        if drawn.shape.tag == "line" and not drawn.is_use:
            told = zip(("x1", "y1", "x2", "y2"), (*corners[0], *corners[1]), strict=True)
            attrs = drawn.shape.attrs
            self._changes.put(
                drawn.at, {key: number_words(v, unit_mm, attrs.get(key)) for key, v in told}
            )
        else:
            self._reshape(drawn, corners, closed=False)

    def replace_outline(self, shape_id: str, ring: Ring) -> None:
        """Give a closed outline other corners, in mm."""
        drawn = self._drawn.shape(shape_id)
        back = back_of(drawn.to_mm)
        self._reshape(drawn, tuple(back.transformPoint(corner) for corner in ring), closed=True)

    def _reshape(self, drawn: Drawn, corners: Ring, *, closed: bool) -> None:
        if drawn.is_use:
            message = f'"{brief(drawn.id)}" is a copy (<use>) of another shape; unlink it first.'
            raise UnpatchableError(message)
        unit_mm = unit_mm_of(drawn.to_mm)
        points = [f"{number_words(x, unit_mm)},{number_words(y, unit_mm)}" for x, y in corners]
        tag = drawn.shape.tag
        if tag == ("polygon" if closed else "polyline"):
            self._changes.put(drawn.at, {"points": " ".join(points)})
            return
        way = f"M {' L '.join(points)}{' Z' if closed else ''}"
        gone = () if tag == "path" else _MEASURES
        self._changes.put(drawn.at, dict.fromkeys(gone) | {"d": way})
        self._changes.drop_foreign(drawn.at, _DRAWN_ANEW)
        if tag != "path":
            self._changes.call(drawn.at, "path")

    def _add(self, shape_id: str, tag: str, measures: dict[str, float], *, like: Drawn) -> None:
        if shape_id in self._drawn.ids:
            message = f'The drawing has a "{brief(shape_id)}" already.'
            raise UnpatchableError(message)
        self._drawn.ids.add(shape_id)
        unit_mm = unit_mm_of(like.above)
        told = {"id": shape_id} | {
            key: number_words(value, unit_mm) for key, value in measures.items()
        }
        told |= {key: like.named.attrs[key] for key in LOOKS if key in like.named.attrs}
        self._changes.add(like.at, tag, told)
