"""The whole take-off of one build: everything it uses up, and what that costs."""

from collections.abc import Iterator

from armorplan.assembly.model import Assembly
from armorplan.needs.fasteners import hardware_needs, post_needs, trial_pins, washer_needs
from armorplan.needs.hours import hours_needs, piece_hours, tool_needs
from armorplan.needs.leather import leather_needs
from armorplan.needs.liquids import liquid_needs
from armorplan.needs.model import Cost, Needs
from armorplan.needs.supplies import glue_needs, run_needs
from armorplan.steps.model import Step, Work
from armorplan.steps.naming import with_side
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Tray


def gather_needs(assembly: Assembly, work: Work, shelf: Shelf, tray: Tray) -> Needs:
    """Return everything one build uses up.

    Args:
        assembly: all that is made, both sides.
        work: its steps, for hours, tools, casing and cleaning.
        shelf: names, yields, uptake and the maker's prices.
        tray: the one that baths are reckoned for.
    """
    names = {entry.id: entry.name for entry in assembly.pattern.pieces}
    names |= {harness.id: harness.name for harness in assembly.pattern.harnesses}

    def name_of(step: Step) -> str:
        return with_side(names.get(step.piece, step.piece), step.side)

    leather = leather_needs(assembly, shelf)
    posts, washers = post_needs(assembly, shelf), washer_needs(assembly)
    hardware = hardware_needs(assembly, shelf)
    runs, glue = run_needs(assembly, shelf), glue_needs(assembly, shelf)
    liquids = liquid_needs(assembly, work, shelf, tray)
    named: list[tuple[str, float | None]] = [(one.name, one.cost) for one in leather]
    named += [(one.name, one.cost) for one in posts]
    named += [(f"washers of {one.thickness_mm:g} mm", None) for one in washers]
    named += [(one.name, one.cost) for one in hardware]
    named += [(one.name or one.kind, one.cost) for one in runs]
    named += [(one.name or "glue", one.cost) for one in glue]
    named += [(one.name, one.counted.cost) for one in liquids if one.is_bought]
    return Needs(
        pattern=assembly.pattern.name,
        tray=tray,
        leather=leather,
        posts=posts,
        washers=washers,
        trial_pins=trial_pins(assembly, work),
        hardware=hardware,
        runs=runs,
        glue=glue,
        liquids=liquids,
        hours=hours_needs(work),
        piece_hours=piece_hours(work, name_of),
        tools=tool_needs(work, shelf),
        cost=_cost(shelf.currency, named),
    )


def _cost(currency: str, named: list[tuple[str, float | None]]) -> Cost:
    known = [cost for _, cost in named if cost is not None]
    return Cost(
        currency=currency,
        total=sum(known) if known else None,
        without=tuple(dict.fromkeys(_unpriced(named))),
    )


def _unpriced(named: list[tuple[str, float | None]]) -> Iterator[str]:
    for name, cost in named:
        if cost is None:
            yield name
