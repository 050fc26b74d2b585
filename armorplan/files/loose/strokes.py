"""What both kinds of drawings need to make strokes: names that stay, rings of circles, limits."""

from collections.abc import Sequence
from math import acos, ceil, cos, pi, sin

from armorplan.files.faults import brief
from armorplan.files.file_bytes import unreadable
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Place
from armorplan.pattern.parts import Point, Ring

FARTHEST = 1e7
"""Coordinates farther out, in units of a file, are taken for a mistake."""
_LEAST_CORNERS = 12
_AREA_CORNERS = 3


class Keys:
    """Gives each stroke a name of its own, the file's where it has one."""

    def __init__(self) -> None:
        self._taken: set[str] = set()
        self._drawn = 0
        self._of_one: dict[str, int] = {}

    def fresh(self, own: str | None) -> str:
        """Return a name not given before: the own one, that with a number, or the next number."""
        self._drawn += 1
        stem = own or str(self._drawn)
        key = stem
        while key in self._taken:
            self._of_one[stem] = self._of_one.get(stem, 1) + 1
            key = f"{stem}.{self._of_one[stem]}"
        self._taken.add(key)
        return key


def circle_ring(centre: Point, diameter: float, flat: float) -> Ring:
    """Return the corners that stand for a circle, none of its chords farther than ``flat`` off."""
    radius = diameter / 2
    count = max(ceil(2 * pi / most_turn(radius, flat)), _LEAST_CORNERS)
    return tuple(
        (
            centre[0] + radius * cos(2 * pi * n / count),
            centre[1] + radius * sin(2 * pi * n / count),
        )
        for n in range(count)
    )


def line_of(corners: Sequence[Point], *, closed: bool) -> tuple[Ring, bool]:
    """Return a line without corners that repeat the one before, and whether it is closed.

    A line that ends where it begins is closed; one without a length has no corner.
    """
    kept: list[Point] = []
    for corner in corners:
        if not kept or kept[-1] != corner:
            kept.append(corner)
    closed = closed or (len(kept) > _AREA_CORNERS and kept[0] == kept[-1])
    while closed and len(kept) > 1 and kept[0] == kept[-1]:
        kept.pop()
    if len(kept) == 1:
        return (), False
    return tuple(kept), closed and len(kept) >= _AREA_CORNERS


def most_turn(radius: float, flat: float) -> float:
    """Return how far round a chord may reach, in radians: its rise is r(1 - cos(turn / 2))."""
    return 2 * acos(1 - flat / radius) if flat < radius else pi / 2


def over_limit(name: str, what: str) -> UnreadableError:
    """Return the error of a drawing that holds more than is read; ``what`` names the limit."""
    return unreadable(
        "drawing-limit",
        f"{brief(name)} holds {what}; so much is not read.",
        mend="Take out hatchings and whatever is no pattern, or save it in several files.",
        place=Place(file=name),
    )
