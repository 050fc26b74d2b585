"""What is chosen on the drawing table: a few keys in the order they were chosen."""

from dataclasses import dataclass

from armorplan.desktop.shape_edit_scene import AXIS, HOLE, PART, SLOT, SPARE, TableScene


@dataclass(frozen=True, slots=True)
class Choice:
    """Keys of what is chosen; see ``shape_edit_scene``."""

    keys: tuple[str, ...] = ()

    def _named(self, head: str) -> tuple[str, ...]:
        return tuple(key.removeprefix(head) for key in self.keys if key.startswith(head))

    @property
    def holes(self) -> tuple[str, ...]:
        """Ids of the holes chosen, in the order they were chosen."""
        return self._named(HOLE)

    @property
    def parts(self) -> tuple[str, ...]:
        """Ids of the parts chosen as such."""
        return self._named(PART)

    @property
    def slots(self) -> tuple[str, ...]:
        """Ids of the slots chosen."""
        return self._named(SLOT)

    @property
    def forms(self) -> tuple[str, ...]:
        """Ids of the forms whose axes are chosen."""
        return self._named(AXIS)

    @property
    def spare(self) -> tuple[str, ...]:
        """Ids of the outlines chosen that are no part and no slot."""
        return self._named(SPARE)

    def only(self, key: str) -> "Choice":
        """Return just this one; an empty key chooses nothing."""
        return Choice((key,) if key else ())

    def turned(self, key: str) -> "Choice":
        """Return it with a key taken in, or left out where it was chosen."""
        if not key:
            return self
        if key in self.keys:
            return Choice(tuple(one for one in self.keys if one != key))
        return Choice((*self.keys, key))

    def with_keys(self, keys: tuple[str, ...]) -> "Choice":
        """Return it with more keys."""
        return Choice(tuple(dict.fromkeys((*self.keys, *keys))))

    def within(self, scene: TableScene) -> "Choice":
        """Return what of it is still there."""
        return Choice(tuple(key for key in self.keys if key in scene.spots))

    def joints(self, scene: TableScene) -> tuple[str, ...]:
        """Return the joints through the holes chosen, in their order."""
        found = (joint for hole in self.holes for joint in scene.through.get(hole, ()))
        return tuple(dict.fromkeys(found))

    def whole_rows(self, scene: TableScene) -> "Choice":
        """Return all holes of the rows that the holes chosen are in, in the same parts."""
        rows = (row for hole in self.holes for row in scene.rows_of(hole))
        return Choice(tuple(dict.fromkeys(HOLE + hole for row in rows for hole in row.holes)))

    def parts_under(self, scene: TableScene) -> tuple[str, ...]:
        """Return the parts that are chosen, or that what is chosen lies in."""
        found = dict.fromkeys(scene.part_of(key) for key in self.keys)
        return tuple(part for part in found if part)

    def entries(self, scene: TableScene) -> tuple[tuple[str, str], ...]:
        """Return table and entry of all that the pattern says of what is chosen, the nearest first."""
        pattern, joints = scene.pattern, self.joints(scene)
        parts = self.parts_under(scene)
        seams = (s.id for s in pattern.seams if set(joints) & set(s.joints))
        forms = (f.id for f in pattern.forms if set(parts) & set(f.parts))
        coats = (t.id for t in pattern.treatments if set(parts) & set(t.parts))
        held = [pattern.part(part) for part in parts]
        found = [("forms", form) for form in self.forms]
        found += [("joints", joint) for joint in joints]
        found += [("seams", seam) for seam in seams]
        found += [("parts", part) for part in parts]
        found += [("materials", part.material) for part in held]
        found += [("pieces", part.piece) for part in held]
        found += [("forms", form) for form in forms]
        found += [("treatments", coat) for coat in coats]
        return tuple(dict.fromkeys(found))
