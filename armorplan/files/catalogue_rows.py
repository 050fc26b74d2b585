"""Reads single entries of the catalogues: a leather, a fastener, a supply, a tool, a duration."""

from collections.abc import Callable

from armorplan.files.limits import (
    EACH,
    LENGTH,
    LENGTH_OR_NONE,
    NEUTRAL,
    OVER_STACK,
    PER_SEAM,
    PRICES,
    THICKNESS_OR_NONE,
    WORK,
)
from armorplan.files.tables import Table
from armorplan.files.values import (
    Bounds,
    flag,
    maybe_number,
    maybe_text,
    number,
    numbers,
    text,
    texts,
)
from armorplan.files.words import maybe_word, pair, some, word, words_of
from armorplan.kernel.units import DM2_PER_SQUARE_FOOT
from armorplan.steps.model import SETS_JOINT, StepKind
from armorplan.workshop.shelf import (
    FEET,
    MOTIONS,
    TANNINGS,
    USUAL_YIELD_PCT,
    Duration,
    Fastener,
    HardwareEntry,
    Leather,
    SupplyEntry,
    ToolEntry,
)

MACHINE_CUT = "cut by machine"
"""Takes the place of 'cut' where an option says so; it is no kind of step of its own."""
_PCT = Bounds(above=0, most=100)
_FASTENERS = ("rivet", "screw")
_HARDWARE = ("buckle", "ring", "loop", "stud")
_SUPPLIES = ("thread", "lace")


def read_leather(key: str, row: Table) -> Leather:
    """Read a leather; its price may be told for a square foot or a square decimetre."""
    return Leather(
        id=key,
        name=text(row, "name"),
        usual_mm=pair(row, "usual_mm", THICKNESS_OR_NONE),
        source=text(row, "source"),
        yield_pct=number(row, "yield_pct", _PCT, default=USUAL_YIELD_PCT),
        price_per_dm2=_price_per_dm2(row),
        neutral=maybe_number(row, "neutral", NEUTRAL),
        tanning=maybe_word(row, "tanning", TANNINGS),
    )


def _price_per_dm2(row: Table) -> float | None:
    per_dm2 = maybe_number(row, "price_per_dm2", PRICES)
    per_ft2 = maybe_number(row, "price_per_ft2", PRICES)
    if per_ft2 is None:
        return per_dm2
    if per_dm2 is not None:
        row.fault(
            "price_per_ft2",
            "two-prices",
            f"{row.name_of('price_per_ft2')} stands beside a price_per_dm2.",
            mend="Keep one of the two.",
        )
    return per_ft2 / DM2_PER_SQUARE_FOOT


def read_fastener(key: str, row: Table) -> Fastener:
    """Read a fastener with its posts on sale."""
    lengths_mm = numbers(row, "lengths_mm", LENGTH_OR_NONE)
    if lengths_mm and lengths_mm[0] <= 0:
        row.wrong("lengths_mm", row.raw("lengths_mm"), wanted="lengths above 0 mm")
    return Fastener(
        id=key,
        name=text(row, "name"),
        kind=word(row, "kind", _FASTENERS),
        head_mm=number(row, "head_mm", LENGTH_OR_NONE),
        hole_mm=number(row, "hole_mm", LENGTH_OR_NONE),
        lengths_mm=lengths_mm,
        over_stack_mm=pair(row, "over_stack_mm", OVER_STACK),
        source=text(row, "source"),
        load=flag(row, "load", default=True),
        price_each=maybe_number(row, "price_each", PRICES),
        motion=maybe_word(row, "motion", MOTIONS),
        foot=maybe_word(row, "foot", FEET),
    )


def read_hardware(key: str, row: Table) -> HardwareEntry:
    """Read a buckle, ring, loop or stud."""
    return HardwareEntry(
        id=key,
        name=text(row, "name"),
        kind=word(row, "kind", _HARDWARE),
        strap_mm=number(row, "strap_mm", LENGTH),
        source=text(row, "source"),
        price_each=maybe_number(row, "price_each", PRICES),
    )


def read_supply(key: str, row: Table) -> SupplyEntry:
    """Read a thread or lace."""
    return SupplyEntry(
        id=key,
        name=text(row, "name"),
        kind=word(row, "kind", _SUPPLIES),
        per_seam=number(row, "per_seam", PER_SEAM),
        extra_mm=number(row, "extra_mm", LENGTH_OR_NONE),
        source=text(row, "source"),
        price_per_m=maybe_number(row, "price_per_m", PRICES),
    )


def read_tool(key: str, row: Table) -> ToolEntry:
    """Read a tool; it serves kinds of step by their names."""
    serves = texts(row, "serves", required=True)
    for kind in serves:
        _check_step_kind(row, "serves", kind)
    return ToolEntry(
        id=key,
        name=text(row, "name"),
        serves=serves,
        source=text(row, "source"),
        cautions=texts(row, "cautions"),
        reach_mm=maybe_number(row, "reach_mm", LENGTH_OR_NONE),
        opening_mm=number(row, "opening_mm", LENGTH_OR_NONE, default=0.0),
        feet=words_of(row, "feet", [foot for foot in FEET if foot]),
        flat_inside=flag(row, "flat_inside", default=False),
        outside=flag(row, "outside", default=False),
        takes_out=flag(row, "takes_out", default=False),
    )


def duration_reader() -> Callable[[str, Table], Duration]:
    """Return a reader of durations that tells a kind of step given twice.

    The id of a duration's table is only a slug; ``kind`` names the kind of step.
    """
    slugs: dict[str, str] = {}

    def read_duration(key: str, row: Table) -> Duration:
        kind = text(row, "kind")
        _check_step_kind(row, "kind", kind)
        first = slugs.setdefault(kind, key)
        if kind and first != key:
            row.fault(
                "kind",
                "kind-twice",
                f'{row.name_of("kind")}: the minutes of "{kind}" stand under [{first}] already.',
                mend=f"Change them there: write [{first}] here.",
            )
        return Duration(
            kind=kind,
            fixed_min=number(row, "fixed_min", WORK, default=0.0),
            per_part_min=number(row, "per_part_min", WORK, default=0.0),
            per_hole_min=number(row, "per_hole_min", EACH, default=0.0),
            per_cm_min=number(row, "per_cm_min", EACH, default=0.0),
            tool=maybe_text(row, "tool") or "",
            cautions=texts(row, "cautions"),
            source=text(row, "source"),
        )

    return read_duration


def _check_step_kind(row: Table, key: str, kind: str) -> None:
    known = {*StepKind, MACHINE_CUT}
    if not kind or kind in known:
        return
    near = row.faults.nearest(kind, known)
    names = f"the name of a kind of step, as durations.toml has them: {some(sorted(SETS_JOINT))} or another"
    row.wrong(key, kind, wanted=f'"{near}"' if near else names)
