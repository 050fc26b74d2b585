"""Where an arrow key goes in a picture: the nearest thing that way. Coordinates run y downwards."""

from collections.abc import Mapping
from enum import StrEnum
from math import hypot

Place = tuple[float, float]

SIDEWAYS_PRICE = 2.0
"""A thing off to the side counts as so much farther: a row is walked along before it is left."""


class Way(StrEnum):
    """The way an arrow key points."""

    LEFT = "left"
    RIGHT = "right"
    UP = "up"
    DOWN = "down"


_STEP: Mapping[Way, Place] = {
    Way.LEFT: (-1.0, 0.0),
    Way.RIGHT: (1.0, 0.0),
    Way.UP: (0.0, -1.0),
    Way.DOWN: (0.0, 1.0),
}


def next_that_way(places: Mapping[str, Place], here: str, way: Way) -> str | None:
    """Return what lies nearest in a direction, or ``None`` where nothing does.

    What lies within 45° of the direction comes first; only where there is nothing, what lies
    anywhere on that side. Things in one and the same place (a boss and the rivet in its middle)
    are gone through in their order before the place is left.
    """
    x, y = places[here]
    along_x, along_y = _STEP[way]
    onward = 1 if way in (Way.RIGHT, Way.DOWN) else -1
    rank = {key: onward * place for place, key in enumerate(places)}
    stacked = [key for key in places if places[key] == places[here] and rank[key] > rank[here]]
    if stacked:
        return min(stacked, key=rank.__getitem__)
    best: tuple[bool, float, int] | None = None
    found: str | None = None
    for key, (to_x, to_y) in places.items():
        ahead = (to_x - x) * along_x + (to_y - y) * along_y
        aside = abs((to_x - x) * along_y) + abs((to_y - y) * along_x)
        price = (aside > ahead, hypot(ahead, SIDEWAYS_PRICE * aside), rank[key])
        if ahead > 0 and (best is None or price < best):
            best, found = price, key
    return found


def next_in_order(keys: tuple[str, ...], here: str | None, by: int) -> str | None:
    """Return the key ``by`` places on, stopping at either end; the first where none is chosen."""
    if not keys:
        return None
    if here not in keys:
        return keys[0] if by > 0 else keys[-1]
    return keys[max(0, min(len(keys) - 1, keys.index(here) + by))]
