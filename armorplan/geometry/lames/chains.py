"""Chains of plates that turn on each other: those the pattern declares, and those it does not."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from armorplan.geometry.lames.links import Link, PairKey
from armorplan.geometry.lames.seats import Seat
from armorplan.pattern.moving import Movement
from armorplan.pattern.parts import PartKind
from armorplan.pattern.pattern import Pattern

_LAMES = frozenset({PartKind.PLATE, PartKind.LAME, PartKind.COP})


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """Two neighbours of a chain: which is the upper one, and how far they turn on each other.

    Attributes:
        turn_deg: their share of the movement; ``None`` where none is declared.
        link: their pivots; ``None`` where no two pivots hold them.
    """

    upper: str
    lower: str
    turn_deg: float | None
    link: Link | None

    @property
    def overlap_mm(self) -> float | None:
        """How far they lie over each other at rest at the middle of the back; below 0 a gap."""
        if self.link is None:
            return None
        above, below = self.link.seat(self.upper).edges_mm(), self.link.seat(self.lower).edges_mm()
        return None if above is None or below is None else below[1] - above[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """Plates that follow each other along the limb, the uppermost first.

    Attributes:
        id: of the movement; made of its ends where none is declared.
        movement: what it is made for, or ``None``.
        upside_down: the movement names its parts from the lower to the upper end.
    """

    id: str
    parts: tuple[str, ...]
    names: tuple[str, ...]
    turns: tuple[Turn, ...]
    movement: Movement | None = None
    upside_down: bool = False

    def at_mm(self) -> dict[str, tuple[float, Seat]]:
        """Return for each plate a pair of its pivots and how far they lie down the limb at rest.

        Counted in mm from the first pivots of the chain; only as far down as each two plates hang
        on two pivots.
        """
        found: dict[str, tuple[float, Seat]] = {}
        for turn in self.turns:
            if turn.link is None:
                break
            upper, lower = turn.link.seat(turn.upper), turn.link.seat(turn.lower)
            at, seat = found.setdefault(turn.upper, (0.0, upper))
            here = at - seat.height_mm(upper)
            found[turn.lower] = (here, lower)
        return found


def _middle_mm(seat: Seat) -> float:
    edges = seat.edges_mm()
    return 0.0 if edges is None else sum(edges) / 2


def is_upper(link: Link, part: str) -> bool:
    """Tell whether a plate lies above the other one on their pivots."""
    seats = (link.outer, link.inner)
    mine, other = seats if link.outer.part.id == part else reversed(seats)
    return _middle_mm(mine) >= _middle_mm(other)


def _turned(link: Link | None, one: str, other: str, turn_deg: float | None) -> Turn:
    upper, lower = (one, other) if link is None or is_upper(link, one) else (other, one)
    return Turn(upper=upper, lower=lower, turn_deg=turn_deg, link=link)


def declared_chains(pattern: Pattern, links: Mapping[PairKey, Link]) -> Iterator[Chain]:
    """Yield the chain of each movement; neighbours without two pivots have no link."""
    for movement in pattern.movements:
        turns = []
        for (one, other), turn in zip(pairwise(movement.parts), movement.turns_deg, strict=True):
            low, high = sorted((one, other))
            turns.append(_turned(links.get((low, high)), one, other, turn))
        upside_down = _runs_up(turns, movement.parts)
        parts = movement.parts[::-1] if upside_down else movement.parts
        yield Chain(
            id=movement.id,
            parts=parts,
            names=_names(parts, pattern),
            turns=tuple(turns[::-1] if upside_down else turns),
            movement=movement,
            upside_down=upside_down,
        )


def _told(pattern: Pattern) -> set[tuple[str, ...]]:
    """Return each two neighbours that a movement names."""
    return {
        tuple(sorted(pair)) for movement in pattern.movements for pair in pairwise(movement.parts)
    }


def hung(pattern: Pattern, links: Mapping[PairKey, Link]) -> dict[PairKey, Link]:
    """Return the pairs that are looked at as lames: those of a movement, and stiff plates."""
    told = _told(pattern)
    return {
        key: link
        for key, link in links.items()
        if key in told or all(pattern.part(part).kind in _LAMES for part in key)
    }


def found_chains(pattern: Pattern, links: Mapping[PairKey, Link]) -> Iterator[Chain]:
    """Yield the chains of plates that turn on each other and that no movement names.

    Where more than two plates turn on one, each two are a chain of their own.
    """
    told = _told(pattern)
    left = {key: link for key, link in hung(pattern, links).items() if key not in told}
    for path in _paths(left):
        yield _found(path, left, pattern)


def _found(path: list[str], left: Mapping[PairKey, Link], pattern: Pattern) -> Chain:
    """Return a chain as it runs down the limb."""
    turns = [_turned(left[_key(pair)], *pair, None) for pair in pairwise(path)]
    if _runs_up(turns, path):
        path, turns = path[::-1], turns[::-1]
    return Chain(
        id=f"{path[0]}-{path[-1]}",
        parts=tuple(path),
        names=_names(path, pattern),
        turns=tuple(turns),
    )


def _names(parts: Iterable[str], pattern: Pattern) -> tuple[str, ...]:
    return tuple(pattern.part(part).name for part in parts)


def _runs_up(turns: Sequence[Turn], path: Sequence[str]) -> bool:
    """Tell whether parts in this order run up the limb, by most of the pivots that tell."""
    known = [(t, pair) for t, pair in zip(turns, pairwise(path), strict=True) if t.link]
    return sum((t.upper, t.lower) == pair for t, pair in known) * 2 < len(known)


def _key(pair: tuple[str, str]) -> PairKey:
    low, high = sorted(pair)
    return low, high


def _paths(keys: Iterable[PairKey]) -> Iterator[list[str]]:
    """Yield the ways through the pairs that do not fork, and each pair that a fork has."""
    beside: dict[str, list[str]] = defaultdict(list)
    for one, other in keys:
        beside[one].append(other)
        beside[other].append(one)
    done: set[str] = set()
    for start in sorted(beside, key=lambda part: (len(beside[part]) != 1, part)):
        if start in done:
            continue
        group = _group(start, beside)
        done.update(group)
        ends = [part for part in sorted(group) if len(beside[part]) == 1]
        if len(ends) == 2 and all(len(beside[part]) <= 2 for part in group):  # noqa: PLR2004 - a path
            yield _walk(ends[0], beside)
        else:
            yield from (
                [part, other]
                for part in sorted(group)
                for other in sorted(beside[part])
                if part < other
            )


def _group(start: str, beside: Mapping[str, list[str]]) -> set[str]:
    found, ahead = {start}, [start]
    while ahead:
        for part in beside[ahead.pop()]:
            if part not in found:
                found.add(part)
                ahead.append(part)
    return found


def _walk(start: str, beside: Mapping[str, list[str]]) -> list[str]:
    path = [start]
    while True:
        further = [part for part in beside[path[-1]] if part not in path[-2:]]
        if not further:
            return path
        path.append(further[0])
