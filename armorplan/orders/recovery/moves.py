"""Moves under gathering: the problem's own, and beside each how it is done, with which tool and caution."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from armorplan.orders.recovery.model import Bar, Doing, Move

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
    """

    detail: str = ""
    tool: str = ""
    cautions: tuple[str, ...] = ()
    step: str = ""
    clears: tuple[str, ...] = ()
    left_out: bool = False
    group: str = ""


@dataclass(slots=True)
class Gathered:
    """Moves, their notes and bars of one problem, while they are gathered."""

    moves: dict[str, Move] = field(default_factory=dict)
    notes: dict[str, MoveNote] = field(default_factory=dict)
    bars: list[Bar] = field(default_factory=list)
    done: set[str] = field(default_factory=set)
    goal: set[str] = field(default_factory=set)

    def add(self, move: Move, note: MoveNote) -> None:
        """Add a move; one of the same id stays as it is."""
        if move.id not in self.moves:
            self.moves[move.id] = move
            self.notes[move.id] = note

    def does(self, step: str) -> tuple[Doing, ...]:
        """Return the moves gathered so far that do a step."""
        return tuple(m for m in self.moves.values() if isinstance(m, Doing) and m.does == step)


def parts_words(names: Iterable[str]) -> str:
    """Return names as a list in words."""
    found = list(names)
    return " and ".join([", ".join(found[:-1]), found[-1]] if len(found) > 1 else found)


Notes = Mapping[str, MoveNote]
