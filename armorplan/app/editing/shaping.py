"""Edits of bends and folds with their axes, of strap places, and of corrections of the drawing."""

from collections.abc import Sequence
from typing import Any

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.holes import draw_from
from armorplan.app.editing.pending import Pending, an_edit
from armorplan.pattern.joining import FormKind, Route
from armorplan.pattern.parts import Point

Ends = tuple[Point, Point]


@an_edit
def add_form(
    draft: Draft,
    parts: Sequence[str],
    *,
    kind: FormKind,
    route: Route,
    ends: Ends | None = None,
    bend: tuple[float, float] | None = None,
) -> Draft | Refused:
    """Shape parts.

    Args:
        draft: the pattern.
        parts: ids.
        kind: bend, fold or dish; for a closure, which seams draw, see the form's own fields.
        route: how it is made.
        ends: two points in mm of the line it bends about.
        bend: its inner radius in mm and how far it is bent in degrees; 0 of either: not said.
    """
    pending = Pending(draft)
    radius_mm, angle_deg = bend or (0.0, 0.0)
    told: dict[str, Any] = {
        "kind": kind.value,
        "parts": list(parts),
        "route": route.value,
        "axis": _written(ends) if ends else None,
        "radius_mm": radius_mm or None,
        "angle_deg": angle_deg or None,
    }
    pending.add("forms", pending.free_id("forms", f"{parts[0]}_{kind.value}"), told)
    return pending.taken()


@an_edit
def set_axis(draft: Draft, form: str, ends: Ends) -> Draft | Refused:
    """Put the line that a form bends about between two points in mm; where it is drawn, there."""
    pending = Pending(draft)
    drawn = pending.entry("forms", form).get("axis")
    if isinstance(drawn, str):
        pending.drawings.of(drawn).move_line(drawn, ends)
    else:
        pending.put(("forms", form, "axis"), _written(ends))
    return pending.taken()


@an_edit
def set_bend(
    draft: Draft, form: str, *, radius_mm: float | None = None, angle_deg: float | None = None
) -> Draft | Refused:
    """Say how sharply and how far a form is bent; what is not given stays."""
    pending = Pending(draft)
    pending.entry("forms", form)
    for key, value in (("radius_mm", radius_mm), ("angle_deg", angle_deg)):
        if value is not None:
            pending.put(("forms", form, key), value)
    return pending.taken()


@an_edit
def drop_form(draft: Draft, form: str) -> Draft | Refused:
    """Take a form out, with the reasons that name it; a drawn axis stays drawn."""
    pending = Pending(draft)
    pending.entry("forms", form)
    pending.drop("forms", form)
    return pending.taken()


def _written(ends: Ends) -> list[list[float]]:
    return [[round(x, 3) + 0.0, round(y, 3) + 0.0] for x, y in ends]


@an_edit
def set_strap_place(
    draft: Draft,
    strap: str,
    meets: str,
    *,
    girth_mm: tuple[float, float],
    holes: Sequence[str] = (),
    place: str = "",
) -> Draft | Refused:
    """Say where a strap closes.

    Args:
        draft: the pattern.
        strap: the strap's id.
        meets: the part with its buckle.
        girth_mm: the least and the greatest girth it shall close.
        holes: the holes its buckle can take, tip first.
        place: the entry to change; empty for a new one.
    """
    pending = Pending(draft)
    told = {"strap": strap, "meets": meets, "girth_mm": list(girth_mm), "holes": list(holes)}
    if place:
        pending.entry("strap_places", place)
        for key, value in told.items():
            pending.put(("strap_places", place, key), value)
    else:
        name = pending.part(strap).name
        entry = pending.free_id("strap_places", strap)
        pending.add("strap_places", entry, {"name": name, **told})
    return pending.taken()


@an_edit
def draw_correction(draft: Draft, correction: str) -> Draft | Refused:
    """Move the holes of a correction in the drawing itself, and take the correction out.

    What is read of the pattern stays the same.
    """
    pending = Pending(draft)
    pending.entry("corrections", correction)
    told = next(each for each in pending.pattern.corrections if each.id == correction)
    across, down = told.move_mm
    for hole in told.holes:
        x, y = pending.hole(hole).centre
        drawn = pending.shift_mm(hole)
        draw_from(pending, hole, (x - drawn[0], y - drawn[1]), (across, down))
    pending.drop("corrections", correction)
    return pending.taken()
