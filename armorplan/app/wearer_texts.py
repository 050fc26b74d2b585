"""Writes a pattern in another size: its tables changed key by key, its drawings drawn anew."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from math import copysign
from typing import Any

from armorplan.files.corrections import move_words
from armorplan.files.sized_drawing import Resized, resized
from armorplan.files.source import PATTERN_FILE
from armorplan.files.toml_lines import KeyPath
from armorplan.files.toml_patch import Change
from armorplan.geometry.sizing.drafted import Drafted
from armorplan.geometry.sizing.model import AddedJoint, Sized
from armorplan.geometry.sizing.stretches import middle_of
from armorplan.pattern.parts import Hole, Point, heading
from armorplan.pattern.pattern import Pattern

_MM2_PER_CM2 = 100.0
_LEAST_MM = 5.0
"""So far from the edges of the page everything lies at least."""
_LISTS = (
    ("parts", "hides"),
    ("threads", "closed_by"),
    ("hardware", "held_by"),
    ("seams", "joints"),
)
"""Where tables name joints in lists."""
Values = Mapping[str, Any]


def sized_drawings(
    texts: Mapping[str, str], values: Values, before: Pattern, drafted: Drafted, *, title: str
) -> dict[str, str]:
    """Return the drawings of a pattern in another size, by file.

    Args:
        texts: its files as they are.
        values: the tables of its pattern file.
        before: as it was drawn.
        drafted: in its new size.
        title: what the new drawings are called.

    Raises:
        ArmorplanError: a drawing cannot be read.
    """
    changes = _resized(values, before, drafted, _shifts(before, drafted.sized))
    return {
        name: resized(name, text, changes, title=title)
        for name, text in texts.items()
        if name != PATTERN_FILE
    }


def sized_changes(values: Values, before: Pattern, sized: Sized) -> Iterator[Change]:
    """Yield what changes in the tables of a pattern in another size.

    Args:
        values: the tables of its pattern file.
        before: as it was drawn.
        sized: in its new size.
    """
    for path, value in _keys(values, before, sized, _shifts(before, sized)):
        yield Change(path=path, value=value)
    for joint in sized.dropped:
        yield Change(path=("joints", joint), value=None)
    for added in sized.added:
        like = {**values["joints"][added.like], "stack": list(added.stack)}
        yield Change(path=("joints", added.id), value=like, is_new=True)
    yield from _declared(values.get("holes", {}), before, sized)
    for correction in before.corrections:
        yield Change(path=("corrections", correction.id), value=None)


def _declared(tables: Values, before: Pattern, sized: Sized) -> Iterator[Change]:
    """Yield the tables of holes that went, and of new ones made like holes that have one."""
    for hole in sorted(_gone_holes(before, sized) & tables.keys()):
        yield Change(path=("holes", hole), value=None)
    for added in sized.added:
        for new, hole in zip(added.stack, before.joint(added.like).stack, strict=True):
            if hole in tables:
                yield Change(path=("holes", new), value=tables[hole], is_new=True)


def corrections_told(before: Pattern) -> tuple[str, ...]:
    """Return, as sentences, the known corrections that the new drawing holds already."""
    return tuple(
        f"{each.name}: {', '.join(each.holes)} moved {move_words(each.move_mm)} in the drawing itself."
        for each in before.corrections
    )


def _shifts(before: Pattern, sized: Sized) -> dict[str, Point]:
    """Return by how much each part moves on the page, so that larger ones have room."""
    share = 1.0
    for one in sized.parts:
        for was, now in zip(one.before_mm, one.after_mm, strict=True):
            share = max(share, now / was if was else 1.0)
    found: dict[str, Point] = {}
    for part in before.parts:
        x, y = middle_of(part.outline)
        found[part.id] = ((share - 1) * x, (share - 1) * y)
    corners = [
        (x + found[part.id][0], y + found[part.id][1])
        for part in sized.pattern.parts
        for x, y in part.outline
    ]
    right, down = (max(0.0, _LEAST_MM - min(corner[n] for corner in corners)) for n in (0, 1))
    return {part: (x + right, y + down) for part, (x, y) in found.items()}


def _moved(at: Callable[[Point], Point], by: Point) -> Callable[[Point], Point]:
    def moved(spot: Point) -> Point:
        x, y = at(spot)
        return x + by[0], y + by[1]

    return moved


def _as_it_is(spot: Point) -> Point:
    return spot


def _resized(
    values: Values, before: Pattern, drafted: Drafted, shifts: Mapping[str, Point]
) -> Resized:
    sized, slots = drafted.sized, dict[str, Callable[[Point], Point]]()
    holes: dict[str, Hole] = {}
    for hole in sized.holes.values():
        by = shifts[hole.part]
        x, y = hole.centre
        if hole.travel_mm:
            slots[hole.id] = _moved(_slid(before.hole(hole.id), hole), by)
        else:
            holes[hole.id] = replace(hole, centre=(x + by[0], y + by[1]))
    for part in sized.pattern.parts:
        by = shifts[part.id]
        for slot in part.slots:
            (x, y), (was_x, was_y) = slot.outline[0], before.slot(slot.id).outline[0]
            slots[slot.id] = _moved(_as_it_is, (x - was_x + by[0], y - was_y + by[1]))
    tables = values.get("parts", {})
    gone = {hole for joint in sized.dropped for hole in before.joint(joint).stack}
    return Resized(
        outlines={tables.get(p.id, {}).get("outline", p.id): p.id for p in before.parts},
        rings={part.id: part.outline for part in before.parts},
        stretches={
            part: _moved(stretch.at, shifts[part]) for part, stretch in drafted.stretches.items()
        },
        holes=holes,
        slots=slots,
        axes=_axes(values),
        gone=gone,
    )


def _slid(was: Hole, now: Hole) -> Callable[[Point], Point]:
    """Return where the outline of a slot comes to lie that moves, and grows between its ends."""
    way, (x, y), (to_x, to_y) = heading(was.travel_deg), was.centre, now.centre
    half = (now.travel_mm - was.travel_mm) / 2

    def moved(spot: Point) -> Point:
        along = (spot[0] - x) * way[0] + (spot[1] - y) * way[1]
        more = copysign(half, along) if along else 0.0
        return spot[0] - x + to_x + more * way[0], spot[1] - y + to_y + more * way[1]

    return moved


def _axes(values: Values) -> dict[str, str]:
    """Return by id of a drawn line the part whose form bends about it."""
    found: dict[str, str] = {}
    for form in values.get("forms", {}).values():
        if isinstance(form.get("axis"), str) and form.get("parts"):
            found[form["axis"]] = form["parts"][0]
    return found


# --- the tables -----------------------------------------------------------------------------------


def _keys(
    values: Values, before: Pattern, sized: Sized, shifts: Mapping[str, Point]
) -> Iterator[tuple[KeyPath, Any]]:
    yield from _forms(values, before, sized, shifts)
    yield from _joints(before, sized)
    yield from _lists(values, before, sized)


def _forms(
    values: Values, before: Pattern, sized: Sized, shifts: Mapping[str, Point]
) -> Iterator[tuple[KeyPath, Any]]:
    for was, now in zip(before.forms, sized.pattern.forms, strict=True):
        if now.radius_mm != was.radius_mm:
            yield ("forms", now.id, "radius_mm"), now.radius_mm
        written = values.get("forms", {}).get(now.id, {}).get("axis")
        if isinstance(written, list) and now.axis is not None:
            moved = _moved(_as_it_is, shifts[now.parts[0]])
            ends = [[round(value, 3) for value in moved(end)] for end in now.axis]
            yield ("forms", now.id, "axis"), ends


def _joints(before: Pattern, sized: Sized) -> Iterator[tuple[KeyPath, Any]]:
    kept = {joint.id: joint for joint in sized.pattern.joints}
    for was in before.joints:
        now = kept.get(was.id, was)
        if now.length_mm != was.length_mm:
            yield ("joints", was.id, "length_mm"), now.length_mm
        if now.area_mm2 is not None and now.area_mm2 != was.area_mm2:
            yield ("joints", was.id, "area_cm2"), round(now.area_mm2 / _MM2_PER_CM2, 2)


def _lists(values: Values, before: Pattern, sized: Sized) -> Iterator[tuple[KeyPath, Any]]:
    """Yield each list of joints as it is now: without what is gone, with what came behind its like."""
    rows = {row.seam: row.joints for row in sized.rows if row.seam}
    for table, key in _LISTS:
        for entry, told in values.get(table, {}).items():
            was = told.get(key)
            if not isinstance(was, list):
                continue
            now = _listed(was, sized)
            if table == "seams" and entry in rows:
                now = list(rows[entry])
            if now != was:
                yield (table, entry, key), now
    holes = _gone_holes(before, sized)
    for entry, told in values.get("strap_places", {}).items():
        was = told.get("holes")
        if isinstance(was, list) and holes.intersection(was):
            yield ("strap_places", entry, "holes"), [hole for hole in was if hole not in holes]


def _listed(was: list[str], sized: Sized) -> list[str]:
    found: list[str] = []
    for joint in was:
        if joint not in sized.dropped:
            found.append(joint)
        # A new joint stands where both of its neighbours are meant.
        found += [new.id for new in _behind(joint, sized) if _both_in(new, was, sized)]
    return found


def _behind(joint: str, sized: Sized) -> Iterator[AddedJoint]:
    for new in sized.added:
        if new.after == joint:
            yield new
            yield from _behind(new.id, sized)


def _both_in(new: AddedJoint, names: list[str], sized: Sized) -> bool:
    row = next(row.joints for row in sized.rows if row.seam == new.seam)
    fresh = {one.id for one in sized.added}
    at = row.index(new.id)
    before = next((one for one in reversed(row[:at]) if one not in fresh), "")
    after = next((one for one in row[at + 1 :] if one not in fresh), "")
    return before in names and after in names


def _gone_holes(before: Pattern, sized: Sized) -> set[str]:
    return {hole for joint in sized.dropped for hole in before.joint(joint).stack}
