"""One way that an exercise offers, what is told of it, and which of some are offered together."""

import random
from collections.abc import Iterator
from dataclasses import dataclass, replace

from armorplan.app.drills.way_back_prices import told_words
from armorplan.app.way_back_rows import WayBack, WayBackMove
from armorplan.app.ways_back_words import folded
from armorplan.orders.recovery.model import Bar, Rates
from armorplan.steps.naming import lowered

FEWEST = 3
_UP_TO = ", to '"
"""Up to which step something is done again is not told: how many they are is enough to choose by."""
MOST_LINES = 8
"""A way of more lines is not offered: nobody reads it through."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One way that is offered.

    Attributes:
        way: what it takes, move by move; its price counts only where it leads back.
        leads: it leads back.
        right: it is the cheapest, or hardly dearer.
        why: what still bars it, in a sentence; empty where it leads back.
        bars: by which relations that is.
        halts: how many of its moves are made before it halts.
        limits: how far it is good, where that has bounds.
    """

    way: WayBack
    leads: bool
    right: bool = False
    why: str = ""
    bars: tuple[Bar, ...] = ()
    halts: int = 0
    limits: str = ""

    @property
    def told(self) -> tuple[str, str]:
        """What tells it from others."""
        return self.way.title, detail_of(self.way)


def detail_of(way: WayBack) -> str:
    """Return what is done, one thing after the other, without what it takes; empty where its title says it."""
    lines = lines_of(way)
    if len(lines) == 1 and way.title.startswith(lines[0]):
        return ""
    return "; ".join(lines[:1] + [lowered(one) for one in lines[1:]])


def lines_of(way: WayBack) -> list[str]:
    """Return what is done, line by line."""
    return [title.partition(_UP_TO)[0] for title, _ in folded(_told_moves(way.moves))]


def _told_moves(moves: tuple[WayBackMove, ...]) -> tuple[WayBackMove, ...]:
    """Return moves without what is only looked at once more, unless there is nothing else."""
    once_more = {step for move in moves if move.opens and not move.minutes for step in move.clears}
    told = tuple(m for m in moves if m.step not in once_more and not once_more & {*m.clears})
    return told or moves


def whole_detail_of(option: Option, rates: Rates) -> str:
    """Return what is done, what that takes, and how far it is good: all that it is chosen by."""
    done = detail_of(option.way)
    return " ".join(
        filter(None, (done and f"{done}.", told_words(option.way, rates), option.limits))
    )


def picked(options: tuple[Option, ...], wanted: int, chance: random.Random) -> tuple[Option, ...]:
    """Return some options mixed, the cheapest among them; empty where too few of them are wrong."""
    right = [one for one in options if one.right]
    dearer = [one for one in options if one.leads and not one.right]
    amiss = [one for one in options if not one.leads]
    if not dearer + amiss or len(dearer + amiss) + 1 < FEWEST:
        return ()
    for some in (dearer, amiss):
        chance.shuffle(some)
    mixed = [*dearer[:1], *amiss[:1]]
    rest = [*dearer[1:], *amiss[1:]]
    chance.shuffle(rest)
    taken = [right[0], *right[1:2][: max(0, wanted - FEWEST)]]
    taken += [*mixed, *rest][: wanted - len(taken)]
    chance.shuffle(taken)
    return tuple(_told_apart(taken))


def _told_apart(options: list[Option]) -> Iterator[Option]:
    """Yield options; those of one title with where each of them begins."""
    titles = [one.way.title for one in options]
    for option in options:
        title = option.way.title
        if titles.count(title) > 1:
            first = detail_of(option.way).partition(";")[0]
            where = first.partition(": ")[2] or lowered(first)
            option = replace(option, way=replace(option.way, title=f"{title}: {where}"))  # noqa: PLW2901
        yield option
