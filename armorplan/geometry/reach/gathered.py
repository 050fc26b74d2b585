"""All that is reckoned of reach for one pattern and one shelf, found once."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from armorplan.geometry.reach.bars import Bar, own_row_bars, shell_bars
from armorplan.geometry.reach.bench import Bench, bench_of
from armorplan.geometry.reach.ends import ShutIn, shut_in
from armorplan.geometry.reach.model import ReachNet, Row
from armorplan.geometry.reach.net import reach_net
from armorplan.geometry.reach.runs import order_in
from armorplan.geometry.reach.sealing import sealed_bars
from armorplan.geometry.reach.settled import settled
from armorplan.geometry.reach.strays import put_right
from armorplan.geometry.rows.crossed import uncrossed
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

_KEPT = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """What the shapes and the tools on the shelf say of reach.

    Attributes:
        net: shells and ways in, as orders are told of: a shell that no order sets is hollow in it.
        drawn: the same as the shapes alone have it: what is at fault is told of it.
        bars: which rows, once set, make which joint harder or impossible to set.
        own_bars: the same where the rest of its own row takes part in it.
        cut_short: joints that more sets of rows shut in than are among the bars.
        sealed: by joint, all that puts it out of reach, in the smallest sets of joints; what has
            too many of them is left out.
        runs: by row, its joints in the order in which it is set; rows that no order of their own
            sets are left out.
        shut_in: which joints the rest of their row makes dearer, and the order it is set in does not.
    """

    net: ReachNet
    drawn: ReachNet
    bench: Bench
    bars: tuple[Bar, ...]
    own_bars: tuple[Bar, ...]
    cut_short: frozenset[str]
    sealed: Mapping[str, tuple[Bar, ...]]
    runs: Mapping[str, tuple[str, ...]]
    shut_in: tuple[ShutIn, ...]

    @property
    def rows(self) -> tuple[Row, ...]:
        """The rows of all shells."""
        return tuple(row for shell in self.net.shells.values() for row in shell.rows)


@lru_cache(maxsize=_KEPT)
def reach_of(pattern: Pattern, shelf: Shelf) -> Reach:
    """Return what is known of reach; equal patterns and shelves are reckoned once."""
    drawn, bench = (
        reach_net(put_right(uncrossed(pattern, shelf.constants))),
        bench_of(pattern, shelf),
    )
    net = settled(drawn, bench)
    rows = (row for shell in net.shells.values() for row in shell.rows)
    found = {row.id: order_in(drawn, row, bench) for row in rows}
    runs = {row: run for row, run in found.items() if run}
    by_shell = shell_bars(net, bench).values()
    return Reach(
        net=net,
        drawn=drawn,
        bench=bench,
        bars=tuple(bar for each in by_shell for bar in each.bars),
        own_bars=own_row_bars(net, bench),
        cut_short=frozenset[str]().union(*(each.cut_short for each in by_shell)),
        sealed=sealed_bars(net, bench),
        runs=runs,
        shut_in=tuple(shut_in(net, bench, runs)),
    )
