"""Parts: one cut shape each, with the holes and slots in it. All lengths in mm, y downwards."""

from dataclasses import dataclass
from enum import StrEnum

Point = tuple[float, float]
Ring = tuple[Point, ...]
"""A closed outline as its corners in mm; the last corner is not repeated."""


class PartKind(StrEnum):
    """What a part is to an armourer."""

    PLATE = "plate"
    LAME = "lame"
    COP = "cop"
    STRAP = "strap"
    KEEPER = "keeper"
    TRIM = "trim"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A round hole: its id in the drawing, its centre and diameter in mm, the part it lies in."""

    id: str
    part: str
    centre: Point
    diameter_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """A closed path inside a part that a strap or keeper passes through.

    ``length_mm`` and ``width_mm`` are the sides of the smallest rectangle around the outline.
    """

    id: str
    part: str
    outline: Ring
    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One cut shape.

    Attributes:
        id: the key of its table; unique in the pattern.
        piece: id of the armour piece it belongs to.
        outline: flat outline in mm, curves flattened by the reader to its stated tolerance.
        material: id of its material.
        thickness_mm: as bought, unpinched.
        grain_out: the grain (smooth) side shows outward.
        up_deg: where 'up' on the wearer lies in the drawing; 0 is right, 90 is up the page.
        bevelled: its edges are bevelled.
        tooling: what is tooled into it, or ``None``.
        hides: joints it hides by declaration, beside those that geometry finds.
    """

    id: str
    name: str
    piece: str
    kind: PartKind
    outline: Ring
    material: str
    thickness_mm: float
    holes: tuple[Hole, ...] = ()
    slots: tuple[Slot, ...] = ()
    grain_out: bool = True
    up_deg: float = 90.0
    bevelled: bool = True
    tooling: str | None = None
    hides: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """An armour piece: a named group of parts; ``mirrored`` makes a left and a right of it."""

    id: str
    name: str
    mirrored: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """A leather used in the pattern, by its id in the catalogue."""

    id: str
    leather: str
    thickness_mm: float
