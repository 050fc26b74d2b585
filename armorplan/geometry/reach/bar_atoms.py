"""What closes at once, seen from a joint, and the ways in that it offers while it stands open."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import inf

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.margins import Offer, deep_in, needed_mm
from armorplan.geometry.reach.model import Row, Standing, Way

BELOW, ABOVE = "<", ">"


@dataclass(frozen=True, slots=True)
class Atom:
    """What closes at once: another row, or a side of the joint's own; open, it offers ways in."""

    id: str
    offers: tuple[Offer, ...]
    own: frozenset[str] = frozenset()


def sides(row: Row, at_mm: float) -> dict[str, frozenset[str]]:
    """Return the joints on either side of a place along a row."""
    along = list(zip(row.joints, row.at_mm, strict=True))
    return {
        BELOW: frozenset(joint for joint, there_mm in along if there_mm < at_mm),
        ABOVE: frozenset(joint for joint, there_mm in along if there_mm > at_mm),
    }


def shortest(ways: Iterable[Way], own: str) -> dict[str, tuple[Way, ...]]:
    """Return by row, but its own, the shortest ways by either bound: open, it admits all tools."""
    along: dict[str, Way] = {}
    least: dict[str, Way] = {}
    for way in ways:
        row = way.row
        if not row or row == own:
            continue
        if row not in along or way.along_mm < along[row].along_mm:
            along[row] = way
        if row not in least or way.least_mm < least[row].least_mm:
            least[row] = way
    return {
        row: (way,) if way.least_mm <= least[row].least_mm else (way, least[row])
        for row, way in along.items()
    }


def telling(offers: Sequence[Offer]) -> Iterator[Offer]:
    """Yield of the ways that admit any tool the shortest by either bound: no other counts."""
    wide = [offer for offer in offers if offer[1] == inf]
    if wide:
        yield min(wide, key=lambda offer: offer[0].along_mm)
        yield min(wide, key=lambda offer: offer[0].least_mm)
    yield from (offer for offer in offers if offer[1] != inf)


def is_wide(offers: Sequence[Offer]) -> bool:
    """Tell whether there are ways, all of which admit any tool."""
    return bool(offers) and all(wide_mm == inf for _, wide_mm in offers)


def standing_wide(
    offers: Sequence[Offer], joint: str, bench: Bench, *, shut: Standing
) -> Standing:
    """Return how a joint is set through ways that admit any tool: the longest reach counts.

    ``shut``: how it is set through none.
    """
    tools = bench.tools.get(joint, ())
    longest_mm = max((tool.reach_mm or 0.0 for tool in tools), default=0.0)
    if not tools:
        return shut
    shortest_way = min((way for way, _ in offers), key=lambda way: way.along_mm)
    if shortest_way.along_mm <= longest_mm:
        return deep_in(shortest_way, bench)
    least_mm = min(needed_mm(way) for way, _ in offers)
    return min(shut, Standing.END) if least_mm <= longest_mm else shut
