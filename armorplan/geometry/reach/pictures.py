"""Makes the section of a way in out of a margin: which opening, which tools, and how far they get."""

from collections.abc import Iterable, Iterator
from math import isinf
from typing import NamedTuple

from armorplan.geometry.reach.gathered import Reach
from armorplan.geometry.reach.margins import IN_MM
from armorplan.geometry.reach.model import Margin, Rim, Shell, Standing, Through, Way
from armorplan.geometry.reach.words import is_at_most, way_words
from armorplan.geometry.ways_in import (
    Fits,
    Getting,
    ReachPicture,
    Section,
    SectionTool,
    SectionWay,
)
from armorplan.workshop.shelf import ToolEntry

_GETTING = {
    Standing.FLAT: Getting.FLAT,
    Standing.CURVED: Getting.REACHED,
    Standing.INSIDE: Getting.REACHED,
    Standing.END: Getting.DOUBTFUL,
    Standing.CANNOT: Getting.CANNOT,
}


class _At(NamedTuple):
    """A way in, and how wide it stands in mm."""

    way: Way
    wide_mm: float


def reach_picture(
    reach: Reach, joint: str, states: Iterable[tuple[str, Margin]]
) -> ReachPicture | None:
    """Return the ways in to a joint in several states.

    Args:
        reach: what is reckoned of its pattern.
        joint: its plain id.
        states: each in words, with how the joint is set in it; what says the same as the one before
            is left out.

    Returns:
        ``None`` where there is nothing to see: no tool has to go in in any of them.
    """
    sections = tuple(_once(_section(reach, joint, *state) for state in states))
    if all(each.way is None and each.getting is not Getting.CANNOT for each in sections):
        return None
    return ReachPicture(joint=joint, sections=sections)


def _once(sections: Iterable[Section]) -> Iterator[Section]:
    last: Section | None = None
    for each in sections:
        if last is None or (each.getting, each.way, each.tool) != (
            last.getting,
            last.way,
            last.tool,
        ):
            yield each
        last = each


def _section(reach: Reach, joint: str, when: str, margin: Margin) -> Section:
    shell = reach.drawn.shell_of(joint)
    at = None if shell is None else _way_of(reach, joint, margin)
    if shell is None or at is None:
        return Section(when=when, getting=_GETTING[margin.standing])
    squash = reach.bench.squash(joint)
    tools = sorted(
        reach.bench.tools.get(joint, ()),
        key=lambda each: (each.id != margin.tool, -(each.reach_mm or 0.0), each.id),
    )
    return Section(
        when=when,
        getting=_GETTING[margin.standing],
        way=_told(shell, at, squash),
        tools=tuple(_tool(each, at.wide_mm, squash) for each in tools),
    )


def _way_of(reach: Reach, joint: str, margin: Margin) -> _At | None:
    """Return the way in that is told; where no tool goes in anywhere, the widest mouth."""
    if margin.standing is Standing.FLAT:
        return None
    if margin.way is not None:
        return _At(margin.way, margin.opening_mm or 0.0)
    if margin.standing not in (Standing.CANNOT, Standing.END):
        return None
    rims = [way for way in reach.drawn.access[joint].ways if way.through is Through.RIM]
    widest = max(rims, key=lambda way: (way.opening_mm or 0.0, -way.along_mm), default=None)
    return None if widest is None else _At(widest, widest.opening_mm or 0.0)


def _told(shell: Shell, at: _At, squash: float) -> SectionWay:
    way, wide_mm = at
    rim = next((each for each in shell.rims if each.id == way.name), None)
    return SectionWay(
        name=_name(shell, way, rim),
        along_mm=way.along_mm,
        least_mm=max(way.least_mm, min(IN_MM, way.along_mm)),
        opening_mm=None if isinf(wide_mm) else wide_mm,
        squashed_mm=None if isinf(wide_mm) else wide_mm * squash,
        at_most=rim is not None and is_at_most(shell, rim),
        hollow=shell.hollow,
    )


def _name(shell: Shell, way: Way, rim: Rim | None) -> str:
    """Name an opening: ``mouth``, ``mouth 2``, ``open left row``."""
    if rim is not None:
        return "mouth" if len(shell.rims) == 1 else f"mouth {shell.rims.index(rim) + 1}"
    return way_words(way, {row.id: row.name for row in shell.rows}).removeprefix("by the ")


def _tool(tool: ToolEntry, wide_mm: float, squash: float) -> SectionTool:
    fits = Fits.OPEN if wide_mm >= tool.opening_mm else Fits.SQUASHED
    if wide_mm * squash < tool.opening_mm:
        fits = Fits.NOT
    return SectionTool(
        id=tool.id,
        name=tool.name,
        reach_mm=tool.reach_mm or 0.0,
        thick_mm=tool.opening_mm,
        fits=fits,
    )
