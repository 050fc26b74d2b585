"""Which limb a piece is for, as its names and its size suggest, and which measures it then follows."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import log

from armorplan.app.bringing.strap_questions import Closing
from armorplan.geometry.areas import rectangle_mm, ring_area_mm2
from armorplan.pattern.parts import Part, PartKind

_STIFF = frozenset({PartKind.PLATE, PartKind.COP, PartKind.LAME})
_ROUND_SHARE = 0.75
"""Plates go so far round a limb (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limb:
    """What a piece may be for.

    Attributes:
        id: key of the choice.
        name: in words.
        along: measures that heights follow, the first that the catalogue has; empty: none.
        around: the girth that widths follow.
        high_mm, round_mm: how high such a piece is, and how far round over the padding, about
            (common practice, no source; only for the suggestion).
        bends: its parts turn on each other.
        words: what such pieces and their parts are called.
    """

    id: str
    name: str
    along: tuple[str, ...]
    around: str
    high_mm: float
    round_mm: float
    words: tuple[str, ...]
    bends: bool = False


LIMBS = (
    Limb(
        id="elbow",
        name="elbow",
        along=("upper_arm_length",),
        around="elbow_girth",
        high_mm=190,
        round_mm=340,
        words=("elbow", "couter"),
        bends=True,
    ),
    Limb(
        id="upper_arm",
        name="upper arm",
        along=("upper_arm_length",),
        around="biceps_girth",
        high_mm=220,
        round_mm=380,
        words=("biceps", "rerebrace", "shoulder", "upper arm", "pauldron"),
    ),
    Limb(
        id="forearm",
        name="forearm",
        along=("forearm_length",),
        around="forearm_girth",
        high_mm=220,
        round_mm=320,
        words=("forearm", "vambrace", "bracer", "wrist"),
    ),
    Limb(
        id="knee",
        name="knee",
        along=("thigh_plate_length", "thigh_length"),
        around="knee_girth",
        high_mm=240,
        round_mm=455,
        words=("knee", "poleyn"),
        bends=True,
    ),
    Limb(
        id="shin",
        name="shin",
        along=("shin_length", "knee_height"),
        around="calf_girth",
        high_mm=340,
        round_mm=415,
        words=("greave", "shin", "calf", "ankle"),
    ),
    Limb(
        id="thigh",
        name="thigh",
        along=("thigh_plate_length", "thigh_length"),
        around="thigh_girth",
        high_mm=330,
        round_mm=670,
        words=("cuisse", "thigh"),
    ),
    Limb(
        id="neck",
        name="neck",
        along=(),
        around="neck_girth",
        high_mm=110,
        round_mm=400,
        words=("gorget", "collar", "neck"),
    ),
    Limb(
        id="chest",
        name="chest",
        along=("front_length",),
        around="chest_girth",
        high_mm=420,
        round_mm=1050,
        words=("breastplate", "backplate", "chest", "yoke"),
    ),
    Limb(
        id="head",
        name="head",
        along=(),
        around="head_girth",
        high_mm=220,
        round_mm=600,
        words=("helmet", "helm", "head"),
    ),
)


def likely_limbs(
    parts: Sequence[Part],
    names: Mapping[str, str],
    *,
    title: str,
    closings: Iterable[Closing],
    bends: bool,
) -> tuple[Limb, ...]:
    """Return the limbs that a piece may be for, the likeliest first.

    Args:
        parts: its parts, with their kinds.
        names: what they are called.
        title: what the pattern is called.
        closings: its straps that close.
        bends: some of its parts turn on each other.
    """
    said = {limb.id: _said(limb, parts, names, title) for limb in LIMBS}
    size = {limb.id: _misfit(limb, parts, closings, bends=bends) for limb in LIMBS}
    return tuple(sorted(LIMBS, key=lambda limb: (-said[limb.id], size[limb.id])))


def _said(limb: Limb, parts: Sequence[Part], names: Mapping[str, str], title: str) -> float:
    """Return how much leather, in mm², a name says to be for a limb; the title says it of all."""
    whole = sum(ring_area_mm2(part.outline) for part in parts)
    found = [part for part in parts if _names(limb, names[part.id])]
    return whole * _names(limb, title) + sum(ring_area_mm2(part.outline) for part in found)


def _names(limb: Limb, words: str) -> bool:
    spoken = " ".join(re.findall(r"[a-z]+", words.lower()))
    return any(re.search(rf"\b{word}s?\b", spoken) for word in limb.words)


def _misfit(
    limb: Limb, parts: Sequence[Part], closings: Iterable[Closing], *, bends: bool
) -> float:
    """Return how far the size of a piece is off that of a limb; 0 is right on it."""
    stiff = [part for part in parts if part.kind in _STIFF] or list(parts)
    boxes = [_box(part) for part in stiff]
    keys = {part.id for part in parts}
    girths = [sum(each.girth_mm) / 2 for each in closings if each.strap in keys]
    round_mm = girths[0] if girths else max(wide for wide, _ in boxes) / _ROUND_SHARE
    high_mm = max(high for _, high in boxes)
    off = abs(log(round_mm / limb.round_mm)) + abs(log(high_mm / limb.high_mm)) / 2
    return off + (bends != limb.bends)


def _box(part: Part) -> tuple[float, float]:
    xs, ys = [x for x, _ in part.outline], [y for _, y in part.outline]
    return max(max(xs) - min(xs), 1.0), max(max(ys) - min(ys), 1.0)


_LONG_STRAP_MM, _LONG_TRIM_MM = 120.0, 80.0
"""Shorter ones are tabs and badges, which keep their size (common practice, no source)."""


def ways_of(part: Part) -> tuple[bool, bool]:
    """Tell whether a part follows a length by its height, and a girth by its width or length."""
    long_mm, _ = rectangle_mm(part.outline)
    match part.kind:
        case PartKind.PLATE | PartKind.COP | PartKind.LAME | PartKind.LINING:
            return True, True
        case PartKind.INTERNAL_LEATHER:
            return True, False
        case PartKind.STRAP:
            return False, long_mm > _LONG_STRAP_MM
        case PartKind.TRIM:
            return False, long_mm > _LONG_TRIM_MM
        case _:
            return False, False
