"""What a pattern is sized by, and what of it changes. All lengths in mm, angles in degrees."""

from collections.abc import Mapping
from dataclasses import dataclass

from armorplan.kernel.findings import Finding
from armorplan.pattern.parts import Hole, Point, Ring
from armorplan.pattern.pattern import Pattern

GIRTH_SLACK_MM = 0.05
"""Measures that differ by less are the same one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """One measure: what the pattern was drawn for, and what it shall fit."""

    drawn_mm: float
    wanted_mm: float

    @property
    def ratio(self) -> float:
        """How much larger the wearer is."""
        return self.wanted_mm / self.drawn_mm


WantedBy = Mapping[str, Wanted]
"""By the id of the measure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Factors:
    """How much larger a part becomes, along up and across it.

    Attributes:
        lift_mm: how far its middle surface lies outside of what the girth was measured on.
    """

    along: float = 1.0
    around: float = 1.0
    lift_mm: float = 0.0

    @property
    def stays(self) -> bool:
        """Tell whether the part keeps its size."""
        return self.along == 1.0 and self.around == 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PartSized:
    """A part before and after, drawn about the same middle.

    Attributes:
        before_mm, after_mm: its height along up and its width across.
    """

    part: str
    factors: Factors
    before: Ring
    after: Ring
    before_mm: Point
    after_mm: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class RowSized:
    """A row of joints before and after.

    Attributes:
        seam: id of the seam; empty for joints of none.
        joints: as they follow each other now.
        count: how many joints it had.
        before_mm, after_mm: least and most spacing on the layer that the others follow.
        residual_mm: the most by which the layers' spacings differ otherwise than they did.
    """

    seam: str
    name: str
    parts: tuple[str, ...]
    joints: tuple[str, ...]
    count: int
    before_mm: Point
    after_mm: Point
    residual_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AddedJoint:
    """A joint that a longer row needs, made like ``like``, after ``after`` in its seam.

    ``stack`` names its holes, the outermost first, as ``like`` does.
    """

    id: str
    seam: str
    like: str
    after: str
    stack: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sized:
    """A pattern in its new size.

    Attributes:
        pattern: with outlines, holes, slots, rows and forms as they are now.
        holes: every hole where it is now, those of new joints among them.
        findings: what could not be kept, and what to look at.
    """

    pattern: Pattern
    parts: tuple[PartSized, ...]
    rows: tuple[RowSized, ...]
    holes: Mapping[str, Hole]
    added: tuple[AddedJoint, ...]
    dropped: tuple[str, ...]
    findings: tuple[Finding, ...]
