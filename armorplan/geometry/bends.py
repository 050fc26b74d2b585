"""Layers that are bent together slide on each other: by how much, between which joints.

Two layers whose middles lie ``d`` apart, bent to an inner radius ``R``: between two fasteners
across the bend the outer layer has ``d / R`` of their spacing further to go, and ``d`` times the
angle in all (circle geometry). A row along the axis of the bend does not slide.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import dist, inf, radians
from typing import NamedTuple

from armorplan.geometry.bend_lines import Across, across_axis, crosses, widest
from armorplan.pattern.joining import Form, FormKind, Joint, JointKind, Motion, Route
from armorplan.pattern.parts import Part, Point
from armorplan.pattern.pattern import Pattern

DAMP_ROUTES = frozenset((Route.DAMP, Route.HARDENED, Route.WET_FOLD))
"""Routes that shape the leather damp: before its finish, and so before its hardware."""
BENT_KINDS = (FormKind.BEND, FormKind.FOLD)
ONE_PLACE_MM = 1.0
"""Holes nearer to each other than this across the bend lie at one place of it."""
_LEAST_JOINTS = 2
_WIDER_SHARE = 0.25
_WIDER_MM = 0.5
"""An outer row is made for the bent state where it is longer by the slide, give or take these
(common practice, no source)."""


class Spacing(NamedTuple):
    """Two joints that are neighbours across a bend.

    Attributes:
        spacing_mm: how far apart they are, measured across the bend.
        slide_mm: how far the outer layer slides between them; ``None``: the pattern does not tell.
    """

    one: str
    other: str
    spacing_mm: float
    slide_mm: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerSlide:
    """An outer layer that slides on the inner one when both are bent.

    Attributes:
        forms: id of the form; where the layers are shaped by two, those of the outer and the inner.
        route, under_route: how the outer and the inner layer are shaped.
        joints: ids of the joints through both, in their order across the bend.
        places_mm: where each of them lies across the bend.
        axis_mm: where the axis lies on the same measure; ``None``: it is not known.
        apart_mm: how far the middles of the layers lie apart.
        radius_mm: inner radius of the bend; ``None``: not said.
        angle_deg: how far it is bent; ``None``: not said.
        spacings: neighbours across the bend; empty where the row lies along it.
        total_mm: how far the holes come apart from the first to the last; ``None``: not told.
        wider_mm: how much longer the outer row is than the inner one, as drawn.
        has_axis: the pattern says about which line it is bent.
        hole_mm: diameter of the smallest hole of the outer row.
    """

    forms: tuple[str, ...]
    route: Route
    under_route: Route
    outer: str
    inner: str
    joints: tuple[str, ...]
    places_mm: tuple[float, ...]
    axis_mm: float | None
    apart_mm: float
    radius_mm: float | None
    angle_deg: float | None
    spacings: tuple[Spacing, ...]
    total_mm: float | None
    wider_mm: float
    has_axis: bool
    hole_mm: float

    @property
    def slide_pct(self) -> float | None:
        """The greatest slide in per cent of its spacing: ``d / R`` where all of it is bent."""
        known = [100 * s.slide_mm / s.spacing_mm for s in self.spacings if s.slide_mm is not None]
        if not self.spacings:
            return 0.0
        return max(known) if known and self.radius_mm else None

    @property
    def along(self) -> bool:
        """Whether the row lies along the axis of the bend."""
        return not self.spacings

    @property
    def wider(self) -> bool:
        """Whether the outer row is drawn longer by the slide: it is made for the bent state."""
        if self.total_mm is None or self.total_mm <= _WIDER_MM:
            return False
        off_mm = abs(self.wider_mm - self.total_mm)
        return off_mm <= max(_WIDER_MM, _WIDER_SHARE * self.total_mm) and self.wider_mm > 0

    def between_mm(self, one: str, other: str) -> float | None:
        """Return how far the outer layer slides between two of its joints, in mm."""
        at = sorted(self.places_mm[self.joints.index(joint)] for joint in (one, other))
        return self._bend.slide_mm(*at)

    @property
    def _bend(self) -> "_Bend":
        return _Bend(self.apart_mm, self.radius_mm, self.angle_deg, self.axis_mm)


def layer_slides(pattern: Pattern) -> tuple[LayerSlide, ...]:
    """Return how far each two layers slide in each bend or fold, in the order of their joints.

    Left out are forms that seams make; joints that slide, that are marked on the wearer, laced, or
    in a seam that draws the shape; and layers joined at one place only.
    """
    bent = [f for f in pattern.forms if f.kind in BENT_KINDS and f.route is not Route.BY_SEAM]
    if not bent:
        return ()
    layers = _layers(pattern, {part for form in bent for part in form.parts})
    of_part = {part: [f for f in bent if part in f.parts] for pair in layers for part in pair}
    found: list[LayerSlide] = []
    for pair, joints in layers.items():
        for form in of_part[pair[0]]:
            beneath = _beneath(form, of_part[pair[1]])
            if beneath is not None:
                found.append(_slide(pattern, (form, beneath), pair, joints))
    return tuple(found)


def slides_by_layers(pattern: Pattern) -> dict[tuple[str, str], LayerSlide]:
    """Return the greatest slide of each two layers, by the ids of the outer and the inner part."""
    found: dict[tuple[str, str], LayerSlide] = {}
    for slide in layer_slides(pattern):
        key = slide.outer, slide.inner
        if key not in found or (slide.total_mm or 0.0) > (found[key].total_mm or 0.0):
            found[key] = slide
    return found


def _layers(pattern: Pattern, bent: set[str]) -> dict[tuple[str, str], list[Joint]]:
    """Return the joints through each two bent layers that lie on each other, outer and inner."""
    drawn = {seam for form in pattern.forms for seam in form.seams}
    drawing = {joint for seam in pattern.seams if seam.id in drawn for joint in seam.joints}
    found: dict[tuple[str, str], list[Joint]] = {}
    for joint in pattern.joints:
        if joint.layers or joint.id in drawing or _gives(joint):
            continue
        for outer, inner in pairwise(pattern.stack_parts(joint.id)):
            if outer != inner and outer in bent and inner in bent:
                found.setdefault((outer, inner), []).append(joint)
    return {pair: joints for pair, joints in found.items() if len(joints) >= _LEAST_JOINTS}


def _gives(joint: Joint) -> bool:
    """Tell whether a joint takes up a slide by itself."""
    loose = joint.placed_on_wearer or joint.motion is Motion.SLIDING
    return loose or joint.kind is JointKind.LACE


def _beneath(form: Form, of_inner: list[Form]) -> Form | None:
    """Return the form of the inner layer in a form of the outer one: the same, or a bend of its own."""
    if form in of_inner:
        return form
    if form.kind is FormKind.FOLD:
        return None
    return next((f for f in of_inner if f.kind is FormKind.BEND), None)


class _Row(NamedTuple):
    """A joint through two layers, with the spots of its hole on either and its width in the outer."""

    joint: str
    outer: Point
    inner: Point
    hole_mm: float


class _Bend(NamedTuple):
    """What slides between two places across a bend."""

    apart_mm: float
    radius_mm: float | None
    angle_deg: float | None
    axis_mm: float | None

    def slide_mm(self, start_mm: float, end_mm: float) -> float | None:
        """Return the slide between two places; ``None`` where neither radius nor angle is said.

        Where the place of the axis is known only what lies in the bend counts.
        """
        most = None if self.angle_deg is None else radians(abs(self.angle_deg))
        if self.radius_mm is None:
            return None if most is None else self.apart_mm * most
        turned = (end_mm - start_mm) / self.radius_mm
        if most is None:
            return self.apart_mm * turned
        if self.axis_mm is not None:
            half_mm = self.radius_mm * most / 2
            inside = min(end_mm, self.axis_mm + half_mm) - max(start_mm, self.axis_mm - half_mm)
            turned = max(0.0, inside) / self.radius_mm
        return self.apart_mm * min(turned, most)


def _slide(
    pattern: Pattern, forms: tuple[Form, Form], pair: tuple[str, str], joints: list[Joint]
) -> LayerSlide:
    form, beneath = forms
    outer, inner = (pattern.part(part) for part in pair)
    rows = [_row(pattern, joint, pair) for joint in joints]
    across, on_outer = _across((form, outer), (beneath, inner), rows)
    placed = sorted((across.place_mm(r.outer if on_outer else r.inner), r) for r in rows)
    bend = _Bend(
        apart_mm=(outer.thickness_mm + inner.thickness_mm) / 2 + max(j.washer_mm for j in joints),
        radius_mm=beneath.radius_mm or form.radius_mm or None,
        angle_deg=form.angle_deg if form.angle_deg is not None else beneath.angle_deg,
        axis_mm=across.axis_mm,
    )
    spacings = tuple(
        Spacing(one, other, end - start, bend.slide_mm(start, end))
        for (start, one), (end, other) in pairwise(_places(placed))
    )
    (first_mm, first), (last_mm, last) = placed[0], placed[-1]
    return LayerSlide(
        forms=tuple(dict.fromkeys((form.id, beneath.id))),
        route=form.route,
        under_route=beneath.route,
        outer=outer.id,
        inner=inner.id,
        joints=tuple(row.joint for _, row in placed),
        places_mm=tuple(place_mm for place_mm, _ in placed),
        axis_mm=bend.axis_mm,
        apart_mm=bend.apart_mm,
        radius_mm=bend.radius_mm,
        angle_deg=bend.angle_deg,
        spacings=spacings,
        total_mm=bend.slide_mm(first_mm, last_mm) if spacings else 0.0,
        wider_mm=dist(first.outer, last.outer) - dist(first.inner, last.inner),
        has_axis=(form.axis or beneath.axis) is not None,
        hole_mm=min(row.hole_mm for row in rows),
    )


def _row(pattern: Pattern, joint: Joint, pair: tuple[str, str]) -> _Row:
    """Return a joint's spots on two layers that lie on each other in its stack."""
    holes = [pattern.hole(hole) for hole in joint.stack]
    outer, inner = next(two for two in pairwise(holes) if (two[0].part, two[1].part) == pair)
    return _Row(joint.id, outer.centre, inner.centre, outer.diameter_mm)


def _across(
    over: tuple[Form, Part], under: tuple[Form, Part], rows: list[_Row]
) -> tuple[Across, bool]:
    """Return the direction across the bend, and whether it is that of the outer part's drawing.

    An axis lies over one part of the drawing; of a part that lies elsewhere it tells the direction
    only. Without an axis holes are taken to lie across the bend as far as they can.
    """
    for (form, part), on_outer in ((under, False), (over, True)):
        if form.axis is not None and crosses(form.axis, part):
            across = across_axis(form.axis)
            if across is not None:
                return across, on_outer
    for (form, _), on_outer in ((over, True), (under, False)):
        across = across_axis(form.axis, lies_here=False) if form.axis is not None else None
        if across is not None:
            return across, on_outer
    return widest([row.inner for row in rows]), False


def _places(placed: list[tuple[float, _Row]]) -> Iterator[tuple[float, str]]:
    """Yield the places across a bend at which there are holes, each with its first joint."""
    last_mm = -inf
    for place_mm, row in placed:
        if place_mm - last_mm > ONE_PLACE_MM:
            yield place_mm, row.joint
            last_mm = place_mm
