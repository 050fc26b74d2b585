"""How far a tool gets at a joint in a state: margin, standing and effort.

Each is the best over all ways in and all tools that serve the joint. A state only ever narrows
ways in, so setting another joint never raises a margin and never lowers a standing or an effort.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from math import inf

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.lying_flat import Hanging
from armorplan.geometry.reach.model import (
    Access,
    Margin,
    ReachNet,
    Row,
    Shell,
    Standing,
    Through,
    Way,
)
from armorplan.geometry.reach.openings import Place, gape_mm, made_at, places_of
from armorplan.workshop.shelf import ToolEntry

Offer = tuple[Way, float]
"""A way in, and how wide it stands in mm."""
FLAT = Margin(standing=Standing.FLAT)
IN_MM = 1.0
"""A tool that gets no further in than this gets in nowhere, however little is needed at least."""


SLACK_MM, SLACK_PCT = 2.0, 2.0
"""So near nothing is sure: no drawing, fold or tool is truer than the larger of both."""


def needed_mm(way: Way) -> float:
    """Return below what reach, in mm, a tool surely gets nowhere by a way in: never nothing at all.

    That is what a straight tool has to get in at least, less what the model itself may be off.
    """
    slack_mm = max(SLACK_MM, way.least_mm * SLACK_PCT / 100)
    return max(way.least_mm - slack_mm, min(IN_MM, way.along_mm))


class _Best:
    """The best of what was tried: of those that reach the least effort, else the longest."""

    __slots__ = ("_bench", "_enclosed", "cost", "easiest", "longest", "margin", "most")

    def __init__(self, bench: Bench, *, enclosed: bool) -> None:
        self._bench, self._enclosed = bench, enclosed
        self.margin, self.most, self.cost = -inf, -inf, (Standing.CANNOT, inf, 0.0)
        self.easiest: tuple[Offer, ToolEntry] | None = None
        self.longest: tuple[Offer, ToolEntry] | None = None

    def take(self, offer: Offer, tool: ToolEntry) -> None:
        """Weigh a tool at a way in that admits it, squashed."""
        way, opening = offer
        reach_mm = tool.reach_mm or 0.0
        if reach_mm - needed_mm(way) > self.most:
            self.most, self.longest = reach_mm - needed_mm(way), (offer, tool)
        if opening < tool.opening_mm:
            return
        spare_mm = reach_mm - way.along_mm
        self.margin = max(self.margin, spare_mm)
        if spare_mm >= 0:
            effort = self._bench.effort(way.along_mm, reach_mm, enclosed=self._enclosed)
            deep = deep_in(way, self._bench, enclosed=self._enclosed)
            cost = (deep, effort, -spare_mm)
            if cost < self.cost:
                self.cost, self.easiest = cost, (offer, tool)

    def told(self, standing: Standing, effort: float) -> Margin:
        """Return the margin in so many words."""
        found = self.easiest or self.longest
        offer, tool = found or (None, None)
        return Margin(
            standing=standing,
            tool=tool.id if tool else "",
            way=offer[0] if offer else None,
            opening_mm=offer[1] if offer else None,
            reach_mm=(tool.reach_mm or 0.0) if tool else None,
            margin_mm=None if self.margin == -inf else self.margin,
            most_margin_mm=None if self.most == -inf else self.most,
            effort=effort,
        )


def admitted(
    offers: Iterable[Offer], joint: str, bench: Bench
) -> Iterator[tuple[Offer, ToolEntry]]:
    """Yield which tools for a joint go in through which ways, squashed."""
    tools, squash = bench.tools.get(joint, ()), bench.squash(joint)
    for offer in offers:
        if offer[1] > 0:
            wide_mm = offer[1] * squash
            for tool in tools:
                if wide_mm >= tool.opening_mm:
                    yield offer, tool


def _outdone_left_out(offers: Iterable[Offer]) -> Iterator[Offer]:
    """Yield ways in but those than which the widest so far is shorter too: they are never the best."""
    widest: Offer | None = None
    for offer in offers:
        way, wide_mm = offer
        if widest is not None and wide_mm <= widest[1]:
            other = widest[0]
            if other.along_mm <= way.along_mm and other.least_mm <= way.least_mm:
                continue
        else:
            widest = offer
        yield offer


def best_of(
    offers: Iterable[Offer], joint: str, bench: Bench, *, hollow: bool, enclosed: bool = False
) -> Margin:
    """Return how a joint on a shaped part is set through the best of the ways in offered.

    Args:
        offers: the ways in as they stand.
        joint: which it is.
        bench: its tools.
        hollow: it is never called *cannot*.
        enclosed: the part is shut round, so that it is set from inside however near the opening.
    """
    tools = bench.tools.get(joint, ())
    if not tools:
        return Margin(standing=Standing.CURVED, effort=bench.curved_effort)
    best = _Best(bench, enclosed=enclosed)
    for offer, tool in admitted(_outdone_left_out(offers), joint, bench):
        best.take(offer, tool)
    if best.easiest is not None:
        return best.told(best.cost[0], best.cost[1])
    if hollow or joint in bench.unsure or best.most >= 0:
        return best.told(Standing.END, bench.end_effort)
    return best.told(Standing.CANNOT, inf)


def standing_of(offers: Iterable[Offer], joint: str, bench: Bench, *, hollow: bool) -> Standing:
    """Return only the standing of the same, which takes less."""
    if not bench.tools.get(joint):
        return Standing.CURVED
    found = Standing.END if hollow or joint in bench.unsure else Standing.CANNOT
    for (way, opening), tool in admitted(offers, joint, bench):
        reach_mm = tool.reach_mm or 0.0
        if way.along_mm <= reach_mm and opening >= tool.opening_mm:
            found = min(found, deep_in(way, bench))
        elif needed_mm(way) <= reach_mm:
            found = min(found, Standing.END)
    return found


def deep_in(way: Way, bench: Bench, *, enclosed: bool = False) -> Standing:
    """Return how a joint is set that a tool reaches: at hand, or inside."""
    at_hand = way.along_mm <= bench.hand_depth_mm and not enclosed
    return Standing.CURVED if at_hand else Standing.INSIDE


class Gauge:
    """The margins of a shell's joints, with what does not change from state to state looked up once."""

    __slots__ = ("_bench", "_near", "access", "hanging", "places", "rows", "shell")

    def __init__(self, shell: Shell, access: Mapping[str, Access], bench: Bench) -> None:
        self.shell, self.access, self._bench = shell, access, bench
        self.places: dict[str, Place] = places_of(shell)
        self.rows: dict[str, Row] = {row.id: row for row in shell.rows}
        self.hanging = Hanging(shell.rows, shell.formed, shell.closures)
        self._near: dict[str, tuple[Way, ...]] = {}

    def ways(self, joint: str) -> tuple[Way, ...]:
        """Return the ways in to a joint that some tool for it may reach through, and all rims."""
        if joint not in self._near:
            tools = self._bench.tools.get(joint, ())
            longest = max((tool.reach_mm or 0.0 for tool in tools), default=0.0)
            self._near[joint] = tuple(
                way
                for way in self.access[joint].ways
                if way.through is Through.RIM
                or (min(way.least_mm, needed_mm(way)) <= longest and way.name != joint)
            )
        return self._near[joint]

    def parts(self, joint: str) -> tuple[str, ...]:
        """Return the plates that have to be brought together to set a joint."""
        told = self.access[joint].parts
        if joint in self.places:
            return told or self.rows[self.places[joint][0]].parts
        return told or self.shell.parts

    def margin(self, joint: str, made: frozenset[str]) -> Margin:
        """Return how a joint is set once others are made; itself counts as made."""
        state = made_at(self.places, made | {joint})
        enclosed = self.is_enclosed(joint, state)
        if not enclosed and not self._is_shaped(joint, state):
            return FLAT
        offers = self._open(joint, made, state)
        return best_of(offers, joint, self._bench, hollow=self.shell.hollow, enclosed=enclosed)

    def lies_flat(self, joint: str, made: frozenset[str]) -> bool:
        """Tell whether a joint's plates still lie flat once others are made; itself counts as made."""
        state = made_at(self.places, made | {joint})
        return not (self._is_shaped(joint, state) or self.is_enclosed(joint, state))

    def _is_shaped(self, joint: str, state: Mapping[str, Sequence[float]]) -> bool:
        return self.hanging.is_shaped(self.parts(joint), state)

    def is_let_in(self, joint: str, made: frozenset[str]) -> bool:
        """Tell whether a tool gets in to a joint, if only just, be its plates shaped or not.

        This takes less than to find the best way in.
        """
        state = made_at(self.places, made | {joint})
        offers = self._open(joint, made, state)
        return any(
            needed_mm(way) <= (tool.reach_mm or 0.0)
            for (way, _), tool in admitted(offers, joint, self._bench)
        )

    def reaching(self, joint: str, made: frozenset[str]) -> frozenset[str] | None:
        """Return the tools that surely reach a joint then; ``None``: its plates lie flat, any does."""
        if self.lies_flat(joint, made):
            return None
        state = made_at(self.places, made | {joint})
        near = admitted(self._open(joint, made, state), joint, self._bench)
        return frozenset(tool.id for (w, _), tool in near if w.along_mm <= (tool.reach_mm or 0))

    def _open(
        self, joint: str, made: frozenset[str], state: Mapping[str, Sequence[float]]
    ) -> Iterator[Offer]:
        """Yield the ways in that stand open at all: none at the place of a joint that is made."""
        for way in self.ways(joint):
            if way.name not in made:
                wide = way.row and way.row not in state
                yield way, inf if wide else self.opening_mm(way, state)

    def is_enclosed(self, joint: str, state: Mapping[str, Sequence[float]]) -> bool:
        """Tell whether a joint's plates are shut round, by where along rows joints are made.

        Its own row stays open for it: while it is not set, the row is not shut.
        """
        own = self.places.get(joint, ("", 0.0))[0]
        complete = {
            row
            for row, made in state.items()
            if row != own and len(made) == len(self.rows[row].joints)
        }
        return bool(complete) and self.hanging.is_enclosed(self.parts(joint), complete)

    def opening_mm(self, way: Way, state: Mapping[str, Sequence[float]]) -> float:
        """Return how wide a way in stands, in mm."""
        if way.through is Through.RIM:
            return way.opening_mm or 0.0
        place = self.places[way.name]
        return gape_mm(place[1], state.get(place[0], ()), self._bench.row_gape)

    def left_mm(self, way: Way) -> float:
        """Return how wide a gap in a row stays in mm when the whole row is set."""
        row, at_mm = self.places[way.name]
        return gape_mm(at_mm, self.rows[row].at_mm, self._bench.row_gape)


class _Same:
    """A net and a bench, alike only with themselves: neither is ever changed."""

    __slots__ = ("bench", "net")

    def __init__(self, net: ReachNet, bench: Bench) -> None:
        self.net, self.bench = net, bench

    def __hash__(self) -> int:
        return hash((id(self.net), id(self.bench)))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.net is other.net and self.bench is other.bench


@lru_cache(maxsize=8)
def _gauges(same: _Same) -> dict[str, Gauge]:
    net = same.net
    return {id_: Gauge(shell, net.access, same.bench) for id_, shell in net.shells.items()}


def gauges(net: ReachNet, bench: Bench) -> Mapping[str, Gauge]:
    """Return the gauge of each shell by its id."""
    return _gauges(_Same(net, bench))


def margin(net: ReachNet, joint: str, made: frozenset[str], bench: Bench) -> Margin:
    """Return how a joint can be set once others are made, exactly by the model of reach.

    What has no access in the net lies in no shell and is set flat.
    """
    if joint not in net.access:
        return FLAT
    return gauges(net, bench)[net.access[joint].shell].margin(joint, made)
