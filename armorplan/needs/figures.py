"""The take-off as single figures, each with its unit: what a table of any program can hold."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import chain
from typing import TypeVar

from armorplan.kernel.units import MM2_PER_DM2, mm2_to_square_feet, mm_to_ounces
from armorplan.needs.model import (
    Cost,
    GlueNeed,
    HardwareNeed,
    HoursNeed,
    LeatherNeed,
    LiquidNeed,
    Needs,
    PostNeed,
    RunNeed,
    ToolNeed,
    TrialPins,
    WasherNeed,
    WayNeed,
)
from armorplan.pattern.joining import Applying

_T = TypeVar("_T")
DONE_AS: Mapping[str, str] = {"casing": "cased", "cleaner": "cleaned", "hardener": "hardened"}
"""What is said of leather where a treatment is no coat, by the treatment's kind."""
WAY_WORDS = {Applying.WIPE: "wiped", Applying.DIP: "dipped"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One number of the take-off; ``amount`` is ``None`` where it is not known."""

    section: str
    item: str
    figure: str
    amount: float | None
    unit: str = ""
    note: str = ""


def thickness_words(least_mm: float | None, thickness_mm: float) -> str:
    """Return a thickness as it is sold: ``3.2 mm (8 oz)``, ``3.2–3.6 mm (8–9 oz)``."""
    ends = (thickness_mm,) if least_mm is None else (least_mm, thickness_mm)
    mm = "–".join(f"{end:.1f}" for end in ends)
    ounces = "–".join(f"{mm_to_ounces(end):.0f}" for end in ends)
    return f"{mm} mm ({ounces} oz)"


def leather_title(need: LeatherNeed) -> str:
    """Return a leather with its thickness, as it is asked for."""
    return f"{need.name}, {thickness_words(need.least_mm, need.thickness_mm)}"


def post_title(need: PostNeed) -> str:
    """Return a fastener with its post, or that none fits."""
    if need.length_mm is None:
        return f"{need.name}, no post on sale fits"
    return f"{need.name}, post {need.length_mm:g} mm"


def liquid_title(need: LiquidNeed) -> str:
    """Return a treatment with its colour."""
    return f"{need.name}, {need.colour}" if need.colour else need.name


def figures(needs: Needs) -> tuple[Figure, ...]:
    """Return every figure of the take-off, section after section."""
    return tuple(_all(needs))


def _all(needs: Needs) -> Iterator[Figure]:
    money = needs.cost.currency
    yield from _each(needs.leather, lambda one: _leather(one, money))
    yield from _each(needs.posts, lambda one: _post(one, money))
    yield from _each(needs.washers, _washers)
    if needs.trial_pins is not None:
        yield _pins(needs.trial_pins)
    yield from _each(needs.hardware, lambda one: _hardware(one, money))
    yield from _each(needs.runs, lambda one: _run(one, money))
    yield from _each(needs.glue, lambda one: _glue(one, money))
    yield from _each(needs.liquids, lambda one: _liquid(one, money))
    yield from _each(needs.hours, lambda one: _hours("hours", one))
    yield from _each(needs.piece_hours, lambda one: _hours("hours by piece", one))
    yield from _each(needs.tools, _tool)
    yield _total(needs.cost)


def _each(rows: tuple[_T, ...], told: Callable[[_T], Iterable[Figure]]) -> Iterator[Figure]:
    return chain.from_iterable(map(told, rows))


def _washers(need: WasherNeed) -> Iterator[Figure]:
    item = f"Washers or spacers, {need.thickness_mm:g} mm in all"
    for figure, amount in (("set", need.count), ("spares", need.spares), ("buy", need.buy)):
        yield Figure(section="fasteners", item=item, figure=figure, amount=amount)


def _pins(need: TrialPins) -> Figure:
    return Figure(
        section="fasteners",
        item="Screw posts or split pins for the dry fit",
        figure="have ready",
        amount=need.count,
        note=need.dry_fit,
    )


def _tool(need: ToolNeed) -> Iterator[Figure]:
    note = ", ".join(need.kinds)
    yield Figure(section="tools", item=need.name, figure="have ready", amount=1, note=note)


def _leather(need: LeatherNeed, money: str) -> Iterator[Figure]:
    net_ft2 = mm2_to_square_feet(need.net_dm2 * MM2_PER_DM2)
    length_mm, width_mm = need.largest_mm
    for figure, amount, unit, note in (
        ("parts", need.parts, "", ""),
        ("area of the parts", need.net_dm2, "dm²", "inside the outlines"),
        ("area of the parts", net_ft2, "ft²", "inside the outlines"),
        ("share of a hide that ends in parts", need.yield_pct, "%", ""),
        ("buy", need.buy_dm2, "dm²", need.hide),
        ("buy", need.buy_ft2, "ft²", need.hide),
        ("buy in feet of 30 × 30 cm", need.feet_30, "", "9 dm² each"),
        ("mass at least", need.mass_g[0], "g", ""),
        ("mass at most", need.mass_g[1], "g", ""),
        ("largest part, length", length_mm, "mm", need.largest),
        ("largest part, width", width_mm, "mm", need.largest),
        ("cost", need.cost, money, ""),
    ):
        yield Figure(
            section="leather",
            item=leather_title(need),
            figure=figure,
            amount=amount,
            unit=unit,
            note=note,
        )


def _post(need: PostNeed, money: str) -> Iterator[Figure]:
    set_note = "" if need.length_mm is not None else ", ".join(need.joints)
    for figure, amount, unit, note in (
        ("set", len(need.joints), "", set_note),
        ("spares", need.spares, "", ""),
        ("buy", need.buy, "", ""),
        ("stack at least", need.stack_mm[0], "mm", ""),
        ("stack at most", need.stack_mm[1], "mm", ""),
        ("cost", need.cost, money, ""),
    ):
        yield Figure(
            section="fasteners",
            item=post_title(need),
            figure=figure,
            amount=amount,
            unit=unit,
            note=note,
        )


def _hardware(need: HardwareNeed, money: str) -> Iterator[Figure]:
    yield Figure(section="hardware", item=need.name, figure="buy", amount=need.count)
    yield Figure(section="hardware", item=need.name, figure="cost", amount=need.cost, unit=money)


def _run(need: RunNeed, money: str) -> Iterator[Figure]:
    item = need.name or need.kind
    for figure, amount, unit in (
        ("rows", float(need.rows), ""),
        ("length of the rows", need.row_m, "m"),
        ("buy", need.metres, "m"),
        ("cost", need.cost, money),
    ):
        yield Figure(section="thread and lace", item=item, figure=figure, amount=amount, unit=unit)


def _glue(need: GlueNeed, money: str) -> Iterator[Figure]:
    item = need.name or "glue"
    for figure, amount, unit in (
        ("joints", float(need.joints), ""),
        ("area joined", need.area_dm2, "dm²"),
        ("buy", need.ml, "ml"),
        ("cost", need.cost, money),
    ):
        yield Figure(section="glue", item=item, figure=figure, amount=amount, unit=unit)


def _liquid(need: LiquidNeed, money: str) -> Iterator[Figure]:
    item = liquid_title(need)
    for figure, amount, unit in (
        (
            f"times {DONE_AS[need.kind]}" if need.kind in DONE_AS else "coats",
            float(need.coats),
            "",
        ),
        ("parts", float(need.parts), ""),
        ("area of the parts, one face", need.area_dm2, "dm²"),
    ):
        yield Figure(section="treatments", item=item, figure=figure, amount=amount, unit=unit)
    for way in (need.wiped, need.dipped):
        yield from _way(item, way, money, is_said=way.applying in need.says)


def _way(item: str, way: WayNeed, money: str, *, is_said: bool) -> Iterator[Figure]:
    word = WAY_WORDS[way.applying]
    for figure, amount, unit in (
        ("taken up", way.uptake_ml, "ml"),
        ("fill of the tray", way.fill_ml, "ml"),
        ("have ready", way.ready_ml, "ml"),
        ("hands on", way.minutes, "min"),
        ("cost", way.cost, money),
    ):
        if figure == "fill of the tray" and way.applying is Applying.WIPE:
            continue
        yield Figure(
            section="treatments",
            item=item,
            figure=f"{word}: {figure}",
            amount=amount,
            unit=unit,
            note="as the pattern says" if is_said else "",
        )


def _hours(section: str, need: HoursNeed) -> Iterator[Figure]:
    for figure, amount in (("hands on", need.hands_on_min), ("waiting", need.waiting_min)):
        yield Figure(section=section, item=need.name, figure=figure, amount=amount, unit="min")


def _total(cost: Cost) -> Figure:
    without = f"without {'; '.join(cost.without)}" if cost.without else ""
    return Figure(
        section="cost",
        item="Total",
        figure="cost",
        amount=cost.total,
        unit=cost.currency,
        note=without,
    )
