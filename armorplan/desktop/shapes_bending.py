"""The section of a bend in mm: x across from its middle, y down the page, its centre at nought."""

from math import cos, radians, sin

from armorplan.geometry.bends.formed import section
from armorplan.geometry.pictures import BendPicture

Spot = tuple[float, float]


def spot_at(picture: BendPicture, radius_mm: float, along_deg: float) -> Spot:
    """Return a spot of a layer: on its arc, and past the end of the arc on its straight leg.

    Args:
        picture: the bend.
        radius_mm: how far from the centre that face of the layer lies on the arc.
        along_deg: degrees round the bend from its middle, clockwise.
    """
    half = picture.angle_deg / 2
    on_arc = max(-half, min(half, along_deg))
    turn = radians(on_arc)
    x, y = radius_mm * sin(turn), -radius_mm * cos(turn)
    past_mm = radians(along_deg - on_arc) * radius_mm
    return x + past_mm * cos(turn), y + past_mm * sin(turn)


def face(picture: BendPicture, radius_mm: float, at: int = -1) -> list[Spot]:
    """Return one face of a layer from the end of its first leg to the end of its second.

    Args:
        picture: the bend.
        radius_mm: how far from the centre that face lies on the arc.
        at: place of the layer from the outside; usually the innermost.
    """
    return section(radius_mm, picture.angle_deg, picture.layers[at].legs_mm or picture.legs_mm)


def radii(picture: BendPicture) -> list[tuple[float, float]]:
    """Return inner and outer radius of each layer in mm, the outermost first."""
    found = []
    inner = picture.radius_mm
    for layer in reversed(picture.layers):
        found.append((inner, inner + layer.thick_mm))
        inner += layer.thick_mm
    return list(reversed(found))


def outlines(picture: BendPicture) -> list[list[Spot]]:
    """Return the section of each layer as a closed ring, the outermost first."""
    return [
        [*face(picture, outer, at), *reversed(face(picture, inner, at))]
        for at, (inner, outer) in enumerate(radii(picture))
    ]


def formed_size(picture: BendPicture) -> tuple[float, float]:
    """Return how wide and how high the bent section is, in mm, legs and all."""
    xs, ys = zip(*(spot for ring in outlines(picture) for spot in ring), strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def slide_mm(picture: BendPicture) -> float:
    """Return by how much the outermost holes of the two rows part, in mm on the outer layer."""
    pairs = list(zip(picture.outer_deg, picture.inner_deg, strict=False))
    if not pairs or not picture.layers:
        return 0.0
    inner, outer = radii(picture)[0]
    return max(abs(radians(o - i)) for o, i in pairs) * (inner + outer) / 2
