"""Ids of joints and holes that a longer row needs: the next free number behind the same name."""

import re
from itertools import count

from armorplan.pattern.pattern import Pattern

_NUMBERED = re.compile(r"(?P<name>.*?)_?\d+")


class Namer:
    """Gives ids that are not taken; what it gave once it does not give again."""

    def __init__(self, pattern: Pattern) -> None:
        self._joints = {joint.id for joint in pattern.joints}
        shapes = [part.id for part in pattern.parts]
        for part in pattern.parts:
            shapes += [hole.id for hole in part.holes] + [slot.id for slot in part.slots]
        self._shapes = set(shapes)

    def next_joint(self, like: str) -> str:
        """Return an id for a joint made like another."""
        return _next(like, self._joints)

    def next_hole(self, like: str) -> str:
        """Return an id for a hole in the row of another."""
        return _next(like, self._shapes)


def _next(like: str, taken: set[str]) -> str:
    found = _NUMBERED.fullmatch(like)
    name = found["name"] if found else like
    new = next(f"{name}_{n}" for n in count(1) if f"{name}_{n}" not in taken)
    taken.add(new)
    return new
