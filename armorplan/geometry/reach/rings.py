"""Rows followed from plate to plate: what they draw plates into, and the rings that they close."""

from collections import deque
from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import pairwise

from armorplan.geometry.reach.model import FLAT_LINK, Link, Row

Drawn = tuple[tuple[str, str, int], ...]
"""Of a row: from plate to plate, and what it draws them into, a digit of its own for each shape."""
_DIGIT = 16
"""In so many bits fits how many times, less back, rows lead into one shape."""
_Back = dict[str, tuple[str, str]]
"""By plate the row that led to it, and the plate before."""


def drawn_round(row: Row) -> Iterator[Link]:
    """Yield what a row is between where that is not told: each plate and the next, drawn round."""
    parts = tuple(dict.fromkeys(row.parts))
    ends = pairwise(parts) if len(parts) > 1 else ((part, part) for part in parts)
    return (Link(one, other, f"{row.id}:{one}:{other}") for one, other in ends)


def digits(links: Mapping[str, tuple[Link, ...]]) -> dict[str, Drawn]:
    """Return rows with a digit for each shape that they draw plates into; lying flat counts none."""
    shapes = sorted({link.draws for held in links.values() for link in held} - {FLAT_LINK})
    digit = {draws: 1 << _DIGIT * at for at, draws in enumerate(shapes)} | {FLAT_LINK: 0}
    return {
        row: tuple((link.one, link.other, digit[link.draws]) for link in held)
        for row, held in links.items()
    }


def carried(links: Drawn, drawn: dict[str, int]) -> tuple[list[str], bool]:
    """Follow a row from plates that are reached to the rest, and tell whether it closes a ring.

    ``drawn`` is what rows draw a plate into, as seen from where one began: the sum of their digits.
    """
    if len(links) == 1:
        return _carried_over(links[0], drawn)
    fresh, closes, left = [], False, list(links)
    while left:
        link = next((each for each in left if each[0] in drawn or each[1] in drawn), None)
        if link is None:
            break
        left.remove(link)
        more, closed = _carried_over(link, drawn)
        fresh += more
        closes = closes or closed
    return fresh, closes


def closes_itself(links: Drawn) -> bool:
    """Tell whether a row closes a ring on its own: it joins a plate to itself, or goes all round."""
    return any(carried(links, {one: 0})[1] for one, _, _ in links)


def ring_plates(links: Drawn) -> frozenset[str]:
    """Return the plates of the ring that a row closes by itself, without what only hangs on it."""
    if not closes_itself(links):
        return frozenset()
    left, held = list(links), list[str]()
    while len(left) != len(held) // 2:
        held = [part for link in left for part in link[:2]]
        left = [each for each in left if held.count(each[0]) > 1 and held.count(each[1]) > 1]
    return frozenset(held)


def _carried_over(link: tuple[str, str, int], drawn: dict[str, int]) -> tuple[list[str], bool]:
    one, other, draws = link
    if one not in drawn:
        one, other, draws = other, one, -draws
    there = drawn[one] + draws
    if other not in drawn:
        drawn[other] = there
        return [other], False
    return [], one == other or drawn[other] != there


def way_to_shape(
    start: str,
    rows_on: Mapping[str, Sequence[str]],
    links: Mapping[str, Drawn],
    known: tuple[Collection[str], frozenset[str]],
) -> frozenset[str] | None:
    """Return the rows that lead from a plate to a formed one, or round a ring, the nearest.

    Args:
        start: the plate.
        rows_on: by plate.
        links: by row.
        known: the rows that count, and the plates that hold a form.
    """
    rows, formed = known
    back: _Back = {}
    for row, (one, other), closes in _followed(start, rows_on, links, (rows, back)):
        if closes:
            return frozenset((row, *_way(back, one), *_way(back, other)))
        if other in formed:
            return frozenset(_way(back, other))
    return frozenset() if start in formed else None


def ring_from(
    start: str,
    rows_on: Mapping[str, Sequence[str]],
    links: Mapping[str, Drawn],
    rows: Collection[str],
) -> frozenset[str] | None:
    """Return the rows of a near ring that a plate is part of; ``None`` where none is met with."""
    back: _Back = {}
    for row, (one, other), closes in _followed(start, rows_on, links, (rows, back)):
        there, around = _way(back, one), _way(back, other)
        if closes and (not there or not around or there[-1] != around[-1]):
            return frozenset((row, *there, *around))
    return None


def _followed(
    start: str,
    rows_on: Mapping[str, Sequence[str]],
    links: Mapping[str, Drawn],
    known: tuple[Collection[str], _Back],
) -> Iterator[tuple[str, tuple[str, str], bool]]:
    """Follow rows from a plate, the nearest first; yield each, and whether it closes a ring."""
    rows, back = known
    drawn, seen, left = {start: 0}, set[str](), deque((start,))
    while left:
        for row in rows_on.get(left.popleft(), ()):
            if row in seen or row not in rows:
                continue
            seen.add(row)
            before = set(drawn)
            fresh, _ = carried(links[row], drawn)
            left.extend(fresh)
            yield from _told(row, links[row], drawn, (before, back))


def _told(
    row: str, links: Drawn, drawn: Mapping[str, int], known: tuple[set[str], _Back]
) -> Iterator[tuple[str, tuple[str, str], bool]]:
    """Yield the links of a row that reach further plates, or close a ring."""
    before, back = known
    left = [link for link in links if link[0] in drawn and link[1] in drawn]
    while left:
        link = next(each for each in left if each[0] in before or each[1] in before)
        left.remove(link)
        one, other, draws = link if link[0] in before else (link[1], link[0], -link[2])
        if other not in before:
            before.add(other)
            back[other] = (row, one)
            yield row, (one, other), False
        elif one == other or drawn[other] != drawn[one] + draws:
            yield row, (one, other), True


def _way(back: _Back, part: str) -> list[str]:
    """Return the rows from a plate back to where one began, the last one there."""
    found = []
    while part in back:
        row, part = back[part]
        found.append(row)
    return found
