"""Places boxes where their parts lie in the drawing, moved apart until none lies on another."""

from collections.abc import Mapping
from itertools import pairwise
from math import sqrt

from armorplan.desktop.layout_dag import rising
from armorplan.desktop.picture_keys import Place

ROOM = 1.7
"""The picture gets so many times the area of its boxes, so that the edges can be seen."""


def apart(places: Mapping[str, Place], size: tuple[float, float]) -> dict[str, Place]:
    """Return centres for boxes of one size (gaps included), none on another.

    The picture keeps the lie of the parts: boxes are dealt into rows by how far down their parts
    lie, and moved apart along each row by as little as will do; empty rows are left out. The same
    parts always give the same picture.
    """
    if not places:
        return {}
    width, height = size
    scale = _scale(places, size)
    rows: dict[int, list[str]] = {}
    for key, (_, y) in sorted(places.items(), key=lambda item: item[1]):
        rows.setdefault(round(y * scale / height), []).append(key)
    found: dict[str, Place] = {}
    for row, keys in enumerate(rows[level] for level in sorted(rows)):
        wanted = [places[key][0] * scale - place * width for place, key in enumerate(keys)]
        for place, (key, x) in enumerate(zip(keys, rising(wanted), strict=True)):
            found[key] = (x + place * width, row * height)
    return {key: found[key] for key in places}


def _scale(places: Mapping[str, Place], size: tuple[float, float]) -> float:
    """Return the stretch that gives the boxes their room; 1 where all lie on one line."""
    across, down = zip(*places.values(), strict=True)
    wide, deep = max(across) - min(across), max(down) - min(down)
    area = ROOM * len(places) * size[0] * size[1]
    if wide * deep > 0:
        return sqrt(area / (wide * deep))
    gaps = [b - a for line in (across, down) for a, b in pairwise(sorted(line)) if b > a]
    return max(size) / min(gaps) if gaps else 1.0
