"""What the left and the right of a piece are called where each has a drawing of its own.

For each side the entries of a pattern's tables are read with what is made on that side: names that
are not made there are left out, and names of the right are put in the place of the left ones.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from armorplan.app.editing.references import (
    NAMINGS,
    STEP_KEYS,
    TABLES,
    Naming,
    What,
    step_called,
    step_names,
)
from armorplan.pattern.parts import MadeOn

LEFT, RIGHT = MadeOn.LEFT, MadeOn.RIGHT
BOTH = frozenset({LEFT, RIGHT})
Sides = frozenset[MadeOn]
Values = Mapping[str, Any]


@dataclass(slots=True)
class SideNames:
    """By what and left name: the sides it is made on, and what it is called on the right."""

    sides: dict[tuple[What, str], Sides] = field(default_factory=dict)
    right: dict[tuple[What, str], str] = field(default_factory=dict)

    def note(self, what: What, name: str, sides: Sides, right: str) -> None:
        """Note a thing of the piece."""
        self.sides[what, name] = sides
        self.right[what, name] = right

    def touched(self, table: str, entry: str, told: Values) -> Sides | None:
        """Return the sides an entry is made on; ``None`` where it is not of the piece."""
        found = [self.sides[key] for key in self._named(table, entry, told)]
        if not found:
            return None
        made_on = MadeOn(told.get("made_on", "both"))
        here = BOTH if made_on is MadeOn.BOTH else frozenset({made_on})
        return here.intersection(*found) if _is_whole(table) else here & frozenset.union(*found)

    def _named(self, table: str, entry: str, told: Values) -> Iterator[tuple[What, str]]:
        what = TABLES.get(table)
        if what is not None and (what, entry) in self.sides:
            yield what, entry
        for each, naming in namings(table):
            for name in held(told, naming):
                if (each, name) in self.sides:
                    yield each, name
        for naming in STEP_KEYS.get(table, ()):
            for step in held(told, naming):
                yield from (key for key in self.sides if step_names(step, *key))

    def on_side(self, table: str, told: Values, side: MadeOn) -> dict[str, Any]:
        """Return an entry as it is on a side: without what is not made there, by its names."""
        made = dict(told)
        for what, naming in namings(table):
            if naming.key in made:
                self._name(made, naming, what, side)
        for naming in STEP_KEYS.get(table, ()):
            if naming.key in made and side is RIGHT:
                made[naming.key] = self._steps(made[naming.key])
        return made

    def _name(self, made: dict[str, Any], naming: Naming, what: What, side: MadeOn) -> None:
        value = made[naming.key]
        if isinstance(value, str):
            made[naming.key] = self._called(what, value, side)
        elif all(isinstance(name, str) for name in value):
            kept = [n for n in value if side in self.sides.get((what, n), BOTH)]
            made[naming.key] = [self._called(what, name, side) for name in kept]

    def _called(self, what: What, name: str, side: MadeOn) -> str:
        return self.right.get((what, name), name) if side is RIGHT else name

    def _steps(self, value: str | list[str]) -> str | list[str]:
        if isinstance(value, list):
            return [self._step(step) for step in value]
        return self._step(value)

    def _step(self, step: str) -> str:
        for (what, name), right in self.right.items():
            if step_names(step, what, name):
                step = step_called(step, what, name, right)
        return step


def _is_whole(table: str) -> bool:
    """Tell whether an entry is made only where all that it names is made."""
    return table in {"joints", "threads", "hardware", "strap_places", "holes", "corrections"}


def namings(table: str) -> Iterator[tuple[What, Naming]]:
    """Yield the keys of a table that name things."""
    for what, keys in NAMINGS.items():
        yield from ((what, naming) for naming in keys if naming.table == table)


def held(told: Values, naming: Naming) -> tuple[str, ...]:
    """Return the names that an entry holds by a key."""
    value = told.get(naming.key)
    if isinstance(value, str):
        return (value,)
    return tuple(n for n in value if isinstance(n, str)) if isinstance(value, list) else ()
