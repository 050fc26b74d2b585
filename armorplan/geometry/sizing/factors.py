"""How much each part grows: heights by lengths, widths by girths, each layer by its own.

A layer that lies t farther out is longer by φ·t round the wrapped angle φ, whatever the girth is: so
every layer grows by the same length, and the outer one by the smaller factor.
"""

from collections.abc import Collection, Mapping
from itertools import pairwise
from math import pi
from types import MappingProxyType

from armorplan.geometry.sizing.model import Factors, WantedBy
from armorplan.pattern.joining import Form, FormKind
from armorplan.pattern.parts import Part, PartKind
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.sizing import Scaling

NOBODY: Mapping[str, WantedBy] = MappingProxyType({})
"""No part follows measures of its own."""
LENGTHENED = frozenset({PartKind.STRAP, PartKind.KEEPER})
"""Their width is that of a buckle or slot: only their length follows."""
_LEAST_INSIDE = 0.3
"""Inside of all layers at least this share of a bend's radius is left for the limb."""


def factors_of(
    pattern: Pattern, wanted: WantedBy, apart: Mapping[str, WantedBy] = NOBODY
) -> dict[str, Factors]:
    """Return the factors of each part that follows a measure, by its id.

    Args:
        pattern: as it was drawn.
        wanted: the measures.
        apart: by part, other measures that it follows.
    """
    scaled = [part for scaling in pattern.scalings for part in scaling.parts]
    lifts = lifts_mm(pattern, scaled)
    found: dict[str, Factors] = {}
    for scaling in pattern.scalings:
        for part_id in scaling.parts:
            part = pattern.part(part_id)
            found[part_id] = _factors(
                part, scaling, apart.get(part_id, wanted), lifts[part_id], _bend(pattern, part)
            )
    return found


def _factors(
    part: Part, scaling: Scaling, wanted: WantedBy, lift_mm: float, bend: Form | None
) -> Factors:
    along = wanted[scaling.along].ratio if scaling.along in wanted else 1.0
    around = 1.0
    if scaling.around in wanted:
        girth = wanted[scaling.around]
        inside_mm = girth.drawn_mm / (2 * pi)
        if bend is not None and bend.radius_mm is not None:
            middle_mm = bend.radius_mm + part.thickness_mm / 2
            inside_mm = max(middle_mm - lift_mm, _LEAST_INSIDE * middle_mm)
        around = layer_factor(girth.ratio, inside_mm=inside_mm, lift_mm=lift_mm)
    return Factors(along=along, around=around, lift_mm=lift_mm)


def layer_factor(ratio: float, *, inside_mm: float, lift_mm: float) -> float:
    """Return by how much a layer lengthens where the girth inside it grows by ``ratio``.

    Args:
        ratio: of the girths inside.
        inside_mm: radius of what the girth was measured on.
        lift_mm: from there to the middle of the layer.
    """
    return (ratio * inside_mm + lift_mm) / (inside_mm + lift_mm)


def _bend(pattern: Pattern, part: Part) -> Form | None:
    """Return the bend that wraps a part round the limb."""
    return next(
        (
            form
            for form in pattern.forms
            if form.kind is FormKind.BEND and part.id in form.parts and form.radius_mm
        ),
        None,
    )


def lifts_mm(pattern: Pattern, scaled: Collection[str]) -> dict[str, float]:
    """Return how far the middle of each part lies outside of the limb, over the layers inside it.

    The stacks of joints say what lies inside of what. Where they go round in a ring, as a plate that
    is closed on itself does, each part counts once.
    """
    inside = _inside(pattern, frozenset(scaled))
    thick = {part: pattern.part(part).thickness_mm for part in inside}

    found: dict[str, float] = {}

    def under_mm(part: str, above: tuple[str, ...]) -> float:
        if part in above:
            return 0.0
        if part not in found:
            below = sorted(inside[part])
            steps = (thick[one] + under_mm(one, (*above, part)) for one in below)
            found[part] = max(steps, default=0.0)
        return found[part]

    return {part: under_mm(part, ()) + thick[part] / 2 for part in inside}


def _inside(pattern: Pattern, scaled: frozenset[str]) -> Mapping[str, set[str]]:
    """Return which scaled parts lie right inside of each, straps not counted as layers."""
    found: dict[str, set[str]] = {part: set() for part in sorted(scaled)}
    for joint in pattern.joints:
        layers = [part for part in pattern.stack_parts(joint.id) if part in scaled]
        layers = [one for one in layers if pattern.part(one).kind not in LENGTHENED]
        for outer, inner in pairwise(layers):
            if outer != inner and outer not in found[inner]:
                found[outer].add(inner)
    return found
