"""From a take-off to its sections in words."""

from collections.abc import Iterable, Iterator

from armorplan.app.derived import Derived
from armorplan.app.needs_liquids import liquid_section
from armorplan.app.needs_rows import NeedsPage, NeedsRow, NeedsSection
from armorplan.app.needs_words import (
    NOTHING,
    UNKNOWN,
    area_words,
    counted,
    minutes_words,
    money_words,
    volume_words,
)
from armorplan.needs.figures import leather_title, post_title
from armorplan.needs.gathering import gather_needs
from armorplan.needs.measures import LEAST_SPARES, SPARE_PCT
from armorplan.needs.model import HoursNeed, LeatherNeed, Needs, PostNeed
from armorplan.workshop.shop import USUAL_TRAY, Shop, Tray

_FOOT = (
    "A foot of 30 × 30 cm is 9 dm², 3.1 % less than a square foot. Mass: at 0.85 to 1.05 g/cm³ "
    "(from memory)."
)
_SPARES = (
    f"Spares: {SPARE_PCT:g} %, at least {LEAST_SPARES} of each length (common practice). Pins are "
    "used again from one dry fit to the next."
)
_WAITING = "Waiting is a sum; much of it runs side by side. The coming days tell when it ends."
_LONGEST_LIST = 6


def tray_named(shop: Shop, tray: str) -> Tray:
    """Return one of the shop's trays by id, or its first; the usual one where it has none."""
    trays = shop.trays or (USUAL_TRAY,)
    return next((one for one in trays if one.id == tray), trays[0])


def needs_of(derived: Derived, tray: Tray) -> Needs:
    """Return the take-off of a build, its baths reckoned for one tray."""
    return gather_needs(derived.assembly, derived.work, derived.shelf, tray)


def needs_page(needs: Needs, trays: tuple[Tray, ...] = ()) -> NeedsPage:
    """Return the take-off in words; sections without a row are left out."""
    sections = (
        _leather(needs),
        _fasteners(needs),
        _hardware(needs),
        _runs(needs),
        _glue(needs),
        liquid_section(needs),
        _hours(needs),
        _piece_hours(needs),
        _tools(needs),
        _cost(needs),
    )
    return NeedsPage(
        title=needs.pattern,
        tray=needs.tray.id,
        trays=tuple((tray.id, tray.name) for tray in trays or (needs.tray,)),
        sections=tuple(section for section in sections if section.rows),
    )


def _heads(needs: Needs, *heads: str) -> tuple[str, ...]:
    return (*heads, "Cost") if needs.cost.total is not None else heads


def _cells(needs: Needs, cost: float | None, *cells: str) -> tuple[str, ...]:
    if needs.cost.total is None:
        return cells
    return (*cells, money_words(cost, needs.cost.currency))


def _leather(needs: Needs) -> NeedsSection:
    return NeedsSection(
        id="leather",
        title="Leather",
        heads=_heads(needs, "Leather", "In the parts", "Buy"),
        rows=tuple(
            NeedsRow(
                cells=_cells(
                    needs,
                    one.cost,
                    leather_title(one),
                    f"{area_words(one.net_dm2)} in {counted(one.parts, 'part')}",
                    f"{area_words(one.buy_dm2)} ({one.buy_ft2:.2f} ft²)",
                ),
                remarks=tuple(_leather_remarks(one)),
            )
            for one in needs.leather
        ),
        notes=(_FOOT,),
    )


def _leather_remarks(need: LeatherNeed) -> Iterator[str]:
    feet = counted(need.feet_30, "foot", "feet")
    yield f"{need.hide.capitalize()}, or {feet} of 30 × 30 cm; {need.yield_pct:g} % of a hide ends in parts."
    length_mm, width_mm = need.largest_mm
    least_g, most_g = need.mass_g
    mass = f"{least_g:.0f}–{most_g:.0f} g" if most_g >= 1 else "under 1 g"
    box = f"{length_mm:.0f} × {width_mm:.0f} mm"
    yield f"Largest part: {need.largest}, {box}. All of them weigh {mass}."


def _fasteners(needs: Needs) -> NeedsSection:
    rows = [
        NeedsRow(
            cells=_cells(needs, one.cost, post_title(one), f"{len(one.joints)}", _to_buy(one)),
            remarks=tuple(_post_remarks(one)),
        )
        for one in needs.posts
    ]
    rows += [
        NeedsRow(
            cells=_cells(
                needs,
                None,
                f"Washers or spacers, {one.thickness_mm:g} mm in all",
                f"{one.count}",
                f"{one.buy} ({one.spares} spare)",
            )
        )
        for one in needs.washers
    ]
    if needs.trial_pins is not None:
        count = needs.trial_pins.count
        cells = ("Screw posts or split pins for the dry fit", f"{count}", "have ready")
        room = ("",) if needs.cost.total is not None else ()
        rows.append(NeedsRow(cells=(*cells, *room), remarks=(f"{needs.trial_pins.dry_fit}.",)))
    return NeedsSection(
        id="fasteners",
        title="Fasteners",
        heads=_heads(needs, "Fastener", "Set", "Buy"),
        rows=tuple(rows),
        notes=(_SPARES,),
    )


def _to_buy(need: PostNeed) -> str:
    return NOTHING if need.length_mm is None else f"{need.buy} ({need.spares} spare)"


def _post_remarks(need: PostNeed) -> Iterator[str]:
    least_mm, most_mm = (f"{end:.1f}" for end in need.stack_mm)
    stack = f"Stack {least_mm} mm" if least_mm == most_mm else f"Stacks {least_mm}–{most_mm} mm"
    if need.length_mm is not None:
        yield f"{stack}."
        return
    shown = ", ".join(need.joints[:_LONGEST_LIST])
    more = len(need.joints) - _LONGEST_LIST
    yield f"{stack}: {shown}{f' and {more} more' if more > 0 else ''}."
    yield "Skive a layer, add a washer, or choose another fastener."


def _hardware(needs: Needs) -> NeedsSection:
    return NeedsSection(
        id="hardware",
        title="Buckles, rings and loops",
        heads=_heads(needs, "Hardware", "Buy"),
        rows=tuple(
            NeedsRow(cells=_cells(needs, one.cost, one.name, f"{one.count}"))
            for one in needs.hardware
        ),
    )


def _runs(needs: Needs) -> NeedsSection:
    return NeedsSection(
        id="runs",
        title="Thread and lace",
        heads=_heads(needs, "Thread or lace", "Rows", "Buy"),
        rows=tuple(
            NeedsRow(
                cells=_cells(
                    needs,
                    one.cost,
                    one.name or f"{one.kind}, none named in the pattern",
                    f"{counted(one.rows, 'row')}, {one.row_m:.2f} m",
                    UNKNOWN if one.metres is None else f"{one.metres:.1f} m",
                )
            )
            for one in needs.runs
        ),
    )


def _glue(needs: Needs) -> NeedsSection:
    return NeedsSection(
        id="glue",
        title="Glue",
        heads=_heads(needs, "Glue", "Joined", "Buy"),
        rows=tuple(
            NeedsRow(
                cells=_cells(
                    needs,
                    one.cost,
                    one.name or "none named in the pattern",
                    f"{area_words(one.area_dm2)} in {counted(one.joints, 'joint')}",
                    volume_words(one.ml),
                )
            )
            for one in needs.glue
        ),
        notes=("Both faces coated once. Air drawn off, no flame near; the label rules.",),
    )


def _hour_rows(hours: Iterable[HoursNeed]) -> Iterator[NeedsRow]:
    for one in hours:
        work, wait = minutes_words(one.hands_on_min), minutes_words(one.waiting_min)
        yield NeedsRow(cells=(one.name, counted(one.steps, "step"), work, wait))


def _hours(needs: Needs) -> NeedsSection:
    total = HoursNeed(
        name="All work",
        steps=sum(one.steps for one in needs.hours),
        hands_on_min=sum(one.hands_on_min for one in needs.hours),
        waiting_min=sum(one.waiting_min for one in needs.hours),
    )
    return NeedsSection(
        id="hours",
        title="Hours",
        heads=("Work", "Steps", "Hands on", "Waiting"),
        rows=tuple(_hour_rows((*needs.hours, total))) if needs.hours else (),
        notes=(_WAITING,),
    )


def _piece_hours(needs: Needs) -> NeedsSection:
    return NeedsSection(
        id="piece_hours",
        title="Hours by piece",
        heads=("Piece", "Steps", "Hands on", "Waiting"),
        rows=tuple(_hour_rows(needs.piece_hours)),
    )


def _tools(needs: Needs) -> NeedsSection:
    return NeedsSection(
        id="tools",
        title="Tools",
        heads=("Tool", "For"),
        rows=tuple(NeedsRow(cells=(one.name, ", ".join(one.kinds))) for one in needs.tools),
    )


def _cost(needs: Needs) -> NeedsSection:
    cost = needs.cost
    if cost.total is None:
        none = NeedsRow(
            cells=("Not known",),
            remarks=("Nothing on the shelf has a price. Prices stand in your own catalogues.",),
        )
        return NeedsSection(id="cost", title="Cost", heads=("Total",), rows=(none,))
    without = (f"Without {'; '.join(cost.without)}: no price.",) if cost.without else ()
    name = "All of it, without what has no price" if cost.without else "All of it"
    total = NeedsRow(cells=(name, money_words(cost.total, cost.currency)), remarks=without)
    return NeedsSection(id="cost", title="Cost", heads=("Cost", "Total"), rows=(total,))
