"""Bends and dishes of parts that grew: their radius goes with the girth, folds stay as tight as they were."""

from collections.abc import Mapping
from dataclasses import replace

from armorplan.geometry.sizing.model import Factors
from armorplan.geometry.sizing.stretches import Stretch
from armorplan.pattern.joining import Form, FormKind
from armorplan.pattern.pattern import Pattern

_DIGITS = 3
_BY_GIRTH = frozenset({FormKind.BEND, FormKind.DISH})


def formed(
    form: Form,
    pattern: Pattern,
    factors: Mapping[str, Factors],
    stretches: Mapping[str, Stretch],
) -> Form:
    """Return a form as it is on the parts in their new size.

    Its angle stays. The middle of the leather keeps its wrapped angle, so the radius there grows as
    the part does; the radius inside is half a thickness less.
    """
    if form.axis is not None and form.parts:
        stretch = stretches[form.parts[0]]
        start, end = (stretch.at(point) for point in form.axis)
        axis = (
            (round(start[0], _DIGITS), round(start[1], _DIGITS)),
            (round(end[0], _DIGITS), round(end[1], _DIGITS)),
        )
        form = replace(form, axis=axis)
    grown = [factors[part].around for part in form.parts if part in factors]
    if form.radius_mm is None or form.kind not in _BY_GIRTH or not grown:
        return form
    half_mm = pattern.part(form.parts[0]).thickness_mm / 2
    radius_mm = (form.radius_mm + half_mm) * grown[0] - half_mm
    return replace(form, radius_mm=round(radius_mm, 1))
