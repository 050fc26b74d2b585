"""Moves under gathering: the problem's own, and beside each how it is done, with which tool and caution."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from math import prod

from armorplan.orders.recovery.model import Cost, Move, TakeBack

PCT = 100.0
DRILL_TOOL = "drill"
DRILL_CAUTIONS = (
    "Wear eye protection, and a mask against the dust; clamp the work.",
    "Drill the head only, and stop before the leather spins; never pry a cap off.",
)
DRILL_HOW = (
    "Support the back, centre-punch the cap, drill just the head away with a bit as wide as the shank, "
    "and push the rest out from the front."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveNote:
    """What a maker has to know of a move beside its title.

    Attributes:
        step: the step of the build that stands after it; empty where it is none.
        clears: steps of the build that do not stand after it.
        left_out: the step is not done at all.
        group: what is worked in one go with it: a row's name; empty: it stands alone.
        surely: what has to be opened with it was searched to the end; else it is the best found.
    """

    detail: str = ""
    tool: str = ""
    cautions: tuple[str, ...] = ()
    step: str = ""
    clears: tuple[str, ...] = ()
    left_out: bool = False
    group: str = ""
    surely: bool = True


Told = tuple[Move, MoveNote]


@dataclass(slots=True)
class Gathered:
    """Moves, their notes and bars of one problem, while they are gathered.

    ``inner`` holds by move what it is made of, in order.
    """

    moves: dict[str, Move] = field(default_factory=dict)
    notes: dict[str, MoveNote] = field(default_factory=dict)
    inner: dict[str, tuple[Told, ...]] = field(default_factory=dict)
    goal: set[str] = field(default_factory=set)

    def add(self, told: Told, inner: tuple[Told, ...] = ()) -> None:
        """Add a move, or one that stands for some done one after the other."""
        move, note = told
        self.moves[move.id] = move
        self.notes[move.id] = note
        if inner:
            self.inner[move.id] = inner


def once(told: Iterable[Told]) -> tuple[Told, ...]:
    """Return moves without what is opened, set and opened again, or set twice, on the way.

    Each of some mistakes tells all that has to be opened for it alone. Of a step the first opening
    and the last setting stay: what comes in between finds it open, as it was when it was told.
    """
    moves = list(told)
    last = {move.id: at for at, (move, _) in enumerate(moves)}
    seen, kept = set[str](), list[Told]()
    for at, (move, note) in enumerate(moves):
        is_last = last[move.id] == at
        stays = move.id not in seen if isinstance(move, TakeBack) else is_last
        seen.add(move.id)
        if stays:
            kept.append((move, note))
    return tuple(kept)


def parts_words(names: Iterable[str]) -> str:
    """Return names as a list in words."""
    found = list(names)
    return " and ".join([", ".join(found[:-1]), found[-1]] if len(found) > 1 else found)


def cost_of(told: Iterable[Told]) -> Cost:
    """Return what moves cost together; what they risk to lose counts as it does one by one."""
    costs = [move.cost for move, _ in told]
    good = prod(1 - cost.risk_pct / PCT for cost in costs)
    risk_pct = PCT * (1 - good)
    lost = sum(cost.risk_pct * cost.loss_min for cost in costs)
    used: dict[str, int] = {}
    for what, count in (each for cost in costs for each in cost.hardware):
        used[what] = used.get(what, 0) + count
    return Cost(
        minutes=sum(cost.minutes for cost in costs),
        wait_min=sum(cost.wait_min for cost in costs),
        risk_pct=risk_pct,
        loss_min=lost / risk_pct if risk_pct else 0.0,
        money=sum(cost.money for cost in costs),
        hardware=tuple(sorted(used.items())),
    )


Notes = Mapping[str, MoveNote]
Inner = Mapping[str, tuple[Told, ...]]
