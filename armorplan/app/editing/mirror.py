"""A piece drawn for the right turned into the left one that a mirrored piece is drawn as."""

from collections.abc import Iterator
from typing import Any

from fontTools.misc.transform import Identity, Transform

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.parts import outline_of, plain_deg
from armorplan.app.editing.pending import NotTakenError, Pending, an_edit
from armorplan.geometry.areas import ring_shape
from armorplan.pattern.parts import Hole, Part, Point
from armorplan.pattern.pattern import Pattern

_UPRIGHT = 90.0


@an_edit
def turned_over(draft: Draft, piece: str) -> Draft | Refused:
    """Turn over all parts of a piece where they lie in the drawing, with all that is drawn in them.

    So a piece that was drawn for the right becomes the left one. Where up and the backbone lie,
    the axes of bends and the ways of corrections turn with it; which face is drawn and which layer
    lies outside stay. Parts that are copied, such as letters, are not turned. Turning over twice
    changes nothing.
    """
    pending = Pending(draft)
    pending.entry("pieces", piece)
    parts = [part for part in pending.pattern.parts if part.piece == piece and not part.copied]
    if not parts:
        text = f'No part of "{piece}" can be turned over.'
        raise NotTakenError(text, "Choose a piece with parts that are not copied.")
    turn_parts(pending, parts)
    return pending.taken()


def turn_parts(pending: Pending, parts: list[Part]) -> None:
    """Turn over parts where they lie, with what is drawn in them and said of them."""
    middles = middles_mm(parts)
    for part in parts:
        _turn_drawn(pending, part, middles[part.id])
        told = dict(pending.entry("parts", part.id))
        turn_facts(told, part)
        for key in ("up_deg", "backbone_deg"):
            if told.get(key) != pending.entry("parts", part.id).get(key):
                pending.put(("parts", part.id, key), told.get(key))
    _turn_axes(pending, {part.id: middles[part.id] for part in parts})
    _turn_corrections(pending, {hole.id for part in parts for hole in part.holes})


def middles_mm(parts: list[Part]) -> dict[str, float]:
    """Return the line, by its x in mm, that each part is turned over about: its own middle.

    A part drawn within another turns about that one's, so that it stays within it.
    """
    boxes = {part.id: _box(part) for part in parts}
    found: dict[str, float] = {}
    for part in sorted(parts, key=lambda each: -ring_shape(each.outline).area):
        left, top, right, bottom = boxes[part.id]
        host = next(
            (
                other
                for other, (x0, y0, x1, y1) in boxes.items()
                if other in found and x0 <= left and right <= x1 and y0 <= top and bottom <= y1
            ),
            None,
        )
        found[part.id] = found[host] if host else round(left + right, 3) / 2
    return found


def _box(part: Part) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in part.outline], [y for _, y in part.outline]
    return min(xs), min(ys), max(xs), max(ys)


def over(middle_mm: float) -> Transform:
    """Return the motion that turns the page over about an upright line."""
    return Identity.translate(2 * middle_mm, 0.0).scale(-1, 1)


def _turn_drawn(pending: Pending, part: Part, middle_mm: float) -> None:
    outline = outline_of(pending, part.id)
    named = {outline, *(slot.id for slot in part.slots)}
    holes = {hole.id: hole for hole in part.holes}
    for hole in holes.values():
        _turn_hole(pending, hole, middle_mm)
    patch = pending.drawings.of(outline)
    for shape in named:
        pending.drawings.of(shape).lay(shape, over(middle_mm))
    others = {axis for axis, _ in _drawn_axes(pending, {part.id})} | _foreign(
        pending.pattern, part
    )
    patch.lay_within(part.outline, over(middle_mm), named | set(holes) | others)


def _foreign(pattern: Pattern, part: Part) -> set[str]:
    """Return the ids of shapes that belong to other parts."""
    return {
        shape
        for other in pattern.parts
        if other.id != part.id
        for shape in (other.id, *(h.id for h in other.holes), *(s.id for s in other.slots))
    }


def _turn_hole(pending: Pending, hole: Hole, middle_mm: float) -> None:
    patch, across = pending.drawings.of(hole.id), pending.shift_mm(hole.id)
    if patch.is_round(hole.id):
        x, y = hole.centre[0] - across[0], hole.centre[1] - across[1]
        patch.move_circle(hole.id, (2 * middle_mm - x, y))
    else:
        patch.lay(hole.id, over(middle_mm))


def turn_facts(told: dict[str, Any], part: Part) -> None:
    """Turn over where up and the backbone lie in what is written of a part."""
    up = plain_deg(180.0 - part.up_deg)
    if up != plain_deg(part.up_deg):
        told["up_deg"] = up
        if up == plain_deg(_UPRIGHT):
            del told["up_deg"]
    if part.backbone_deg is not None:
        bone = plain_deg(180.0 - part.backbone_deg)
        if bone != plain_deg(part.backbone_deg):
            told["backbone_deg"] = bone


def _drawn_axes(pending: Pending, parts: set[str]) -> Iterator[tuple[str, str]]:
    """Yield the drawn lines that parts bend about, each with its form."""
    for form, told in pending.values.get("forms", {}).items():
        if isinstance(told.get("axis"), str) and not parts.isdisjoint(told.get("parts", ())):
            yield told["axis"], form


def _turn_axes(pending: Pending, middles: dict[str, float]) -> None:
    for form in pending.pattern.forms:
        own = [part for part in form.parts if part in middles]
        if form.axis is None or not own:
            continue
        middle = middles[_nearest(pending.pattern, own, form.axis)]
        written = pending.entry("forms", form.id)["axis"]
        if isinstance(written, str):
            pending.drawings.of(written).lay(written, over(middle))
        else:
            ends = [[round(2 * middle - x, 3) + 0.0, y] for x, y in form.axis]
            pending.put(("forms", form.id, "axis"), ends)


def _nearest(pattern: Pattern, parts: list[str], axis: tuple[Point, Point]) -> str:
    """Return the part that an axis is drawn in, or nearest to."""
    from shapely import LineString

    line = LineString(axis)
    return min(parts, key=lambda part: ring_shape(pattern.part(part).outline).distance(line))


def _turn_corrections(pending: Pending, holes: set[str]) -> None:
    for correction in pending.pattern.corrections:
        if holes.isdisjoint(correction.holes):
            continue
        if not holes.issuperset(correction.holes):
            text = f'The correction "{correction.name}" moves holes of other pieces as well.'
            raise NotTakenError(text, "Move its holes in the drawing itself first.")
        across, down = correction.move_mm
        if across:
            pending.put(("corrections", correction.id, "move_mm"), [-across, down])
