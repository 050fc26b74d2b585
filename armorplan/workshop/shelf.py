"""What lies on the shelf: leathers, fasteners, treatments, tools, step durations.

Every entry carries a source: a publication, or 'common practice, no source'.
"""

from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True, kw_only=True)
class Leather:
    """A leather by purpose, with the thicknesses usual for it in mm."""

    id: str
    name: str
    usual_mm: tuple[float, float]
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastener:
    """A kind of fastener with the post lengths on sale.

    Attributes:
        kind: the joint kind it serves (``rivet``, ``screw``).
        head_mm: diameter of its outer head.
        hole_mm: diameter of the hole it needs.
        lengths_mm: post lengths on sale, ascending.
        over_stack_mm: least and most length beyond the pinched stack.
    """

    id: str
    name: str
    kind: str
    head_mm: float
    hole_mm: float
    lengths_mm: tuple[float, ...]
    over_stack_mm: tuple[float, float]
    source: str


class Carrier(StrEnum):
    """What has to leave the leather before it is dry; the climate scales each its own way."""

    WATER = "water"
    ALCOHOL = "alcohol"
    OIL = "oil"


class TreatmentKind(StrEnum):
    """Where a treatment stands in the order of the wet work."""

    CASING = "casing"
    DYE = "dye"
    OIL = "oil"
    FINISH = "finish"
    GLUE = "glue"


@dataclass(frozen=True, slots=True, kw_only=True)
class TreatmentEntry:
    """A treatment with its times in minutes at 23 °C and 50 % relative humidity.

    Attributes:
        touch_min: dry to the touch, ready for the next coat of the same.
        handle_min: dry enough to be handled and for what follows.
        window_min: for casing, the earliest and latest minute after lifting to shape it.
        per_part_min: hands-on minutes for each part and coat.
        set_up_min: hands-on minutes once for each dip or coat (gloves, tray, rags).
        cautions: sentences to show at the step; labels and local codes rule.
    """

    id: str
    name: str
    kind: TreatmentKind
    carrier: Carrier
    touch_min: int
    handle_min: int
    window_min: tuple[int, int] | None
    per_part_min: float
    set_up_min: float
    cautions: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Duration:
    """Hands-on minutes of a kind of step: ``fixed`` + per part + per hole + per cm of edge."""

    kind: str
    fixed_min: float = 0.0
    per_part_min: float = 0.0
    per_hole_min: float = 0.0
    per_cm_min: float = 0.0
    tool: str = ""
    cautions: tuple[str, ...] = ()
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """All catalogues together."""

    leathers: tuple[Leather, ...]
    fasteners: tuple[Fastener, ...]
    treatments: tuple[TreatmentEntry, ...]
    durations: tuple[Duration, ...]

    def leather(self, leather_id: str) -> Leather | None:
        """Return a leather by id, or ``None``."""
        return next((e for e in self.leathers if e.id == leather_id), None)

    def fastener(self, fastener_id: str) -> Fastener | None:
        """Return a fastener by id, or ``None``."""
        return next((e for e in self.fasteners if e.id == fastener_id), None)

    def treatment(self, treatment_id: str) -> TreatmentEntry | None:
        """Return a treatment by id, or ``None``."""
        return next((e for e in self.treatments if e.id == treatment_id), None)

    def duration(self, kind: str) -> Duration:
        """Return the duration entry of a step kind; KeyError where the catalogue lacks it."""
        for entry in self.durations:
            if entry.kind == kind:
                return entry
        raise KeyError(kind)
