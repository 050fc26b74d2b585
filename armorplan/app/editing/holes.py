"""Edits of holes: where they lie, how wide they are, new ones, and those that go."""

from collections.abc import Collection

from fontTools.misc.transform import Identity

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.pending import NotTakenError, Pending, an_edit, check_id
from armorplan.app.editing.references import What
from armorplan.files.faults import listed
from armorplan.pattern.parts import Hole, Part, Point

_LEAST_MM, _MOST_MM = 0.5, 60.0


@an_edit
def move_holes(draft: Draft, holes: Collection[str], by_mm: Point) -> Draft | Refused:
    """Move holes on the page, right and down in mm; slots that joints slide in are holes too."""
    pending = Pending(draft)
    for hole in dict.fromkeys(holes):
        x, y = pending.hole(hole).centre
        put_hole(pending, hole, (x + by_mm[0], y + by_mm[1]))
    return _in_their_parts(pending, holes)


@an_edit
def set_hole(
    draft: Draft, hole: str, *, centre: Point | None = None, diameter_mm: float | None = None
) -> Draft | Refused:
    """Put a hole's centre at a place on the page in mm, and give it a diameter in mm."""
    pending = Pending(draft)
    put_hole(pending, hole, centre or pending.hole(hole).centre, diameter_mm)
    return _in_their_parts(pending, [hole])


@an_edit
def put_holes(draft: Draft, places: dict[str, Point]) -> Draft | Refused:
    """Put holes at places on the page in mm, each at its own."""
    pending = Pending(draft)
    for hole, place in places.items():
        put_hole(pending, hole, place)
    return _in_their_parts(pending, places)


@an_edit
def add_hole(
    draft: Draft, part: str, centre: Point, *, diameter_mm: float, hole: str = ""
) -> Draft | Refused:
    """Draw a new round hole in a part.

    Args:
        draft: the pattern.
        part: the part it lies in.
        centre: its place on the page in mm.
        diameter_mm: its diameter.
        hole: its id; empty: ``free_hole`` gives it one.
    """
    pending = Pending(draft)
    name = hole or free_hole(draft, part)
    draw_hole(pending, pending.part(part), name, (*centre, diameter_mm))
    return in_part(pending, {name: part})


def free_hole(draft: Draft, part: str) -> str:
    """Return the id that the next hole of a part gets."""
    return next_hole(Pending(draft), part, ())


def next_hole(pending: Pending, part: str, also_taken: Collection[str]) -> str:
    """Return an id for a hole of a part, besides those that are taken in an edit already."""
    drawn = pending.pattern.parts
    taken = {hole.id for each in drawn for hole in each.holes}
    taken |= {slot.id for each in drawn for slot in each.slots} | {each.id for each in drawn}
    taken.update(also_taken)
    numbers = (n for n in range(1, len(taken) + 2) if f"{part}_{n}" not in taken)
    return f"{part}_{next(numbers)}"


def draw_hole(pending: Pending, part: Part, hole: str, circle: tuple[float, float, float]) -> None:
    """Draw a hole: its id, and x, y, diameter in mm; near the part's other holes in the file."""
    *centre, diameter_mm = circle
    _check_size(diameter_mm)
    round_ones = [each.id for each in part.holes if not each.travel_mm]
    outline = str(pending.entry("parts", part.id).get("outline", part.id))
    like = round_ones[-1] if round_ones else outline
    patch = pending.drawings.of(like)
    patch.add_circle(hole, (centre[0], centre[1]), diameter_mm=diameter_mm, like=like)


@an_edit
def drop_holes(draft: Draft, holes: Collection[str]) -> Draft | Refused:
    """Take holes out of drawing and tables; a joint with fewer than two left goes with them."""
    pending = Pending(draft)
    take_out(pending, holes)
    return pending.taken()


def take_out(pending: Pending, holes: Collection[str]) -> None:
    """Take holes out of drawing and tables."""
    for hole in dict.fromkeys(holes):
        pending.hole(hole)
        pending.drawings.of(hole).remove(hole)
        if hole in pending.values.get("holes", {}):
            pending.drop("holes", hole)
    pending.forget(What.HOLE, list(dict.fromkeys(holes)))


@an_edit
def rename_hole(draft: Draft, hole: str, name: str) -> Draft | Refused:
    """Give a hole another id, in its drawing and wherever tables name it."""
    pending = Pending(draft)
    pending.hole(hole)
    check_id(name)
    pending.drawings.of(hole).rename(hole, name)
    pending.call_anew(What.HOLE, hole, name)
    if hole in pending.values.get("holes", {}):
        pending.rename("holes", hole, name)
    return pending.taken()


def put_hole(pending: Pending, hole: str, centre: Point, diameter_mm: float | None = None) -> None:
    """Put a hole in its drawing, so that it lies at a place once corrections have moved it."""
    (x, y), (across, down) = pending.hole(hole).centre, pending.shift_mm(hole)
    drawn = x - across, y - down
    draw_from(pending, hole, drawn, (centre[0] - x, centre[1] - y), diameter_mm)


def draw_from(
    pending: Pending,
    hole: str,
    drawn: Point,
    by_mm: Point,
    diameter_mm: float | None = None,
) -> None:
    """Draw a hole so far from where it is drawn now."""
    patch = pending.drawings.of(hole)
    if diameter_mm is not None:
        _check_size(diameter_mm)
    if patch.is_round(hole):
        patch.move_circle(hole, (drawn[0] + by_mm[0], drawn[1] + by_mm[1]), diameter_mm)
        return
    if diameter_mm is not None:
        text = f'"{hole}" is a slot that a joint slides in; its size is that of its outline.'
        raise NotTakenError(text, "Change its outline in the drawing.")
    patch.lay(hole, Identity.translate(*by_mm))


def _check_size(diameter_mm: float) -> None:
    if not _LEAST_MM <= diameter_mm <= _MOST_MM:
        text = f"A hole of {diameter_mm:g} mm is no hole for a fastener."
        raise NotTakenError(text, f"Give it {_LEAST_MM:g} to {_MOST_MM:g} mm.")


def _in_their_parts(pending: Pending, holes: Collection[str]) -> Draft | Refused:
    return in_part(pending, {hole: pending.hole(hole).part for hole in holes})


def in_part(pending: Pending, wanted: dict[str, str]) -> Draft | Refused:
    """Return the draft, if each hole lies in the part that it shall lie in."""
    made = pending.taken()
    if isinstance(made, Refused) or made.pattern is None:
        return made
    there = {hole.id: hole for part in made.pattern.parts for hole in part.holes}
    astray = [hole for hole, part in wanted.items() if _is_astray(there.get(hole), part)]
    if not astray:
        return made
    part = pending.part(wanted[astray[0]]).name
    text = f"{listed(astray)} would not lie in the {part} any more."
    raise NotTakenError(text, "Put it at a place within the part's outline.")


def _is_astray(hole: Hole | None, part: str) -> bool:
    return hole is None or hole.part != part
