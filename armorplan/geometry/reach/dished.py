"""How wide a mouth may be whose plates are dished: no wider than the ball they are dished to."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from math import pi

from armorplan.geometry.reach.part_net import leather
from armorplan.pattern.joining import Form, FormKind
from armorplan.pattern.parts import Ring

HELD = 1.25
"""Plates with more leather than so many halves of the ball are dished in one place only, if at all."""


def balls(forms: Iterable[Form], parts: set[str]) -> tuple[tuple[str, float], ...]:
    """Return by plate how wide the ball is that it is dished to, in mm: twice the largest radius."""
    found: dict[str, float] = defaultdict(float)
    for form in forms:
        for part in parts.intersection(form.parts):
            if form.kind is FormKind.DISH and form.radius_mm is not None and form.radius_mm > 0:
                found[part] = max(found[part], 2 * form.radius_mm)
    return tuple(sorted(found.items()))


def ball_mm(rings: Mapping[str, Ring], wide: Mapping[str, float]) -> float | None:
    """Return how wide a mouth may be at most, in mm; ``None`` where no ball tells.

    Args:
        rings: outlines of the plates along the mouth, by their ids.
        wide: by plate, the width of its ball.
    """
    if not rings or not wide.keys() >= rings.keys():
        return None
    widest_mm = max(wide[part] for part in rings)
    held_mm2 = sum(whole.area.area for ring in rings.values() if (whole := leather(ring)))
    return widest_mm if held_mm2 <= HELD * pi * widest_mm**2 / 2 else None
