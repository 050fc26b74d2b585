"""To what radius each layer of a bend comes: what lies under it in the same bend holds it off."""

from dataclasses import replace

from armorplan.geometry.bends.kinds import BENT_KINDS
from armorplan.pattern.joining import Form
from armorplan.pattern.pattern import Pattern

Lifts = dict[tuple[str, str], float]
"""By the ids of a form and a part, how thick what lies under the part in that bend is, in mm."""


def lifts(pattern: Pattern) -> Lifts:
    """Return how far each layer of a bend is held off by those under it, where the bend has some.

    A form says one inner radius: that of its innermost layer.
    """
    forms = [f for f in pattern.forms if f.kind in BENT_KINDS and f.radius_mm is not None]
    of_part: dict[str, list[Form]] = {}
    for form in forms:
        for part in form.parts if len(form.parts) > 1 else ():
            of_part.setdefault(part, []).append(form)
    found: Lifts = {}
    for joint in pattern.joints if of_part else ():
        layers = pattern.stack_parts(joint.id)
        for at, part in enumerate(layers):
            for form in of_part.get(part, ()):
                under = [p for p in dict.fromkeys(layers[at + 1 :]) if p in form.parts]
                if part not in under and under:
                    thick_mm = sum(pattern.part(p).thickness_mm for p in under) + joint.washer_mm
                    key = form.id, part
                    found[key] = max(found.get(key, 0.0), thick_mm)
    return found


def lifted(form: Form, part: str, by: Lifts) -> Form:
    """Return a form as one of its layers is bent: to its radius and what lies under it."""
    lift_mm = by.get((form.id, part), 0.0)
    if form.radius_mm is None or not lift_mm:
        return form
    return replace(form, radius_mm=form.radius_mm + lift_mm)
