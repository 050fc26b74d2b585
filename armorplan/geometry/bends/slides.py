"""Layers that are bent together slide on each other: by how much, between which joints.

Two layers whose middles lie ``d`` apart, bent to an inner radius ``R``: between two fasteners
across the bend the outer layer has ``d / R`` of their spacing further to go, and ``d`` times the
angle in all (circle geometry). A row along the axis of the bend does not slide.
"""

from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from armorplan.geometry.bends.arcs import Bend, each_made_for_bent, made_for_bent
from armorplan.geometry.bends.kinds import BENT_KINDS
from armorplan.geometry.bends.layers import Lifts, lifted, lifts
from armorplan.geometry.bends.rows import across_of, longer_mm, places_of, row_of
from armorplan.pattern.joining import Form, FormKind, Joint, JointKind, Motion, Route
from armorplan.pattern.pattern import Pattern

_LEAST_JOINTS = 2


class Spacing(NamedTuple):
    """Two joints that are neighbours across a bend.

    Attributes:
        spacing_mm: how far apart they are, measured across the bend.
        slide_mm: how far the outer layer slides between them; ``None``: the pattern does not tell.
        longer_mm: how much longer the spacing is drawn on the outer layer, across the bend.
    """

    one: str
    other: str
    spacing_mm: float
    slide_mm: float | None
    longer_mm: float


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
        own_radius_mm: inner radius of the outer layer, where a form of its own says it.
        angle_deg: how far it is bent; ``None``: not said.
        spacings: neighbours across the bend; empty where the row lies along it.
        total_mm: how far the holes come apart from the first to the last; ``None``: not told.
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
    own_radius_mm: float | None
    angle_deg: float | None
    spacings: tuple[Spacing, ...]
    total_mm: float | None
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
    def wider_mm(self) -> float:
        """How much longer the outer row is than the inner one, across the bend as drawn."""
        return sum(spacing.longer_mm for spacing in self.spacings)

    @property
    def along(self) -> bool:
        """Whether the row lies along the axis of the bend."""
        return not self.spacings

    @property
    def wider(self) -> bool:
        """Whether the outer row is made for the bent state: longer by the slide in each spacing.

        Where the radius is not known only the whole can be held against the bend.
        """
        slid = [s.slide_mm for s in self.spacings if s.slide_mm is not None]
        if len(slid) == len(self.spacings):
            return each_made_for_bent([s.longer_mm for s in self.spacings], slid)
        return self.total_mm is not None and made_for_bent(self.wider_mm, self.total_mm)

    @property
    def parted_mm(self) -> tuple[float, ...]:
        """How far each hole of the outer row comes to lie behind its own of the inner one, in mm.

        Punched flat, and fixed so that the ends part alike: by half of what is slid in all, less
        what the outer row is longer by. Holes are in their order across the bend, and those before
        the middle lie behind on its other side: below nought. Empty where the slide is not known.
        """
        if self.total_mm is None or not self.spacings:
            return ()
        first_mm, last_mm = self.places_mm[0], self.places_mm[-1]
        found: list[float] = []
        for place_mm in self.places_mm:
            slid_mm = self._bend.slide_mm(first_mm, place_mm) or 0.0
            share = (place_mm - first_mm) / (last_mm - first_mm) - 0.5
            found.append(slid_mm - self.total_mm / 2 - self.wider_mm * share)
        return tuple(found)

    def between_mm(self, one: str, other: str) -> float | None:
        """Return how far the outer layer slides between two of its joints, in mm."""
        at = sorted(self.places_mm[self.joints.index(joint)] for joint in (one, other))
        return self._bend.slide_mm(*at)

    @property
    def _bend(self) -> Bend:
        return Bend(self.apart_mm, self.radius_mm, self.angle_deg, self.axis_mm)


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
    by = lifts(pattern)
    found: list[LayerSlide] = []
    for pair, joints in layers.items():
        for form in of_part[pair[0]]:
            beneath = _beneath(form, of_part[pair[1]])
            if beneath is not None:
                radius_mm = _radius_mm(form, (beneath, pair[1]), by)
                found.append(_slide(pattern, (form, beneath), pair, joints, radius_mm))
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


def _radius_mm(form: Form, under: tuple[Form, str], by: Lifts) -> float | None:
    """Return the radius to which the inner layer comes, by its own form or that of the outer one."""
    beneath, inner = under
    return lifted(beneath, inner, by).radius_mm or form.radius_mm or None


def _slide(
    pattern: Pattern,
    forms: tuple[Form, Form],
    pair: tuple[str, str],
    joints: list[Joint],
    radius_mm: float | None,
) -> LayerSlide:
    form, beneath = forms
    outer, inner = (pattern.part(part) for part in pair)
    rows = [row_of(pattern, joint, pair) for joint in joints]
    across, on_outer = across_of((form, outer), (beneath, inner), rows)
    placed = sorted((across.place_mm(r.outer if on_outer else r.inner), r) for r in rows)
    bend = Bend(
        apart_mm=(outer.thickness_mm + inner.thickness_mm) / 2 + max(j.washer_mm for j in joints),
        radius_mm=radius_mm,
        angle_deg=form.angle_deg if form.angle_deg is not None else beneath.angle_deg,
        axis_mm=across.axis_mm,
    )
    longer = longer_mm(placed, across, (outer, inner), on_outer=on_outer)
    spacings = tuple(
        Spacing(one, other, end - start, bend.between_mm(start, end), by_mm)
        for ((start, one), (end, other)), by_mm in zip(
            pairwise(places_of(placed)), longer, strict=True
        )
    )
    first_mm, last_mm = placed[0][0], placed[-1][0]
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
        own_radius_mm=None if form is beneath or not beneath.radius_mm else form.radius_mm,
        angle_deg=bend.angle_deg,
        spacings=spacings,
        total_mm=bend.slide_mm(first_mm, last_mm) if spacings else 0.0,
        has_axis=(form.axis or beneath.axis) is not None,
        hole_mm=min(row.hole_mm for row in rows),
    )
