"""Which orders hold otherwise once a tool has the reach that a trial at the bench taught."""

from dataclasses import replace

from armorplan.app.derived import Derived
from armorplan.app.learned_reach import LearnedReach
from armorplan.geometry.reach.firm_words import flips_told
from armorplan.geometry.reach.firmness import Flip, flips_by_tool
from armorplan.geometry.reach.gathered import reach_of


def turned_by(derived: Derived, learned: LearnedReach) -> tuple[Flip, ...] | None:
    """Return the orders by reach that flip with what was learned; ``None`` where nothing follows."""
    if learned.becomes_mm is None:
        return None
    shelf = derived.shelf
    tool = next(tool for tool in shelf.tools if tool.id == learned.tool)
    longer = replace(tool, reach_mm=learned.becomes_mm)
    other = replace(shelf, tools=tuple(longer if t is tool else t for t in shelf.tools))
    now, then = (reach_of(derived.pattern, each) for each in (shelf, other))
    return flips_by_tool(now, then, tool, learned.becomes_mm)


def turned_words(flips: tuple[Flip, ...] | None) -> tuple[str, ...]:
    """Say which orders flip, one sentence each; nothing where nothing follows."""
    if flips is None:
        return ()
    if not flips:
        return ("With that, no order by reach holds otherwise.",)
    count = "1 order" if len(flips) == 1 else f"{len(flips)} orders"
    return (f"With that, {count} by reach would hold otherwise:", *flips_told(flips))
