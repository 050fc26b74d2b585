"""Blanks: how the drawing of a part is mirrored and turned to lie on a bed, and what is cut in it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from math import atan2, cos, degrees, radians, sin

from armorplan.assembly.model import Side, SidedPart
from armorplan.geometry.slot_rings import slot_rings
from armorplan.needs.cutting.model import CutShape, Laid
from armorplan.pattern.joining import Form
from armorplan.pattern.parts import Hole, Part, PartKind, Point, Ring, heading
from armorplan.steps.naming import with_side
from armorplan.steps.scene import Scene

_CORNERS = 24
"""Of a slot's round end: within 0.05 mm of the circle up to 10 mm wide."""
_ARROW_MM = (6.0, 20.0)
_TIP_DEG = 25.0
_QUARTER_DEG = 90.0


@dataclass(frozen=True, kw_only=True)
class CutScene:
    """What a cut list is made from.

    Attributes:
        scene: the build.
        shaped_first: sided parts whose holes are punched after they are shaped.
    """

    scene: Scene
    shaped_first: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """The smallest box round a part as it may lie on a bed.

    Attributes:
        size_mm: along and across the bed; along it runs the hide's backbone.
        turned_deg: by how much the drawing is turned for it, after it was mirrored.
        fixed: it is not turned a quarter more: the hide's backbone matters.
    """

    part: str
    copy: int
    size_mm: tuple[float, float]
    turned_deg: float
    fixed: bool


def is_mirrored(sided: SidedPart) -> bool:
    """Tell whether a part's drawing is mirrored to lie grain side up: a left drawn so is not."""
    part = sided.part
    is_right = sided.side is Side.RIGHT and not part.copied
    shows_grain = part.grain_out != part.drawn_from_inside
    return is_right == shows_grain


def blanks_of(sided: SidedPart) -> Iterator[Blank]:
    """Yield the blanks of a part, one for each time it is cut."""
    mirrored = is_mirrored(sided)
    turned_deg, fixed = _turn(sided.part, mirrored=mirrored)
    place = _placing(turned_deg, mirrored=mirrored)
    left, top, right, foot = _box(tuple(map(place, sided.part.outline)))
    for copy in range(1, sided.part.count + 1):
        yield Blank(
            part=sided.id,
            copy=copy,
            size_mm=(right - left, foot - top),
            turned_deg=turned_deg,
            fixed=fixed,
        )


def laid(sided: SidedPart, blank: Blank, at_mm: Point, *, quarter: bool) -> Laid:
    """Return a blank where it lies; ``quarter``: turned a quarter more."""
    wide, high = blank.size_mm
    return Laid(
        part=sided.id,
        name=with_side(sided.part.name, sided.side),
        copy=blank.copy,
        at_mm=at_mm,
        size_mm=(high, wide) if quarter else (wide, high),
        turned_deg=(blank.turned_deg + _QUARTER_DEG * quarter) % 360.0,
        mirrored=is_mirrored(sided),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Openings:
    """What is cut inside a part before it is shaped, and what is punched later.

    ``after_shaping`` and ``on_wearer`` count holes that are punched then.
    """

    holes: tuple[Hole, ...]
    slots: tuple[Ring, ...]
    after_shaping: int
    on_wearer: int

    @property
    def punched(self) -> int:
        """How many openings the punch makes at the bench, where everything is done by hand."""
        return len(self.holes) + len(self.slots) + self.after_shaping


def openings(cut: CutScene, sided: SidedPart) -> Openings:
    """Return what is cut inside a part, left and right each for itself."""
    scene = cut.scene
    made = scene.made_in(sided.id)
    flat = tuple(hole for hole in made if not scene.waits_for_fit(hole.id))
    part = replace(sided.part, holes=flat)
    round_ones = tuple(hole for hole in flat if not hole.travel_mm)
    waits = sided.id in cut.shaped_first
    return Openings(
        holes=() if waits else round_ones,
        slots=tuple(slot_rings(part, corners=_CORNERS)),
        after_shaping=len(round_ones) if waits else 0,
        on_wearer=len(made) - len(flat),
    )


def cut_shape(cut: CutScene, blank: Laid, kerf_mm: float = 0.0) -> CutShape:
    """Return the lines of a blank on its bed.

    Args:
        cut: the build.
        blank: where it lies.
        kerf_mm: outlines run half of it outside and holes half of it inside, so that what is left
            is as drawn; a hole no wider than it is left out.
    """
    assembly = cut.scene.assembly
    sided = assembly.part(blank.part)
    inside, part = openings(cut, sided), sided.part
    place = _at(part, blank)
    (outline,) = _offset((part.outline,), kerf_mm / 2)
    return CutShape(
        name=blank.name,
        outline=_placed(outline, place),
        slots=tuple(_placed(slot, place) for slot in _offset(inside.slots, -kerf_mm / 2)),
        holes=tuple(
            (place(hole.centre), hole.diameter_mm - kerf_mm)
            for hole in inside.holes
            if hole.diameter_mm > kerf_mm
        ),
        guides=tuple((place(a), place(b)) for a, b in _guides(part, assembly.pattern.forms)),
        label_at=place(_middle(part.outline)),
    )


def _placed(ring: Ring, place: Callable[[Point], Point]) -> Ring:
    return tuple(map(place, ring))


def _placing(turned_deg: float, *, mirrored: bool) -> Callable[[Point], Point]:
    """Return how a point of the drawing lies when mirrored, then turned against the clock."""
    turn, way = radians(turned_deg), -1.0 if mirrored else 1.0

    def place(point: Point) -> Point:
        x, y = way * point[0], point[1]
        return x * cos(turn) + y * sin(turn), y * cos(turn) - x * sin(turn)

    return place


def _at(part: Part, blank: Laid) -> Callable[[Point], Point]:
    """Return where a point of the drawing lies on the bed."""
    place = _placing(blank.turned_deg, mirrored=blank.mirrored)
    left, top, _, _ = _box(tuple(map(place, part.outline)))
    dx, dy = blank.at_mm[0] - left, blank.at_mm[1] - top

    def on_bed(point: Point) -> Point:
        x, y = place(point)
        return x + dx, y + dy

    return on_bed


def _turn(part: Part, *, mirrored: bool) -> tuple[float, bool]:
    """Return by how much a part is turned to lie, and whether it has to lie so.

    Where the hide's backbone lies in the drawing, it comes to lie along the bed; a strap that says
    nothing lies along it, since leather stretches least that way (common practice, no source).
    """
    if part.backbone_deg is not None:
        way = 180.0 - part.backbone_deg if mirrored else part.backbone_deg
        return -way % 180.0, True
    along_deg = _long_side_deg(part.outline)
    way = 180.0 - along_deg if mirrored else along_deg
    return -way % 180.0, part.kind is PartKind.STRAP


@lru_cache(maxsize=2048)
def _long_side_deg(ring: Ring) -> float:
    """Return where the longer side of the smallest box round an outline runs; 90 is up the page."""
    from shapely import Polygon, get_coordinates, oriented_envelope

    first, second, third = get_coordinates(oriented_envelope(Polygon(ring))).tolist()[:3]
    sides = [(b[0] - a[0], a[1] - b[1]) for a, b in ((first, second), (second, third))]
    along, up = max(sides, key=lambda side: side[0] ** 2 + side[1] ** 2)
    return degrees(atan2(up, along)) % 180.0


def _box(ring: Ring) -> tuple[float, float, float, float]:
    xs, ys = zip(*ring, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _offset(rings: tuple[Ring, ...], by_mm: float) -> tuple[Ring, ...]:
    """Return outlines drawn outwards, or inwards where ``by_mm`` is below 0; what vanishes is gone."""
    if not by_mm:
        return rings
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

    grown: list[BaseGeometry] = [Polygon(ring).buffer(by_mm, join_style="mitre") for ring in rings]
    return tuple(
        tuple((float(x), float(y)) for x, y in shape.exterior.coords[:-1])
        for shape in grown
        if isinstance(shape, Polygon) and not shape.is_empty
    )


@lru_cache(maxsize=2048)
def _middle(ring: Ring) -> Point:
    from shapely import Polygon

    spot = Polygon(ring).representative_point()
    return spot.x, spot.y


def _guides(part: Part, forms: tuple[Form, ...]) -> Iterator[tuple[Point, Point]]:
    """Yield what is drawn on a blank and not cut: the axes it is bent about, and which way is up."""
    yield from (form.axis for form in forms if form.axis is not None and part.id in form.parts)
    (x, y), (dx, dy) = _middle(part.outline), heading(part.up_deg)
    left, top, right, foot = _box(part.outline)
    least, most = _ARROW_MM
    half = min(max(min(right - left, foot - top) / 4, least), most) / 2
    tip = (x + dx * half, y + dy * half)
    for turn_deg in (180.0 - _TIP_DEG, 180.0 + _TIP_DEG):
        tx, ty = heading(part.up_deg + turn_deg)
        yield tip, (tip[0] + tx * half / 2, tip[1] + ty * half / 2)
    yield (x - dx * half, y - dy * half), tip
