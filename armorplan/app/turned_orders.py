"""Which orders hold otherwise once a tool has the reach that a trial at the bench taught."""

from dataclasses import replace
from functools import partial

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


def joint_title(derived: Derived, joint: str) -> str:
    """Return the title of the step that sets a joint, of a pair the first; else its plain id."""
    for sided in derived.assembly.joints:
        step = derived.work.setting(sided.id) if sided.joint.id == joint else None
        if step is not None:
            return step.title
    return joint


def turned_words(
    flips: tuple[Flip, ...] | None, derived: Derived | None = None
) -> tuple[str, ...]:
    """Say which orders flip, one sentence each, with titles of its steps; nothing: nothing follows."""
    if flips is None:
        return ()
    if not flips:
        return ("With that, no order by reach holds otherwise.",)
    told = flips_told(flips, None if derived is None else partial(joint_title, derived))
    count = "1 order" if len(told) == 1 else f"{len(told)} orders"
    return (f"With that, {count} by reach would hold otherwise:", *told)
