"""Whether the forms of a shell's plates leave it in doubt that it curves outwards everywhere.

One bend, a dish, a cup drawn by its seams, a tube: all curve outwards. Two bends of one plate do
so where they run the same way round lines that are parallel; across each other they make a saddle.
"""

from collections import defaultdict
from collections.abc import Iterable
from itertools import combinations
from math import atan2, degrees

from armorplan.pattern.joining import Form, FormKind

_PARALLEL_DEG = 10.0
_BENT = (FormKind.BEND, FormKind.FOLD)


def is_doubtful(forms: Iterable[Form], parts: set[str]) -> bool:
    """Tell whether two bends of one plate cross, turn unlike ways, or tell no line."""
    bends: dict[str, list[Form]] = defaultdict(list)
    for form in forms:
        for part in form.parts:
            if form.kind in _BENT and part in parts:
                bends[part].append(form)
    return any(
        _unlike(one, other) for held in bends.values() for one, other in combinations(held, 2)
    )


def _unlike(one: Form, other: Form) -> bool:
    if one.axis is None or other.axis is None:
        return True
    if (one.angle_deg or 0.0) * (other.angle_deg or 0.0) < 0:
        return True
    apart = abs(_direction_deg(one) - _direction_deg(other)) % 180.0
    return min(apart, 180.0 - apart) > _PARALLEL_DEG


def _direction_deg(form: Form) -> float:
    if form.axis is None:
        return 0.0
    (x0, y0), (x1, y1) = form.axis
    return degrees(atan2(y1 - y0, x1 - x0))
