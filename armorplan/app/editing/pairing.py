"""Two pieces that were drawn both, left and right, folded into one that is mirrored."""

from collections.abc import Mapping, Sequence
from typing import Any

from armorplan.app.draft import Draft, Refused
from armorplan.app.editing.folded_shapes import FoldedShapes, tell_differences
from armorplan.app.editing.hands import Hands, hands_of
from armorplan.app.editing.joined_pieces import with_joined
from armorplan.app.editing.mirror import turn_parts
from armorplan.app.editing.pending import NotTakenError, Pending, an_edit
from armorplan.app.editing.references import STEP_KEYS, TABLES, What
from armorplan.app.editing.side_names import BOTH, SideNames, held, namings
from armorplan.app.editing.unpairing import IN_ORDER, SHARED
from armorplan.pattern.parts import MadeOn, Part

_SIDED = frozenset({"parts", "joints", "threads", "suspensions"})
"""Tables whose entries may say on which side they are made."""
_BY_SHAPE = frozenset({"pieces", "parts", "holes"})
"""Tables of which the shapes tell what is whose like."""
_OPEN = frozenset({"name", "notes", "axis", "move_mm", "made_on", "up_deg", "backbone_deg"})
"""Keys that may differ between an entry of the left and its like of the right."""


@an_edit
def paired(draft: Draft, pieces: Mapping[str, str]) -> Draft | Refused:
    """Fold pieces that were drawn for the right into those drawn for the left.

    Of each pair the left drawing stays, and its piece becomes a mirrored one. A part without its
    like is made on its own side only; one that lies on its like without being turned over is
    copied. What differs by more than a tenth of a millimetre is told, and the left one's holds.

    Args:
        draft: the pattern.
        pieces: right pieces by their left ones; what these are joined to or hang with goes along,
            as far as it is drawn twice, and is told.
    """
    pending = Pending(draft)
    for piece in (*pieces, *pieces.values()):
        if pending.entry("pieces", piece).get("mirrored"):
            text = f'"{piece}" is made left and right from one drawing already.'
            raise NotTakenError(text, "Choose two pieces that are each made once.")
    _Pairing(pending, with_joined(pending, pieces)).work()
    return pending.taken()


class _Pairing:
    """Some pairs of pieces under folding; ``names`` has the right things by what they become."""

    def __init__(self, pending: Pending, pieces: Mapping[str, str]) -> None:
        self._pending = pending
        self._pieces = pieces
        self._names = SideNames()
        self._hands: list[Hands] = []
        self._gone: list[Part] = []
        self._lines: set[str] = set()
        self._known: set[tuple[str, str]] = set()
        self._shapes = FoldedShapes(pending)

    def work(self) -> None:
        """Fold tables and drawings."""
        for left, right in self._pieces.items():
            self._names.note(What.PIECE, right, BOTH, left)
            self._hands += hands_of(self._of(left), self._of(right))
        if not self._hands:
            text = "No part of the one piece is the mirror of a part of the other."
            raise NotTakenError(text, "Choose the left and the right of one piece.")
        self._note_shapes()
        tell_differences(self._pending, self._hands)
        for table in IN_ORDER:
            self._fold_all(table)
        for table, key in SHARED:
            self._share(table, key)
        self._say_sides()
        kept = [part for piece in self._pieces.values() for part in self._of(piece)]
        turn_parts(self._pending, [part for part in kept if part not in self._gone])
        self._shapes.take_out(self._gone, self._lines)

    def _of(self, piece: str) -> list[Part]:
        return [part for part in self._pending.pattern.parts if part.piece == piece]

    def _note_shapes(self) -> None:
        """Note what parts, holes and slots of the right become; one without its like stays itself."""
        by_right = {hands.right: hands for hands in self._hands}
        for piece in self._pieces.values():
            for part in self._of(piece):
                hands = by_right.get(part.id)
                become = hands.shapes | self._shapes.drawn_anew(hands) if hands else {}
                self._names.note(What.PART, part.id, BOTH, hands.left if hands else part.id)
                for hole in part.holes:
                    self._names.note(What.HOLE, hole.id, BOTH, become.get(hole.id, hole.id))
                for slot in part.slots:
                    self._names.note(What.OUTLINE, slot.id, BOTH, become.get(slot.id, slot.id))
                if hands:
                    self._gone.append(part)

    # --- tables -------------------------------------------------------------------------------

    def _fold_all(self, table: str) -> None:
        there = self._pending.values.get(table, {})
        own = [entry for entry, told in there.items() if self._is_right(table, entry, told)]
        left = [entry for entry in there if entry not in own]
        for entry in own:
            told = self._pending.values[table][entry]
            made = self._names.on_side(table, told, MadeOn.RIGHT)
            like = self._become(table, entry)
            if like is None and table not in _BY_SHAPE:
                like = next((one for one in left if _like(table, there[one], made)), None)
            if like is None:
                self._stay(table, entry, made)
                continue
            left.remove(like)
            self._note(table, entry, like)
            self._known.add((table, like))
            _name_bare(self._pending, table, like)
            if isinstance(told.get("axis"), str):
                self._lines.add(told["axis"])
            if entry in self._pending.values[table]:
                self._pending.put((table, entry), None)

    def _is_right(self, table: str, entry: str, told: Mapping[str, Any]) -> bool:
        return self._names.touched(table, entry, told) is not None

    def _become(self, table: str, entry: str) -> str | None:
        """Return the left entry that a piece, part or hole of the right is known to become."""
        what = TABLES.get(table)
        known = self._names.right.get((what, entry)) if what else None
        there = known is not None and known != entry and known in self._pending.values[table]
        return known if there else None

    def _note(self, table: str, entry: str, like: str) -> None:
        what = TABLES.get(table)
        if what is not None:
            self._names.note(what, entry, BOTH, like)

    def _stay(self, table: str, entry: str, made: dict[str, Any]) -> None:
        """Keep what the left has not, as made on the right."""
        self._known.add((table, entry))
        if table == "seams":
            self._into_left_row(entry, made["joints"])
            return
        if table in _SIDED:
            made["made_on"] = "right"
        if "name" in made:
            made["name"] = _bare(made["name"])
        told = self._pending.values[table][entry]
        for key in (*told, *(key for key in made if key not in told)):
            value = made.get(key)
            if value != told.get(key):
                self._pending.put((table, entry, key), value)
        self._pending.tell(f'"{entry}" is there on the right only.')

    def _into_left_row(self, entry: str, joints: Sequence[str]) -> None:
        """Bring joints that only the right row has into the left one that shares the others."""
        for seam, told in self._pending.values["seams"].items():
            if seam != entry and not set(joints).isdisjoint(told["joints"]):
                both = list(dict.fromkeys((*told["joints"], *joints)))
                self._pending.put(("seams", seam, "joints"), both)
                self._note("seams", entry, seam)
                self._pending.put(("seams", entry), None)
                return
        self._pending.put(("seams", entry, "joints"), list(joints))

    def _share(self, table: str, key: str) -> None:
        what = What.PIECE if key == "pieces" else What.PART
        for entry, told in list(self._pending.values.get(table, {}).items()):
            named = told.get(key)
            if named:
                new = list(dict.fromkeys(self._names.right.get((what, n), n) for n in named))
                if new != named:
                    self._pending.put((table, entry, key), new)

    def _say_sides(self) -> None:
        """Say of each left piece that it is mirrored, and of what has no like where it is made."""
        pending, hands = self._pending, {each.left: each for each in self._hands}
        for piece in self._pieces:
            pending.put(("pieces", piece, "mirrored"), value=True)
            for part in self._of(piece):
                if part.id not in hands:
                    pending.put(("parts", part.id, "made_on"), "left")
                    _name_bare(self._pending, "parts", part.id)
                elif hands[part.id].copied:
                    pending.put(("parts", part.id, "copied"), value=True)
        for table in ("joints", "threads", "suspensions"):
            for entry, told in list(pending.values.get(table, {}).items()):
                if (table, entry) not in self._known and self._is_left_only(table, told):
                    pending.put((table, entry, "made_on"), "left")
                    pending.tell(f'"{entry}" is there on the left only.')

    def _is_left_only(self, table: str, told: Mapping[str, Any]) -> bool:
        """Tell whether something on paired parts has no like on the right, and does not show it."""
        hands = {each.left for each in self._hands}
        holes = {h.id: part.id for part in self._pending.pattern.parts for h in part.holes}
        named = {n for _, each in namings(table) for n in held(told, each)}
        parts = {holes.get(name, name) for name in named}
        alone = {p.id for piece in self._pieces for p in self._of(piece)} - hands
        return not parts.isdisjoint({*hands, *self._pieces}) and parts.isdisjoint(alone)


def _like(table: str, told: Mapping[str, Any], made: Mapping[str, Any]) -> bool:
    """Tell whether a left entry says the same as one of the right in the left one's names."""
    naming = [each for _, each in namings(table) if each.key != "axis"]
    naming += STEP_KEYS.get(table, ())
    if not any(held(told, each) for each in naming):
        return False
    if any(held(told, each) != held(made, each) for each in naming):
        return False
    return _plain(told) == _plain(made) or _bare(told.get("name")) == _bare(made.get("name"))


def _name_bare(pending: Pending, table: str, entry: str) -> None:
    """Take the side out of an entry's name."""
    name = pending.values[table][entry].get("name")
    if isinstance(name, str) and _bare(name) != name:
        pending.put((table, entry, "name"), _bare(name))


def _bare(name: object) -> object:
    """Return a name without the side behind it."""
    return name.removesuffix(" (left)").removesuffix(" (right)") if isinstance(name, str) else name


def _plain(told: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in told.items() if key not in _OPEN}
