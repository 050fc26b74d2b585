"""Rows of a take-off: what one build uses up. Units stand in the names; costs in the maker's money."""

from dataclasses import dataclass

from armorplan.pattern.joining import Applying
from armorplan.workshop.shop import Tray


@dataclass(frozen=True, slots=True, kw_only=True)
class LeatherNeed:
    """One leather in one thickness as it is sold.

    Attributes:
        leather: its id in the catalogue.
        least_mm: lower end of the range it is sold in; ``None`` where one thickness is given.
        thickness_mm: its thickness, or the upper end of the range.
        parts: how many parts are cut from it.
        net_dm2: area inside all outlines; what is punched out of them is lost all the same.
        yield_pct: share of a hide that ends in parts.
        buy_dm2: net area over yield.
        feet_30: how many pieces of 30 × 30 cm make up the area to buy.
        mass_g: least and most mass of the cut parts.
        largest: name of the part with the longest box.
        largest_mm: length and width of that part's smallest box.
        hide: about how much of a hide that is, in words.
        cost: by the maker's price; ``None`` where the shelf has none.
    """

    leather: str
    name: str
    least_mm: float | None
    thickness_mm: float
    parts: int
    net_dm2: float
    yield_pct: float
    buy_dm2: float
    buy_ft2: float
    feet_30: int
    mass_g: tuple[float, float]
    largest: str
    largest_mm: tuple[float, float]
    hide: str
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PostNeed:
    """One fastener in one post length; ``length_mm`` is ``None`` where none on sale fits.

    ``stack_mm`` is the least and the most stack it holds, unpinched, washers included.
    """

    fastener: str
    name: str
    kind: str
    length_mm: float | None
    joints: tuple[str, ...]
    stack_mm: tuple[float, float]
    spares: int
    buy: int
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WasherNeed:
    """Washers or spacers of one thickness in all, for so many joints."""

    thickness_mm: float
    count: int
    spares: int
    buy: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialPins:
    """Temporary screw posts or split pins: enough for the largest dry fit; used again.

    ``dry_fit`` is the title of that step.
    """

    count: int
    dry_fit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareNeed:
    """A buckle, ring, loop or stud."""

    use: str
    name: str
    count: int
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class RunNeed:
    """Thread or lace; ``metres`` is ``None`` where the shelf does not say how much a row takes."""

    supply: str
    name: str
    kind: str
    rows: int
    row_m: float
    metres: float | None
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueNeed:
    """Glue for so many joints; ``area_dm2`` is what is joined, and both its faces are coated."""

    glue: str
    name: str
    joints: int
    area_dm2: float
    ml: float
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WayNeed:
    """What a treatment takes put on one way.

    Attributes:
        uptake_ml: what the leather (and the rag) takes up over all coats; ``None``: not known.
        fill_ml: what lies in the tray over the thickest part; 0 where it is wiped on.
        ready_ml: what has to be ready: fill and uptake together.
        minutes: hands on, one setting up for each coat; ``None``: not known.
        cost: of what has to be ready; what stays in the tray keeps its worth.
    """

    applying: Applying
    uptake_ml: float | None
    fill_ml: float
    ready_ml: float | None
    minutes: int | None
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LiquidNeed:
    """One treatment in one colour over all pieces and both sides: one bath.

    Attributes:
        coats: the most coats that any part gets.
        least_coats: the fewest that any of its parts gets.
        parts: how many parts get it.
        area_dm2: area of those parts, one face.
        faces: how many faces are wiped.
        says: how the pattern has it put on; empty where it does not say.
        lying_mm: how high the thickest part stands where it lies in the tray.
        counted_flat: formed parts whose height the pattern does not say; they stand higher.
        over_tray: parts whose box is larger than the tray.
        overfull: the tray is not deep enough for the fill.
        flammable: it carries a solvent that burns; an open tray of it calls for more care.
        is_bought: water is not.
    """

    treatment: str
    name: str
    kind: str
    colour: str
    coats: int
    least_coats: int
    parts: int
    area_dm2: float
    faces: int
    wiped: WayNeed
    dipped: WayNeed
    says: tuple[Applying, ...]
    lying_mm: float
    counted_flat: tuple[str, ...]
    over_tray: tuple[str, ...]
    overfull: bool
    flammable: bool
    is_bought: bool

    @property
    def counted(self) -> WayNeed:
        """The way whose cost is counted: dipped where the pattern dips or wiping is not known."""
        only_dipped = not self.is_known(self.wiped) and self.is_known(self.dipped)
        return self.dipped if Applying.DIP in self.says or only_dipped else self.wiped

    def is_known(self, way: WayNeed) -> bool:
        """Tell whether the catalogue has this way; without any uptake its minutes tell."""
        if self.wiped.uptake_ml is None and self.dipped.uptake_ml is None:
            return way.minutes is not None
        return way.uptake_ml is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class HoursNeed:
    """Minutes of one group of work or of one piece; waiting is a sum, and much of it is shared."""

    name: str
    steps: int
    hands_on_min: int
    waiting_min: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ToolNeed:
    """A tool and the kinds of step it serves here."""

    name: str
    kinds: tuple[str, ...]
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What the build costs by the maker's prices.

    ``total`` is ``None`` where nothing has a price; ``without`` names all that has none.
    """

    currency: str
    total: float | None
    without: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Needs:
    """Everything one build uses up."""

    pattern: str
    tray: Tray
    leather: tuple[LeatherNeed, ...]
    posts: tuple[PostNeed, ...]
    washers: tuple[WasherNeed, ...]
    trial_pins: TrialPins | None
    hardware: tuple[HardwareNeed, ...]
    runs: tuple[RunNeed, ...]
    glue: tuple[GlueNeed, ...]
    liquids: tuple[LiquidNeed, ...]
    hours: tuple[HoursNeed, ...]
    piece_hours: tuple[HoursNeed, ...]
    tools: tuple[ToolNeed, ...]
    cost: Cost
