"""Parts: one cut shape each, with the holes and slots in it. All lengths in mm, y downwards."""

from dataclasses import dataclass
from enum import StrEnum
from math import cos, radians, sin

Point = tuple[float, float]
Ring = tuple[Point, ...]
"""A closed outline as its corners in mm; the last corner is not repeated."""


def heading(deg: float) -> Point:
    """Return the direction, of length 1, of an angle that counts 0 right and 90 up the page.

    y runs down the page.
    """
    return cos(radians(deg)), -sin(radians(deg))


class PartKind(StrEnum):
    """What a part is to an armourer."""

    PLATE = "plate"
    LAME = "lame"
    COP = "cop"
    STRAP = "strap"
    KEEPER = "keeper"
    TRIM = "trim"
    LINING = "lining"
    INTERNAL_LEATHER = "internal leather"


class MadeOn(StrEnum):
    """On which sides of a mirrored piece something is made; elsewhere it says nothing."""

    BOTH = "both"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A hole for a fastener: its id in the drawing, centre and diameter in mm, the part it lies in.

    Where a joint slides, its hole in that part is a slot: ``diameter_mm`` is then the slot's width,
    ``centre`` its middle, ``travel_mm`` how far the fastener can slide (length less width), and
    ``travel_deg`` the direction of the slot (0 is right, 90 is up the page).
    """

    id: str
    part: str
    centre: Point
    diameter_mm: float
    travel_mm: float = 0.0
    travel_deg: float = 0.0

    @property
    def ends(self) -> tuple[Point, Point]:
        """The two ends of where its fastener can stand; of a round hole both are its centre."""
        (x, y), (dx, dy), half_mm = self.centre, heading(self.travel_deg), self.travel_mm / 2
        return (x - half_mm * dx, y - half_mm * dy), (x + half_mm * dx, y + half_mm * dy)


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
        thickness_mm: as bought, unpinched; of leather sold as a range the upper end.
        least_mm: the lower end where the leather is sold as a range, else ``None``.
        count: how many of it are cut; more than one only of loose parts that no joint holds.
        made_on: of a mirrored piece, the sides it is made on.
        copied: of a mirrored piece, the right one is a copy of the left one, not its mirror.
        grain_out: the grain (smooth) side shows outward.
        drawn_from_inside: the drawing shows the face that will lie inward.
        up_deg: where 'up' on the wearer lies in the drawing; 0 is right, 90 is up the page.
        backbone_deg: where the hide's backbone lies in the drawing, as ``up_deg``; ``None``: any.
        bevelled: its edges are bevelled.
        skived: its overlaps or ends are skived thin.
        burnished: its edges are burnished.
        tooling: what is tooled into it, or ``None``.
        hides: joints it hides by declaration, beside those that geometry finds.
        lies_over: parts it lies outside of where they overlap, as far as no stack tells.
        only_with: choices it is made with, as ``option.choice`` (see ``pattern.options``).
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
    lies_over: tuple[str, ...] = ()
    least_mm: float | None = None
    count: int = 1
    made_on: MadeOn = MadeOn.BOTH
    copied: bool = False
    drawn_from_inside: bool = False
    backbone_deg: float | None = None
    skived: bool = False
    burnished: bool = False
    notes: str = ""
    only_with: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """An armour piece: a named group of parts; ``mirrored`` makes a left and a right of it."""

    id: str
    name: str
    mirrored: bool = False
    notes: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Harness:
    """Pieces that hang together and are tried on together, in the order they are hung."""

    id: str
    name: str
    pieces: tuple[str, ...]
    notes: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """A leather used in the pattern, by its id in the catalogue.

    ``thickness_mm`` is the upper end of the range it is sold in (fasteners are chosen for it),
    ``least_mm`` the lower end, or ``None`` where one thickness is given.
    """

    id: str
    leather: str
    thickness_mm: float
    least_mm: float | None = None
    notes: str = ""
