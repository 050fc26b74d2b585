"""The treatments of a take-off, wiped on and dipped side by side."""

from collections.abc import Callable, Iterable, Iterator
from itertools import chain

from armorplan.app.needs_rows import NeedsRow, NeedsSection
from armorplan.app.needs_words import NOTHING, counted, minutes_words, money_words, volume_words
from armorplan.needs.figures import DONE_AS, liquid_title
from armorplan.needs.liquids import OVER_PART_MM
from armorplan.needs.model import LiquidNeed, Needs, WayNeed
from armorplan.pattern.joining import Applying

SAID = "\N{CHECK MARK} as the pattern says"
_LONGEST_LIST = 4
_TIMES = {1: "once", 2: "twice"}
_OPEN_TRAY = (
    "an open tray burns easily and gives off far more vapour than a rag. No flame, sparks or "
    "heater near, air drawn off, the lid on whenever nobody dips."
)
_LABELS = "Labels, local codes and licensed practice rule over all of this."


def liquid_section(needs: Needs) -> NeedsSection:
    """Return the treatments: taken up, ready, hands on, and cost, each way."""
    return NeedsSection(
        id="treatments",
        title="Dye, oil, finish and water",
        heads=("Treatment", "Wiped on", "Dipped"),
        rows=tuple(row for need in needs.liquids for row in _rows(need, needs)),
        notes=tuple(_notes(needs)),
    )


def _notes(needs: Needs) -> Iterator[str]:
    """Yield what holds for the tray, each once for all that can be dipped."""
    tray = needs.tray
    dipped = [need for need in needs.liquids if need.is_known(need.dipped)]
    if dipped:
        depth = f"filled {OVER_PART_MM:g} mm over the part that stands highest in it"
        yield f"The tray is {tray.length_mm:.0f} × {tray.width_mm:.0f} mm, {depth}."
    if flat := _named(need.counted_flat for need in dipped):
        yield (
            f"Counted flat in the tray: {flat}. Formed they stand higher; how far they are bent "
            "is not in the pattern."
        )
    if large := _named(need.over_tray for need in dipped):
        yield f"Larger than the tray when flat: {large}."
    if solvents := _named((need.name,) for need in dipped if need.flammable):
        yield f"{solvents}: {_OPEN_TRAY}"
    yield _LABELS


def _rows(need: LiquidNeed, needs: Needs) -> Iterator[NeedsRow]:
    ways = (need.wiped, need.dipped)
    said = tuple(SAID if way.applying in need.says else "" for way in ways)
    yield NeedsRow(cells=(liquid_title(need), *said), remarks=tuple(_remarks(need, needs)))
    yield _under("Taken up", need, lambda way: volume_words(way.uptake_ml))
    if need.is_known(need.dipped):
        yield _under("Left in the tray", need, lambda way: volume_words(way.fill_ml))
    yield _under("Have ready", need, lambda way: volume_words(way.ready_ml))
    yield _under("Hands on", need, lambda way: minutes_words(way.minutes))
    if need.is_bought and needs.cost.total is not None:
        yield _under("Costs", need, lambda way: money_words(way.cost, needs.cost.currency))


def _under(name: str, need: LiquidNeed, told: Callable[[WayNeed], str]) -> NeedsRow:
    ways = (need.wiped, need.dipped)
    cells = (told(way) if need.is_known(way) else NOTHING for way in ways)
    return NeedsRow(cells=(name, *cells), under=True)


def _remarks(need: LiquidNeed, needs: Needs) -> Iterator[str]:
    size = f"{counted(need.parts, 'part')}, {need.area_dm2:.1f} dm², {_how_often(need)}"
    faces = "one face wiped" if need.faces == 1 else "both faces wiped"
    yield f"{size}; {faces}." if need.is_known(need.wiped) else f"{size}."
    if not need.is_known(need.dipped):
        if Applying.DIP in need.says:
            yield "The pattern dips it, but the shelf has no figures for dipping it."
        return
    if need.overfull:
        yield (
            f"The tray is {needs.tray.depth_mm:.0f} mm deep, and the fill would have to be "
            f"{need.lying_mm + OVER_PART_MM:.0f} mm: turn formed parts in less of it."
        )


def _how_often(need: LiquidNeed) -> str:
    at_most = "up to " if need.least_coats < need.coats else ""
    if need.kind not in DONE_AS:
        return f"{at_most}{counted(need.coats, 'coat')}"
    return f"{DONE_AS[need.kind]} {at_most}{_TIMES.get(need.coats) or f'{need.coats} times'}"


def _named(lists: Iterable[tuple[str, ...]]) -> str:
    """Return all names once, in their order; a long list is cut short and counted."""
    return _listed(tuple(dict.fromkeys(chain.from_iterable(lists))))


def _listed(names: tuple[str, ...]) -> str:
    if len(names) <= _LONGEST_LIST:
        return ", ".join(names)
    return f"{', '.join(names[:_LONGEST_LIST])} and {len(names) - _LONGEST_LIST} more"
