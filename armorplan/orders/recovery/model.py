"""The neutral problem of a way back: what stands done, what bars what, what may be taken back.

A state is the set of steps that stand done. Taking back opens some of them, doing adds one; a way
back is a path from what stands to a state in which all of the goal is done. What can never be
taken back by itself (a cut, a hole, a dye) has no ``TakeBack`` of its own: its part is remade, as
one ``TakeBack`` that clears all that was done to it.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import StrEnum

TICKS = 100
"""Prices are compared in whole hundredths of a minute, so that equal sums are equal."""


class Means(StrEnum):
    """What a way back mainly rests on, the mildest first."""

    AS_IS = "live with it"
    IN_PLACE = "as it stands now"
    OTHER_TOOL = "another tool"
    UNSCREW = "undo a screw"
    TRIM = "trim"
    DARKER = "a darker dye"
    OVAL = "a hole made oval"
    PLUG = "a hole plugged"
    HIDE = "hidden under a cap or trim"
    PAINT = "painted over"
    OTHER_PLACE = "the part in another place"
    DRILL = "drilled out"
    REFORM = "re-cased and formed again"
    REMAKE = "cut anew"


MEANS_RANK = {means: rank for rank, means in enumerate(Means)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What a move costs.

    Attributes:
        minutes: hands-on.
        wait_min: that time alone takes, drying above all.
        risk_pct: how likely it spoils what it works on, in per cent.
        loss_min: minutes that would be lost then, mostly those of making the part anew.
        money: hardware and leather, in the shop's currency; 0.0 where prices are not known.
        hardware: (what, how many) it uses up.
    """

    minutes: float = 0.0
    wait_min: float = 0.0
    risk_pct: float = 0.0
    loss_min: float = 0.0
    money: float = 0.0
    hardware: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rates:
    """How unlike things are weighed against minutes at the bench.

    Attributes:
        per_wait_min: minutes that a minute of waiting counts as.
        per_money: minutes that one unit of money counts as.
        most_risk_pct: a move riskier than this is taken only where nothing else leads back.
    """

    per_wait_min: float = 0.05
    per_money: float = 0.0
    most_risk_pct: float = 20.0

    def ticks(self, cost: Cost) -> int:
        """Return the price of a move: minutes, waiting and money weighed, and what it risks to lose."""
        minutes = (
            cost.minutes
            + cost.wait_min * self.per_wait_min
            + cost.money * self.per_money
            + cost.loss_min * cost.risk_pct / 100
        )
        return round(minutes * TICKS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """``first`` is done before the last of ``of``: once all of them stand, it is barred.

    Attributes:
        id: unique in its problem.
        bars_opening: what is barred cannot be taken out either: its head is covered, or no tool
            gets there. Of a bar by order alone (dry before handled) it is false.
        why: the reason's sentence.
    """

    id: str
    first: str
    of: frozenset[str]
    bars_opening: bool = False
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeBack:
    """A move that opens what stands: a rivet drilled out, a screw undone, a part cut anew.

    Attributes:
        clears: steps that stand, and are open afterwards. It is possible where all of them stand
            and no bar with ``bars_opening`` holds for one of them when they are gone.
        needs_open: steps that must not stand: the joints of a part that is cut anew.
    """

    id: str
    means: Means
    title: str
    clears: frozenset[str]
    needs_open: frozenset[str] = frozenset()
    cost: Cost = field(default_factory=Cost)


@dataclass(frozen=True, slots=True, kw_only=True)
class Doing:
    """A move that does a step: as usual, or by a means of its own.

    Attributes:
        does: the step; it does not stand before.
        means: ``None`` for the usual way.
        in_spite_of: bars (by id) that it does not heed: a long stake reaches behind what is
            closed, 'live with it' leaves the step out.
        needs_open: steps that must not stand: a wrong hole is gone once its part is to be cut anew.
        leaves: what stays for good, as a sentence; empty where nothing does.
    """

    id: str
    does: str
    title: str
    means: Means | None = None
    in_spite_of: frozenset[str] = frozenset()
    needs_open: frozenset[str] = frozenset()
    cost: Cost = field(default_factory=Cost)
    leaves: str = ""


Move = TakeBack | Doing


@dataclass(frozen=True, slots=True, kw_only=True)
class RecoveryProblem:
    """What stands, what is wanted, and the moves there are. Steps are named by id.

    Attributes:
        done: steps that stand.
        goal: steps that have to stand at the end.
        moves: ids are unique.
    """

    done: frozenset[str]
    goal: frozenset[str]
    bars: tuple[Bar, ...]
    moves: tuple[Move, ...]
    rates: Rates = field(default_factory=Rates)

    def move(self, move_id: str) -> Move:
        """Return a move by id; KeyError where there is none."""
        return next((m for m in self.moves if m.id == move_id), None) or _missing(move_id)

    def ticks(self, moves: Iterable[Move]) -> int:
        """Return the price of moves in hundredths of a minute."""
        return sum(self.rates.ticks(move.cost) for move in moves)


def _missing(move_id: str) -> Move:
    raise KeyError(move_id)


@dataclass(frozen=True, slots=True, kw_only=True)
class Recovery:
    """A way back.

    Attributes:
        moves: in order.
        ticks: their price in hundredths of a minute (``Rates.ticks``).
        bound: no way back of its kind costs less.
        proved: none does: it is the cheapest of its kind.
    """

    moves: tuple[Move, ...]
    ticks: int
    bound: int
    proved: bool

    @property
    def means(self) -> tuple[Means, ...]:
        """What it rests on, each once, the gravest first."""
        found = {move.means for move in self.moves if move.means is not None}
        return tuple(sorted(found, key=lambda one: -MEANS_RANK[one]))

    @property
    def minutes(self) -> float:
        """Hands-on minutes of all moves."""
        return sum(move.cost.minutes for move in self.moves)

    @property
    def wait_min(self) -> float:
        """Minutes of waiting of all moves, one after the other."""
        return sum(move.cost.wait_min for move in self.moves)

    @property
    def risk_pct(self) -> float:
        """How likely at least one of the moves spoils something, in per cent."""
        good = 1.0
        for move in self.moves:
            good *= 1 - move.cost.risk_pct / 100
        return 100 * (1 - good)

    def too_risky(self, rates: Rates) -> tuple[Move, ...]:
        """Return its moves that are riskier than is taken where anything else leads back."""
        return tuple(move for move in self.moves if move.cost.risk_pct > rates.most_risk_pct)

    @property
    def leaves(self) -> tuple[str, ...]:
        """What stays for good."""
        return tuple(move.leaves for move in self.moves if isinstance(move, Doing) and move.leaves)
