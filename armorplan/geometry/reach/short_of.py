"""Joints of which shapes do not tell whether a tool gets to them, when it is their turn.

Each shell is gone through as it is set: what else sits on it first, then row after row in its own
order. As the last comes the row that leaves the fewest joints in doubt.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from math import ceil
from typing import NamedTuple

from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.reach.gathered import Reach
from armorplan.geometry.reach.margins import IN_MM, Gauge, gauges
from armorplan.geometry.reach.model import Row, Shell, Standing, Way
from armorplan.geometry.reach.openings import made_at
from armorplan.geometry.reach.words import tool_name
from armorplan.geometry.told import listed
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

WELL_SHORT = 0.8
"""A reach of less than this share of the way along the leather is well short of it."""


class _Offer(NamedTuple):
    """A way in, and a tool that goes in there with its reach in mm."""

    way: Way
    tool: str
    reach_mm: float


_Found = dict[str, _Offer]


def short_of(pattern: Pattern, shelf: Shelf, reach: Reach) -> Iterator[Measure]:
    """Yield by piece one line on joints that lie between what a tool needs at least and at most."""
    by_piece: dict[str, _Found] = defaultdict(dict)
    for shell in reach.drawn.shells.values():
        piece = pattern.part(shell.parts[0]).piece
        by_piece[piece] |= _in_shell(reach, shell)
    for piece, found in by_piece.items():
        if found:
            name = next((each.name for each in pattern.pieces if each.id == piece), piece)
            yield _measure(shelf, reach, (piece, name), found)


def _in_shell(reach: Reach, shell: Shell) -> _Found:
    gauge = gauges(reach.drawn, reach.bench)[shell.id]
    in_rows = {joint for row in shell.rows for joint in row.joints}
    seats = [j for j in shell.seats if j not in in_rows and _is_at(gauge, j)]
    deep = [row for row in shell.rows if any(_is_deep(reach, gauge, j) for j in row.joints)]
    found = _short(reach, gauge, [(j, frozenset()) for j in seats if _is_deep(reach, gauge, j)])
    if not deep:
        return found
    runs = {row.id: reach.runs.get(row.id, row.joints) for row in shell.rows}
    alone = {row.id: _in_row(reach, gauge, runs[row.id], frozenset()) for row in deep}
    last = {
        row.id: _in_row(reach, gauge, runs[row.id], frozenset(in_rows.difference(row.joints)))
        for row in shell.rows
    }
    least = min(shell.rows, key=lambda row: (len(last[row.id]), row.id))
    for each in alone.values():
        found |= each
    return found | last[least.id]


def _is_at(gauge: Gauge, joint: str) -> bool:
    return joint in gauge.access and gauge.access[joint].shell == gauge.shell.id


def _is_deep(reach: Reach, gauge: Gauge, joint: str) -> bool:
    """Tell whether no tool gets to a joint from a mouth for sure; all others are passed over."""
    tools = reach.bench.tools.get(joint, ())
    if not tools or not _is_at(gauge, joint):
        return False
    longest_mm = max(tool.reach_mm or 0.0 for tool in tools)
    from_rims = [way.along_mm for way in gauge.access[joint].ways if not way.row]
    return min(from_rims, default=0.0) * WELL_SHORT > longest_mm


def _in_row(reach: Reach, gauge: Gauge, run: Sequence[str], made: frozenset[str]) -> _Found:
    return _short(reach, gauge, [(joint, made.union(run[:at])) for at, joint in enumerate(run)])


def _short(reach: Reach, gauge: Gauge, asked: Iterable[tuple[str, frozenset[str]]]) -> _Found:
    """Return of joints, each with what is set before it, those that all tools may be too short for.

    One without any reach is told of by itself.
    """
    found = {}
    for joint, made in asked:
        if gauge.margin(joint, made).standing is Standing.END:
            best = max(_offers(reach, gauge, joint, made), key=_share, default=None)
            if best is not None and best.reach_mm > IN_MM and _share(best) < WELL_SHORT:
                found[joint] = best
    return found


def _offers(reach: Reach, gauge: Gauge, joint: str, made: frozenset[str]) -> Iterator[_Offer]:
    """Yield the tools that go in at each way in, if only squashed wider."""
    state, squash = made_at(gauge.places, made | {joint}), reach.bench.squash(joint)
    for way in gauge.ways(joint):
        wide_mm = gauge.opening_mm(way, state) * squash
        for tool in reach.bench.tools.get(joint, ()):
            if 0 < wide_mm >= tool.opening_mm:
                yield _Offer(way, tool.id, tool.reach_mm or 0.0)


def _share(offer: _Offer) -> float:
    return offer.reach_mm / max(offer.way.along_mm, IN_MM)


def ranged(joints: Sequence[str], rows: Sequence[Row]) -> list[str]:
    """Name joints in quotes; those that lie side by side in a row by the first and last of them."""
    place = {joint: (row.id, at) for row in rows for at, joint in enumerate(row.joints)}
    alone = [f"'{joint}'" for joint in sorted(set(joints).difference(place))]
    inside = sorted(set(joints).intersection(place), key=lambda joint: place[joint])
    steps = enumerate(inside)
    runs = groupby(steps, key=lambda step: (place[step[1]][0], place[step[1]][1] - step[0]))
    held = [[joint for _, joint in run] for _, run in runs]
    return alone + [
        f"'{run[0]}' to '{run[-1]}'" if len(run) > 2 else " and ".join(f"'{j}'" for j in run)  # noqa: PLR2004
        for run in held
    ]


def _measure(shelf: Shelf, reach: Reach, piece: tuple[str, str], found: _Found) -> Measure:
    ways = [offer.way for offer in found.values()]
    least_mm, most_mm = min(way.least_mm for way in ways), max(way.along_mm for way in ways)
    reaches = {offer.tool: offer.reach_mm for offer in found.values()}
    tools = [
        f"the {tool_name(shelf, tool)}, {mm:.0f} mm"
        for tool, mm in sorted(reaches.items(), key=lambda each: (-each[1], each[0]))
    ]
    names = listed(ranged(tuple(found), reach.rows))
    count = len(found)
    lie, they, come, them = (
        ("lies", "it", "comes", "it") if count == 1 else ("lie", "they", "come", "them")
    )
    most = "the longest tool that goes in there is" if len(tools) == 1 else "what goes in there is"
    told = Finding(
        code="reach-not-sure",
        severity=Severity.WARNING,
        text=f"{names} of {piece[1]} {lie} between {least_mm:.0f} and {most_mm:.0f} mm in when {they} "
        f"{come} to be set, and {most} {listed(tools, named=3)}: the shapes do not tell whether a tool "
        f"gets to {them}.",
        remedy="Try it at the dry fit, before anything is permanent. If none gets there, set "
        f"{them} while more of the rows is open, use a tool that gets in {ceil(most_mm)} mm and say "
        "its reach_mm in tools.toml, or close with screw posts from outside.",
        about=tuple(sorted(found)),
    )
    return Measure(
        id=f"reach:short:{piece[0]}",
        topic=Topic.REACH,
        title=f"{piece[1]}: to be tried",
        verdict=f"{count} joint{'s' * (count != 1)} perhaps out of reach",
        text=told.text,
        findings=(told,),
        about=told.about,
    )
