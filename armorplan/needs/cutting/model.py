"""The cut list as frozen values; lengths in mm, areas in dm², minutes hands-on."""

from dataclasses import dataclass
from enum import StrEnum

from armorplan.kernel.findings import Finding
from armorplan.kernel.units import MM2_PER_DM2
from armorplan.pattern.parts import Point, Ring

USUAL_MARGIN_MM = 5.0
"""Between blanks, and from the edge of the bed (common practice, no source)."""
_ROUNDING = 1e-6
MOST_MARGIN_MM, MOST_KERF_MM, MOST_BED_MM = 100.0, 3.0, 99_999.0
"""Stated limits, far beyond any machine; they are no facts of the trade."""


class Cutter(StrEnum):
    """What cuts the parts."""

    HAND = "hand"
    LASER = "laser"
    KNIFE_TABLE = "knife table"

    @property
    def is_machine(self) -> bool:
        """Tell whether it works from a file."""
        return self is not Cutter.HAND


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """The bed of a machine, or the sheet on the bench; the backbone of a hide runs along ``wide``."""

    wide_mm: float
    high_mm: float
    margin_mm: float = USUAL_MARGIN_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class CutAsked:
    """What a cut list is made for.

    Attributes:
        cutter: what cuts.
        bed: what the blanks are laid on; ``None``: they are not laid.
        kerf_mm: how wide what cuts takes leather away; 0: nothing.
    """

    cutter: Cutter = Cutter.HAND
    bed: Bed | None = None
    kerf_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPart:
    """One part of the pattern, with all sides and copies of it that are cut.

    Attributes:
        part: its id in the pattern.
        sides: on which sides it is made; ``single`` for a part made once.
        pieces: how many are cut in all.
        size_mm: the sides of its blank as it lies, along and across the bed.
        area_dm2: of one, inside its outline.
        outline_mm: length of one's outer edge.
        holes: round holes that are cut in one.
        holes_mm: length of their edges.
        slots: of one, those a fastener slides in among them.
        slots_mm: length of their edges.
        after_shaping: holes of one that are punched once it is shaped, and not cut now.
        on_wearer: holes of one that are marked on the wearer, and not cut now.
        backbone: its blank lies one way on the hide, and is not turned a quarter.
        hand_min: for all of it, with the knife and the punch.
        machine_min: for all of it, without setting up.
    """

    part: str
    name: str
    sides: tuple[str, ...]
    pieces: int
    size_mm: tuple[float, float]
    area_dm2: float
    outline_mm: float
    holes: int
    holes_mm: float
    slots: int
    slots_mm: float
    after_shaping: int
    on_wearer: int
    backbone: bool
    hand_min: float
    machine_min: float

    @property
    def cut_mm(self) -> float:
        """Length of every cut in one of it."""
        return self.outline_mm + self.holes_mm + self.slots_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A blank on a bed.

    Attributes:
        part: sided id of its part.
        copy: which of several of it, from 1.
        at_mm: the corner of its box nearest the bed's corner; y runs down the page.
        size_mm: the sides of its box as it lies.
        turned_deg: by how much the drawing is turned, against the clock, after it was mirrored.
        mirrored: the drawing is mirrored: the right of a pair, or a part drawn from the flesh side.
    """

    part: str
    name: str
    copy: int
    at_mm: Point
    size_mm: tuple[float, float]
    turned_deg: float
    mirrored: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FilledBed:
    """A bed with its blanks.

    Attributes:
        used_mm: how far the blanks reach along and across, with the margin.
        filled_pct: share of the bed that is inside outlines.
    """

    number: int
    blanks: tuple[Laid, ...]
    used_mm: tuple[float, float]
    filled_pct: float


@dataclass(frozen=True, slots=True, kw_only=True)
class KerfHole:
    """Holes of one size, and what a kerf makes of them.

    Attributes:
        drawn_mm: their diameter in the drawing.
        plain_mm: as they come out where the beam runs on the line.
        path_mm: the diameter to run for them to come out as drawn; 0: none is small enough.
    """

    drawn_mm: float
    count: int
    plain_mm: float
    path_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLeather:
    """What is cut of one leather in one thickness.

    Attributes:
        leather: its id in the catalogue.
        may_be_lasered: ``True`` only where it is known to be vegetable tanned.
        cut_mm: length of all cuts.
        net_dm2: inside all outlines.
        buy_dm2: what of a hide that takes, by its usual yield; no nesting is promised.
        hide: about how much of a hide to buy, in words.
        hand_min: with the knife and the punch.
        machine_min: on a machine, with setting up for each bed.
        beds: as the blanks lie; empty where no bed was named, or it may not be lasered.
        too_large: names of parts that no bed of that size holds.
        holes: what the kerf makes of round holes, by size.
    """

    leather: str
    name: str
    least_mm: float | None
    thickness_mm: float
    may_be_lasered: bool
    parts: tuple[CutPart, ...]
    pieces: int
    cut_mm: float
    net_dm2: float
    yield_pct: float
    buy_dm2: float
    buy_ft2: float
    hide: str
    hand_min: int
    machine_min: int
    beds: tuple[FilledBed, ...]
    too_large: tuple[str, ...]
    holes: tuple[KerfHole, ...]

    @property
    def set_up_min(self) -> int:
        """Whole minutes of ``machine_min`` that go into setting up; the rest is cutting, rounded up."""
        return int(self.machine_min - sum(part.machine_min for part in self.parts) + _ROUNDING)

    @property
    def beds_dm2(self) -> float:
        """What the blanks take as they lie, with what is kept free round them; 0: none is laid."""
        return sum(wide * high for wide, high in (bed.used_mm for bed in self.beds)) / MM2_PER_DM2


@dataclass(frozen=True, slots=True, kw_only=True)
class CutList:
    """The cut list of a build, one entry for each leather and thickness.

    ``cautions`` are the usual ones; labels, local codes and licensed practice rule.
    """

    pattern: str
    asked: CutAsked
    leathers: tuple[CutLeather, ...]
    cautions: tuple[str, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutShape:
    """A blank's lines where they are cut or drawn on a bed, in mm, y down the page.

    Attributes:
        slots: cut inside, before the outline.
        holes: middles and diameters of round holes, cut inside.
        guides: lines that are not cut: axes of bends and folds, and where up is on the wearer.
        label_at: where its name stands.
    """

    name: str
    outline: Ring
    slots: tuple[Ring, ...]
    holes: tuple[tuple[Point, float], ...]
    guides: tuple[tuple[Point, Point], ...]
    label_at: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class CutterBed:
    """One bed as a file for the cutter: its size in mm, and the lines on it.

    ``key`` tells it from the others of the build, in letters that a file name may hold.
    ``pattern`` is the pattern's name.
    """

    key: str
    pattern: str
    title: str
    wide_mm: float
    high_mm: float
    shapes: tuple[CutShape, ...]
