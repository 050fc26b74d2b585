"""How far a tool gets at a joint in a state: margin, standing and effort.

Each is the best over all ways in and all tools that serve the joint. A state only ever narrows
ways in, so setting another joint never raises a margin and never lowers a standing or an effort.
"""

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from math import inf
from typing import NamedTuple

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


class _Fit(NamedTuple):
    way: Way
    opening_mm: float
    tool: ToolEntry
    reach_mm: float

    @property
    def spare_mm(self) -> float:
        return self.reach_mm - self.way.along_mm

    @property
    def most_spare_mm(self) -> float:
        return self.reach_mm - self.way.least_mm


def best_of(offers: Iterable[Offer], joint: str, bench: Bench, *, hollow: bool) -> Margin:
    """Return how a joint on a shaped part is set through the best of the ways in offered."""
    tools = bench.tools.get(joint, ())
    if not tools:
        return Margin(standing=Standing.CURVED, effort=bench.curved_effort)
    squash = bench.squash(joint)
    fits = [
        _Fit(way, opening, tool, tool.reach_mm or 0.0)
        for way, opening in offers
        if opening > 0
        for tool in tools
        if opening * squash >= tool.opening_mm
    ]
    easy = [fit for fit in fits if fit.opening_mm >= fit.tool.opening_mm]
    margin = max((fit.spare_mm for fit in easy), default=None)
    most = max((fit.most_spare_mm for fit in fits), default=None)
    reached = [fit for fit in easy if fit.spare_mm >= 0]
    if reached:
        effort, _, fit = min(
            (
                (bench.effort(fit.way.along_mm, fit.reach_mm), -fit.spare_mm, fit)
                for fit in reached
            ),
            key=lambda told: told[:2],
        )
        at_hand = fit.way.along_mm <= bench.hand_depth_mm
        standing = Standing.CURVED if at_hand else Standing.INSIDE
        return _told(standing, fit, effort, (margin, most))
    longest = max(fits, key=lambda fit: fit.most_spare_mm, default=None)
    if hollow or (most is not None and most >= 0):
        return _told(Standing.END, longest, bench.end_effort, (margin, most))
    return _told(Standing.CANNOT, longest, inf, (margin, most))


def _told(
    standing: Standing, fit: _Fit | None, effort: float, spare: tuple[float | None, float | None]
) -> Margin:
    return Margin(
        standing=standing,
        tool=fit.tool.id if fit else "",
        way=fit.way if fit else None,
        opening_mm=fit.opening_mm if fit else None,
        reach_mm=fit.reach_mm if fit else None,
        margin_mm=spare[0],
        most_margin_mm=spare[1],
        effort=effort,
    )


class Gauge:
    """The margins of a shell's joints, with what does not change from state to state looked up once."""

    __slots__ = ("_bench", "_near", "access", "hanging", "places", "rows", "shell")

    def __init__(self, shell: Shell, access: Mapping[str, Access], bench: Bench) -> None:
        self.shell, self.access, self._bench = shell, access, bench
        self.places: dict[str, Place] = places_of(shell)
        self.rows: dict[str, Row] = {row.id: row for row in shell.rows}
        self.hanging = Hanging(shell.rows, shell.formed)
        self._near: dict[str, tuple[Way, ...]] = {}

    def ways(self, joint: str) -> tuple[Way, ...]:
        """Return the ways in to a joint that some tool for it may reach through, and all rims."""
        if joint not in self._near:
            tools = self._bench.tools.get(joint, ())
            longest = max((tool.reach_mm or 0.0 for tool in tools), default=0.0)
            self._near[joint] = tuple(
                way
                for way in self.access[joint].ways
                if way.through is Through.RIM or (way.least_mm <= longest and way.name != joint)
            )
        return self._near[joint]

    def parts(self, joint: str) -> tuple[str, ...]:
        """Return the plates that have to be brought together to set a joint."""
        if joint in self.places:
            return self.rows[self.places[joint][0]].parts
        return self.access[joint].parts or self.shell.parts

    def margin(self, joint: str, made: frozenset[str]) -> Margin:
        """Return how a joint is set once others are made; itself counts as made."""
        state = made_at(self.places, made | {joint})
        if not self.hanging.is_shaped(self.parts(joint), state):
            return FLAT
        return self.shaped(joint, state)

    def shaped(self, joint: str, state: Mapping[str, Sequence[float]]) -> Margin:
        """Return how a joint is set on a shaped part, by where along rows joints are made."""
        offers = ((way, self.opening_mm(way, state)) for way in self.ways(joint))
        return best_of(offers, joint, self._bench, hollow=self.shell.hollow)

    def opening_mm(self, way: Way, state: Mapping[str, Sequence[float]]) -> float:
        """Return how wide a way in stands, in mm."""
        if way.through is Through.RIM:
            return way.opening_mm or 0.0
        place = self.places[way.name]
        return gape_mm(place[1], state.get(place[0], ()), self._bench.row_gape)


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
