"""Which joints, once they are made, leave another out of reach for good: joint by joint, exactly.

A way in through a row is shut by any joint made near enough to it, so a joint is out of reach once
one of them is made for each way in that a tool would serve, and its plates no longer lie flat. The
smallest sets that do it are hitting sets; of a small shell all of them are found.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from armorplan.geometry.reach.bars import Bar
from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.blocking import Atoms, Blocking, minimal_sets, shrunk
from armorplan.geometry.reach.known import Known, joints_of
from armorplan.geometry.reach.margins import Gauge, admitted, gauges, needed_mm
from armorplan.geometry.reach.model import ReachNet, Through, Way
from armorplan.geometry.reach.openings import gape_mm

MOST_SETS, MOST_ATOMS = 12, 64
"""Of a joint with more sets than so many, or among more joints than so many, none are told: a maker
would drown in them. Orders are tried joint by joint instead."""


@dataclass(frozen=True, slots=True, eq=False)
class Sealing:
    """What puts one joint out of reach.

    Attributes:
        ways: of each way in that a tool serves, the joints of which any one shuts it.
        shaping: joints that only help to draw its plates out of the flat.
    """

    joint: str
    gauge: Gauge
    ways: tuple[Atoms, ...]
    shaping: tuple[str, ...]

    @property
    def atoms(self) -> tuple[str, ...]:
        """All joints that count; those that shut a way come last."""
        shutting = sorted(frozenset().union(*self.ways))
        return (*(each for each in self.shaping if each not in shutting), *shutting)

    def is_shut(self, made: Atoms) -> bool:
        """Tell whether no tool gets to the joint once others are made."""
        return all(not way.isdisjoint(made) for way in self.ways) and self._is_drawn(made)

    def _is_drawn(self, made: Atoms) -> bool:
        return not self.gauge.lies_flat(self.joint, made)

    def sets(self) -> Blocking:
        """Return the smallest sets of joints that do it; not complete where they are too many."""
        atoms = self.atoms
        if len(atoms) > MOST_ATOMS:
            return Blocking(sets=(), complete=False)
        return minimal_sets(atoms, self.is_shut, most=MOST_SETS)

    def one_of(self, made: Iterable[str]) -> Atoms:
        """Return one smallest set among joints made, which do it together.

        Those made last are given up first, so that what is told lies early in an order.
        """
        known = frozenset(self.atoms)
        return shrunk([each for each in reversed(tuple(made)) if each in known], self.is_shut)


def sealings(net: ReachNet, bench: Bench) -> Mapping[str, Sealing]:
    """Return what puts joints out of reach, by joint; those that nothing does are left out."""
    every = sorted(gauges(net, bench).items())
    return {j: found for _, gauge in every for j, found in sealings_in(gauge, bench).items()}


def sealings_in(gauge: Gauge, bench: Bench) -> Mapping[str, Sealing]:
    """Return the same of one shell."""
    return {joint: found for joint, (found, _) in _in_shell(Known(gauge, bench)).items()}


def sealed_bars(net: ReachNet, bench: Bench) -> Mapping[str, tuple[Bar, ...]]:
    """Return by joint all that puts it out of reach, in the smallest sets, where these are known.

    What they say of a joint is all that the model says; a joint with too many sets is left out.
    """
    every = sorted(gauges(net, bench).items())
    shells = (_in_shell(Known(gauge, bench)) for _, gauge in every)
    return {joint: bars for shell in shells for joint, (_, bars) in shell.items() if bars}


@lru_cache(maxsize=1024)
def _in_shell(known: Known) -> Mapping[str, tuple[Sealing, tuple[Bar, ...]]]:
    gauge, bench = known.gauge, known.bench
    if gauge.shell.hollow:
        return {}
    tried = (_sealing(gauge, bench, joint) for joint in joints_of(gauge))
    return {each.joint: (each, tuple(_bars(each))) for each in tried if each is not None}


def _bars(sealing: Sealing) -> Iterator[Bar]:
    found = sealing.sets()
    return (bar_of(sealing, made) for made in found.sets if found.complete)


def bar_of(sealing: Sealing, made: Atoms) -> Bar:
    """Return the bar that some joints made are to another: which rows are whole among them."""
    gauge, joint = sealing.gauge, sealing.joint
    own = gauge.places.get(joint, ("", 0.0))[0]
    whole = {id_: row.joints for id_, row in gauge.rows.items() if made.issuperset(row.joints)}
    mine = made.intersection(gauge.rows[own].joints if own else ())
    return Bar(
        joint=joint,
        rows=frozenset(whole),
        own=mine,
        more=made.difference(mine, *whole.values()),
        before=gauge.margin(joint, frozenset()),
        after=gauge.margin(joint, made),
    )


def _sealing(gauge: Gauge, bench: Bench, joint: str) -> Sealing | None:
    """Return what puts a joint out of reach; ``None`` where a tool gets there whatever is made."""
    if joint in bench.unsure or not bench.tools.get(joint):
        return None
    rims = (way for way in gauge.access[joint].ways if way.through is Through.RIM)
    if any(_is_open(bench, joint, rim) for rim in rims):
        return None
    shutting: set[Atoms] = set()
    for way in gauge.ways(joint):
        least_mm = _least_opening_mm(bench, joint, way)
        if way.through is Through.ROW and least_mm is not None:
            shutting.add(frozenset(_shutting(gauge, bench, (joint, least_mm), way)))
    ways = tuple(sorted(_least(each for each in shutting if joint not in each), key=sorted))
    own = gauge.places.get(joint, ("", 0.0))[0]
    rows = gauge.hanging.nearest_first(gauge.parts(joint))
    rows += gauge.hanging.enclosing(gauge.parts(joint), own)
    more = (each for row in dict.fromkeys(rows) for each in gauge.rows[row].joints)
    found = Sealing(joint, gauge, ways, tuple(each for each in more if each != joint))
    return found if found.is_shut(frozenset(found.atoms)) else None


def _is_open(bench: Bench, joint: str, rim: Way) -> bool:
    through = admitted([(rim, rim.opening_mm or 0.0)], joint, bench)
    return any(needed_mm(rim) <= (tool.reach_mm or 0.0) for _, tool in through)


def _least_opening_mm(bench: Bench, joint: str, way: Way) -> float | None:
    """Return how wide a way has to stand for a tool that is long enough; ``None``: none is."""
    tools = bench.tools.get(joint, ())
    wide = (tool.opening_mm for tool in tools if (tool.reach_mm or 0.0) >= needed_mm(way))
    return min(wide, default=None)


def _admits(opening_mm: float, least_mm: float, squash: float) -> bool:
    return opening_mm > 0 and opening_mm * squash >= least_mm


def _shutting(gauge: Gauge, bench: Bench, asked: tuple[str, float], way: Way) -> Iterator[str]:
    """Yield the joints of a row any one of which, made, leaves a way through it too narrow."""
    joint, least_mm = asked
    row, at_mm = gauge.places[way.name]
    for each, there_mm in zip(gauge.rows[row].joints, gauge.rows[row].at_mm, strict=True):
        wide_mm = gape_mm(at_mm, (there_mm,), bench.row_gape)
        if not _admits(wide_mm, least_mm, bench.squash(joint)):
            yield each


def _least(sets: Iterable[Atoms]) -> Iterator[Atoms]:
    """Yield the sets that hold no other of them: who hits those hits all."""
    every = sorted(sets, key=len)
    kept: list[Atoms] = []
    for each in every:
        if not any(other <= each for other in kept):
            kept.append(each)
            yield each
