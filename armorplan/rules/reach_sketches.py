"""Small tubes and cups for the examples of the rules of reach."""

from collections.abc import Iterable
from dataclasses import replace
from math import cos, pi, sin

from armorplan.pattern.joining import Seam
from armorplan.pattern.parts import Part, PartKind, Point
from armorplan.pattern.pattern import Pattern
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet

_WIDE_MM = 300.0
_IN_MM = 10.0
_ARC = 24


def _shaped(part_id: str, outline: Iterable[Point], holes: dict[str, Point]) -> Part:
    return replace(sketch_part(part_id, holes=holes), outline=tuple(outline))


def _closed(plate: Part, count: int, strap_at: Point | None) -> Pattern:
    """Return a plate closed on itself by a row, with a strap riveted to it at a spot."""
    joints = tuple(sketch_rivet(f"row_{n}", f"a{n}", f"b{n}") for n in range(count))
    seam = Seam(id="row", name="back row", joints=tuple(each.id for each in joints))
    if strap_at is None:
        return sketch(plate, joints=joints, seams=(seam,))
    on = sketch_part("plate", holes={"p": strap_at}).holes
    strap = sketch_part("strap", kind=PartKind.STRAP, holes={"s": (8.0, 20.0)})
    return sketch(
        replace(plate, holes=(*plate.holes, *on)),
        strap,
        joints=(*joints, sketch_rivet("on", "s", "p")),
        seams=(seam,),
    )


def sketch_tube(*, long_mm: float, spots_mm: tuple[float, ...], strap_mm: float | None) -> Pattern:
    """Return a tube of 280 mm round, closed by a row, a strap riveted opposite it.

    Args:
        long_mm: from mouth to mouth.
        spots_mm: where its rivets sit, from one mouth.
        strap_mm: where the strap sits, from the same mouth; ``None``: there is none.
    """
    outline = ((0.0, 0.0), (_WIDE_MM, 0.0), (_WIDE_MM, long_mm), (0.0, long_mm))
    holes = {f"a{n}": (_IN_MM, y) for n, y in enumerate(spots_mm)}
    holes |= {f"b{n}": (_WIDE_MM - _IN_MM, y) for n, y in enumerate(spots_mm)}
    at = None if strap_mm is None else (_WIDE_MM / 2, strap_mm)
    return _closed(_shaped("plate", outline, holes), len(spots_mm), at)


def sketch_cone(*, deep_mm: float, angle_deg: float, spots_mm: tuple[float, ...]) -> Pattern:
    """Return a sector closed to a cone by a row.

    Args:
        deep_mm: from its tip to its mouth, along the leather.
        angle_deg: of the sector laid flat.
        spots_mm: where its rivets sit, from the tip.
    """
    angle = angle_deg * pi / 180

    def at(radius_mm: float, turn: float, in_mm: float = 0.0) -> Point:
        x, y = radius_mm * cos(turn), radius_mm * sin(turn)
        return (x - in_mm * sin(turn), y + in_mm * cos(turn))

    arc = [at(deep_mm, angle * n / _ARC) for n in range(_ARC + 1)]
    half = _IN_MM / 2
    holes = {f"a{n}": at(r, 0.0, half) for n, r in enumerate(spots_mm)}
    holes |= {f"b{n}": at(r, angle, -half) for n, r in enumerate(spots_mm)}
    return _closed(_shaped("plate", ((0.0, 0.0), *arc), holes), len(spots_mm), None)
