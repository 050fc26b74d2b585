"""What lies on the shelf: leathers, fasteners, treatments, tools, step durations.

Every entry carries a source: a publication, or 'common practice, no source'.
"""

from dataclasses import dataclass, field
from enum import StrEnum

from armorplan.workshop.constants import Constants
from armorplan.workshop.measures import BodyMeasure
from armorplan.workshop.pins import PinEntry
from armorplan.workshop.salvages import Salvage

USUAL_YIELD_PCT = 70.0
"""How much of a hide ends in parts where nobody says: three trade pages say 67 to 75 %."""

TANNINGS = ("", "vegetable", "chrome", "coated", "plastic")
CLAMPS, TURNS = "fixed", "turning"
"""What a fastener does to its layers where it can do but one of the two."""
MOTIONS = ("", CLAMPS, TURNS)
FEET = ("", "cap", "burr", "screw", "bent")


@dataclass(frozen=True, slots=True, kw_only=True)
class Leather:
    """A leather by purpose, with the thicknesses usual for it in mm.

    Attributes:
        yield_pct: how much of a bought hide ends in parts of the usual sizes.
        price_per_dm2: the maker's price, ``None`` where it is not known.
        neutral: where a bend of it keeps its length, as a share of the thickness from inside, from
            the maker's own test strip; ``None``: as the constants of the bench say.
        tanning: of ``TANNINGS``; empty: nobody said. Only what is vegetable tanned is lasered.
    """

    id: str
    name: str
    usual_mm: tuple[float, float]
    source: str
    yield_pct: float = USUAL_YIELD_PCT
    price_per_dm2: float | None = None
    neutral: float | None = None
    tanning: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastener:
    """A kind of fastener with the post lengths on sale.

    Attributes:
        kind: the joint kind it serves (``rivet``, ``screw``).
        head_mm: diameter of its outer head.
        hole_mm: diameter of the hole it needs.
        lengths_mm: post lengths on sale, ascending.
        over_stack_mm: least and most length beyond the pinched stack.
        load: it holds a strap that carries weight; decorative and light rivets do not.
        price_each: the maker's price, ``None`` where it is not known.
        motion: ``fixed`` where its post clamps the layers, ``turning`` where it leaves them play;
            empty: it serves both, as the setter sets it.
        foot: what is on the inside: ``cap``, ``burr``, ``screw`` or ``bent`` (legs, a rolled tube);
            empty: as its kind has it.
    """

    id: str
    name: str
    kind: str
    head_mm: float
    hole_mm: float
    lengths_mm: tuple[float, ...]
    over_stack_mm: tuple[float, float]
    source: str
    load: bool = True
    price_each: float | None = None
    motion: str = ""
    foot: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareEntry:
    """A buckle, ring, loop or stud.

    Attributes:
        kind: what it is, in one word of the trade: ``buckle``, ``ring``, ``loop``, ``stud``.
        strap_mm: widest strap it takes.
    """

    id: str
    name: str
    kind: str
    strap_mm: float
    source: str
    price_each: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyEntry:
    """Thread or lace, sold by length.

    Attributes:
        kind: ``thread`` or ``lace``.
        per_seam: metres used for each metre of row.
        extra_mm: used once for each row beside that.
    """

    id: str
    name: str
    kind: str
    per_seam: float
    extra_mm: float
    source: str
    price_per_m: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ToolEntry:
    """A tool with the kinds of step it serves, by their names.

    Attributes:
        reach_mm: how far it gets in behind the leather, from the opening to where it works; ``None``:
            it does not get in, or how far is not known.
        opening_mm: the narrowest opening it goes in through.
        feet: the feet of fasteners it closes, as ``Fastener.foot``; empty: all of its kinds.
        flat_inside: with it a fastener is set from the inside against a flat block outside.
        outside: it closes a joint from outside alone (a blind rivet, a lacing needle), however deep
            that lies.
        takes_out: it takes out what is set, and sets nothing.
    """

    id: str
    name: str
    serves: tuple[str, ...]
    source: str
    cautions: tuple[str, ...] = ()
    reach_mm: float | None = None
    opening_mm: float = 0.0
    feet: tuple[str, ...] = ()
    flat_inside: bool = False
    outside: bool = False
    takes_out: bool = False


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
    CLEANER = "cleaner"
    HARDENER = "hardener"


CURE_BEFORE = ("close", "wear", "pack")
"""What a treatment's cure can hold up: closing a shape, wearing it, packing it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TreatmentEntry:
    """A treatment with its times in minutes at 23 °C and 50 % relative humidity.

    Attributes:
        touch_min: dry to the touch, ready for the next coat of the same.
        handle_min: dry enough to be handled and for what follows.
        window_min: for casing, the earliest and latest minute after lifting to shape it.
        per_part_min: hands-on minutes for each part and coat, wiped on.
        set_up_min: hands-on minutes once for each dip or coat (gloves, tray, rags).
        cautions: sentences to show at the step; labels and local codes rule.
        dip_per_part_min: hands-on minutes for each part and coat where it is dipped.
        wipe_ml_per_dm2: liquid taken up, and lost in the rag, by a dm² of one face, wiped on.
        dip_ml_per_dm2: liquid taken up by a dm² of leather dipped, both faces and edges together.
        after_dye: it goes on after the dye (wax); a hardener that does not goes before it.
        price_per_litre: the maker's price, ``None`` where it is not known.
        cure_min: fully hard or set; ``None``: it is with ``handle_min``.
        cure_before: what waits for the cure: of ``CURE_BEFORE``.
        recoat_by_min: the next coat goes on by then, or after a light scuff; a glue is closed by
            then; ``None``: at any time.
        film_from_c: colder than this a finish forms no film; ``None``: it forms none, or does at
            any temperature. The label rules.
        film_min: in how many minutes the film forms; ``None``: by ``touch_min``.
        drip_min: minutes it drips after the bath, before anybody wipes or turns it.
        watch_every_min, watch_for_min: dipped, it is turned and wiped every so many minutes for so
            many, or it streaks; 0: it is not watched.
        water_share: of alcohol, the share of water in it, which leaves last.
        reference_mm: thickness the times hold for; ``None``: it dries on the surface, whatever that is.
        faces: how many faces the times hold for.
        solvent: what evaporates and burns; empty: nothing that does.
        solvent_g_per_ml: grams of it in a millilitre of the liquid.
        lel_g_per_m3: its lower explosive limit in air, with ``lel_source``.
        limit_g_per_m3: what a workplace may have of it in its air over a day, with ``limit_source``.
        missed_remedy: what to do where the latest time to shape or to coat was missed.
        missed_is_loss: nothing helps then: the part is lost.
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
    dip_per_part_min: float | None = None
    wipe_ml_per_dm2: float = 0.0
    dip_ml_per_dm2: float = 0.0
    after_dye: bool = False
    price_per_litre: float | None = None
    cure_min: int | None = None
    cure_before: tuple[str, ...] = ()
    recoat_by_min: int | None = None
    film_from_c: float | None = None
    film_min: int | None = None
    drip_min: int = 0
    watch_every_min: int = 0
    watch_for_min: int = 0
    water_share: float = 0.0
    reference_mm: float | None = None
    faces: int = 2
    solvent: str = ""
    solvent_g_per_ml: float = 0.0
    lel_g_per_m3: float | None = None
    lel_source: str = ""
    limit_g_per_m3: float | None = None
    limit_source: str = ""
    missed_remedy: str = ""
    missed_is_loss: bool = False


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
    """All catalogues together; ``pins`` are for the dry fit."""

    leathers: tuple[Leather, ...]
    fasteners: tuple[Fastener, ...]
    treatments: tuple[TreatmentEntry, ...]
    durations: tuple[Duration, ...]
    hardware: tuple[HardwareEntry, ...] = ()
    supplies: tuple[SupplyEntry, ...] = ()
    tools: tuple[ToolEntry, ...] = ()
    salvages: tuple[Salvage, ...] = ()
    pins: tuple[PinEntry, ...] = ()
    measures: tuple[BodyMeasure, ...] = ()
    currency: str = ""
    constants: Constants = field(default_factory=Constants)

    def leather(self, leather_id: str) -> Leather | None:
        """Return a leather by id, or ``None``."""
        return next((e for e in self.leathers if e.id == leather_id), None)

    def fastener(self, fastener_id: str) -> Fastener | None:
        """Return a fastener by id, or ``None``."""
        return next((e for e in self.fasteners if e.id == fastener_id), None)

    def treatment(self, treatment_id: str) -> TreatmentEntry | None:
        """Return a treatment by id, or ``None``."""
        return next((e for e in self.treatments if e.id == treatment_id), None)

    def measure(self, measure_id: str) -> BodyMeasure | None:
        """Return a measure of the body by id, or ``None``."""
        return next((e for e in self.measures if e.id == measure_id), None)

    def hardware_entry(self, entry_id: str) -> HardwareEntry | None:
        """Return a buckle, ring or loop by id, or ``None``."""
        return next((e for e in self.hardware if e.id == entry_id), None)

    def supply(self, supply_id: str) -> SupplyEntry | None:
        """Return a thread or lace by id, or ``None``."""
        return next((e for e in self.supplies if e.id == supply_id), None)

    def duration(self, kind: str) -> Duration:
        """Return the duration entry of a step kind; KeyError where the catalogue lacks it."""
        for entry in self.durations:
            if entry.kind == kind:
                return entry
        raise KeyError(kind)
