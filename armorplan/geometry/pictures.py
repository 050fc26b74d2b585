"""What is drawn beside a measure, as plain numbers in mm and degrees: views only draw it."""

from dataclasses import dataclass

from armorplan.geometry.ways_in import ReachPicture
from armorplan.kernel.findings import Severity
from armorplan.pattern.parts import Point


@dataclass(frozen=True, slots=True, kw_only=True)
class RowSide:
    """One row of holes, laid straight.

    Attributes:
        along_mm: where each hole lies along the row, from the first hole of the first row; rows are
            laid so that the holes that are in place lie on each other.
        off_mm: what is to be moved, hole by hole: how far too far towards the end of the row it
            lies; 0 for one that is in its place. Empty: none is out.
        aside_mm: how far a hole lies beside the line of its row, above 0 to the right of its way;
            empty: none does.
    """

    part: str
    name: str
    along_mm: tuple[float, ...]
    holes: tuple[str, ...]
    off_mm: tuple[float, ...] = ()
    aside_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RowsPicture:
    """The rows of a seam laid straight under each other.

    Attributes:
        missing: spacings that do not agree where no single hole can be said to be out, counted
            from 0.
    """

    rows: tuple[RowSide, ...]
    missing: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """A layer of a stack or a bend, the outermost first; washers are layers that do not give.

    Attributes:
        kind: of the part; ``washer`` for one.
        legs_mm: what of it stays straight on either side of a bend; ``None``: as much as is said of
            the bend.
    """

    name: str
    thick_mm: float
    kind: str = ""
    legs_mm: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StackPicture:
    """A fastener through its layers, to scale.

    Attributes:
        layers: thicknesses as they are pinched, in mm.
        post_mm: the post chosen; ``None`` where none on sale fits.
        window_mm: the shortest and longest post that hold.
        head_mm, hole_mm: diameters.
        foot: what is on the inside: ``cap``, ``burr``, ``screw`` or ``bent`` (legs, a rolled tube).
    """

    layers: tuple[Layer, ...]
    post_mm: float | None
    window_mm: tuple[float, float]
    head_mm: float
    hole_mm: float
    foot: str = "cap"


@dataclass(frozen=True, slots=True, kw_only=True)
class BendPicture:
    """Layers bent about an axis, seen along it.

    Attributes:
        radius_mm: inner radius of the innermost layer.
        angle_deg: how far it is bent.
        legs_mm: what stays straight on either side.
        layers: the outermost first.
        outer_deg, inner_deg: where the holes of the outer and the inner row lie when both layers
            are bent as they were punched flat, in degrees round the bend from its middle.
        legs_known: whether ``legs_mm`` are measured; else they only show how it goes on, and its
            size once bent is not known.
    """

    radius_mm: float
    angle_deg: float
    legs_mm: tuple[float, float]
    layers: tuple[Layer, ...]
    outer_deg: tuple[float, ...] = ()
    inner_deg: tuple[float, ...] = ()
    legs_known: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A lame or plate seen from the side: its edge at the back of the limb, and its pivots.

    ``back`` runs along the back of the limb from its upper to its lower edge, by more spots where
    it runs round its pivots; ``pivots`` are where it turns on its neighbours; both in mm, x away from
    the limb, y down along it.
    """

    part: str
    name: str
    back: tuple[Point, ...]
    pivots: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlap:
    """What one plate has under its neighbour, in mm; below nought it is a gap."""

    outer: str
    inner: str
    overlap_mm: float
    severity: Severity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Position:
    """All plates of a chain at one angle of the limb."""

    angle_deg: float
    bars: tuple[Bar, ...]
    overlaps: tuple[Overlap, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LamesPicture:
    """A strip of positions, from the straight limb to the bent one."""

    positions: tuple[Position, ...]


Picture = RowsPicture | StackPicture | BendPicture | LamesPicture | ReachPicture
