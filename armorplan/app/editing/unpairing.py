"""A mirrored piece made two pieces with drawings of their own, for limbs that differ."""

from collections.abc import Mapping
from typing import Any

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.joined_pieces import together
from armorplan.app.editing.mirror import turn_facts
from armorplan.app.editing.parts import outline_of
from armorplan.app.editing.pending import Pending, an_edit
from armorplan.app.editing.references import TABLES, What
from armorplan.app.editing.right_sheets import RightSheets, free_name
from armorplan.app.editing.side_names import BOTH, LEFT, RIGHT, SideNames, Sides
from armorplan.files.faults import listed
from armorplan.pattern.parts import MadeOn, Part
from armorplan.pattern.sides import named_sides

IN_ORDER = (
    "pieces",
    "parts",
    "holes",
    "joints",
    "seams",
    "threads",
    "hardware",
    "forms",
    "strap_places",
    "movements",
    "fit_checks",
    "suspensions",
    "own_steps",
    "harness",
    "corrections",
    "relations",
    "overruled",
)
"""Tables, each behind those whose entries it names."""
SHARED = (("treatments", "parts"), ("treatments", "pieces"), ("scalings", "parts"))
"""Lists that hold left and right together."""
_NO_SIDES = ("made_on", "copied")


@an_edit
def unpaired(draft: Draft, piece: str) -> Draft | Refused:
    """Make a mirrored piece two pieces, a left and a right one, each with a drawing of its own.

    The right one is drawn on a sheet of its own as the mirror of the left, beside all that is drawn
    by now, so that buckles, straps and laps point the way they did; what is copied is drawn as it was. What is made on one side
    only stays on that side. Pieces that are joined to it, or hang with it, go along, and are told.
    """
    pending = Pending(draft)
    pieces = together(pending, piece)
    _Unpairing(pending, pieces).work()
    if len(pieces) > 1:
        names = [each.name for each in pending.pattern.pieces if each.id in pieces - {piece}]
        pending.tell(
            f"What it is joined to or hangs with has two drawings now, too: {listed(names)}."
        )
    return pending.taken()


class _Unpairing:
    """One piece, and what goes with it, under its parting into left and right."""

    def __init__(self, pending: Pending, pieces: frozenset[str]) -> None:
        self._pending = pending
        self._pieces = pieces
        self._names = SideNames()
        self._taken = {
            shape
            for part in pending.pattern.parts
            for shape in (part.id, *(h.id for h in part.holes), *(s.id for s in part.slots))
        }
        self._sheets = RightSheets(pending, self._names)

    def work(self) -> None:
        """Part tables and drawings."""
        for piece in sorted(self._pieces):
            right = free_name(f"{piece}_right", self._pending.values["pieces"])
            self._names.note(What.PIECE, piece, BOTH, right)
        self._name_shapes()
        for table in IN_ORDER:
            for entry, told in list(self._pending.values.get(table, {}).items()):
                self._part(table, entry, told)
        for table, key in SHARED:
            self._share(table, key)
        self._sheets.draw(self._parts())

    # --- names --------------------------------------------------------------------------------

    def _name_shapes(self) -> None:
        for part in self._parts():
            sides = named_sides(part.made_on)
            self._note(What.PART, part.id, sides)
            if outline_of(self._pending, part.id) != part.id:
                self._note(What.OUTLINE, outline_of(self._pending, part.id), sides)
            for hole in part.holes:
                self._note(What.HOLE, hole.id, sides)
            for slot in part.slots:
                self._note(What.OUTLINE, slot.id, sides)
        own = {part.id for part in self._parts()}
        for told in self._pending.values.get("forms", {}).values():
            if isinstance(told.get("axis"), str) and not own.isdisjoint(told["parts"]):
                self._note(What.LINE, told["axis"], BOTH)

    def _note(self, what: What, name: str, sides: Sides) -> None:
        if sides == frozenset({RIGHT}):
            self._names.note(what, name, sides, name)
            return
        right = free_name(f"{name}_right", self._taken)
        self._taken.add(right)
        self._names.note(what, name, sides, right)

    def _parts(self) -> list[Part]:
        return [part for part in self._pending.pattern.parts if part.piece in self._pieces]

    # --- tables -------------------------------------------------------------------------------

    def _part(self, table: str, entry: str, told: Mapping[str, Any]) -> None:
        sides = self._names.touched(table, entry, told)
        if sides is None:
            return
        what = TABLES.get(table)
        right = entry
        if sides == BOTH:
            known = self._names.right.get((what, entry)) if what else None
            right = known or free_name(f"{entry}_right", self._pending.values[table])
        if what is not None and (what, entry) not in self._names.sides:
            self._names.note(what, entry, sides, right)
        made = {
            side: self._made(table, entry, told, side) for side in (LEFT, RIGHT) if side in sides
        }
        if not sides:
            self._pending.drop(table, entry, words=f'"{entry}" was made on no side, and is gone.')
            return
        stays = LEFT if LEFT in sides else RIGHT
        self._keep(table, entry, told, made[stays])
        if sides == BOTH:
            self._pending.add(table, right, made[RIGHT])

    def _made(
        self, table: str, entry: str, told: Mapping[str, Any], side: MadeOn
    ) -> dict[str, Any]:
        """Return an entry as it is made on a side."""
        made = self._names.on_side(table, told, side)
        for key in _NO_SIDES:
            made.pop(key, None)
        if isinstance(made.get("name"), str):
            made["name"] = f"{made['name']} ({side})"
        if table == "pieces":
            made["mirrored"] = False
        if side is RIGHT:
            self._turn(table, entry, made)
        return {key: value for key, value in made.items() if value != []}

    def _turn(self, table: str, entry: str, made: dict[str, Any]) -> None:
        """Turn what an entry says of the page for the right side's sheet."""
        if table == "parts" and not self._pending.part(entry).copied:
            turn_facts(made, self._pending.part(entry))
        if table == "forms" and isinstance(made.get("axis"), list):
            made_from = self._pending.entry("forms", entry)["parts"]
            over = self._sheets.over(str(made_from[0]))
            made["axis"] = [
                [round(v, 3) + 0.0 for v in over.transformPoint(p)] for p in made["axis"]
            ]
        if table == "corrections":
            across, down = made["move_mm"]
            made["move_mm"] = [-across if across else across, down]

    def _keep(
        self, table: str, entry: str, told: Mapping[str, Any], made: Mapping[str, Any]
    ) -> None:
        for key in (*told, *(key for key in made if key not in told)):
            if made.get(key) != told.get(key):
                self._pending.put((table, entry, key), made.get(key))

    def _share(self, table: str, key: str) -> None:
        """Let the right ones in where the left ones are named, and have what each is made on."""
        what = What.PIECE if key == "pieces" else What.PART
        for entry, told in list(self._pending.values.get(table, {}).items()):
            held = told.get(key)
            if not held:
                continue
            right = [
                self._names.right[what, name]
                for name in held
                if RIGHT in self._names.sides.get((what, name), ())
            ]
            left = [n for n in held if self._names.sides.get((what, n), BOTH) != {RIGHT}]
            new = list(dict.fromkeys((*left, *right)))
            if new != held:
                self._pending.put((table, entry, key), new)
