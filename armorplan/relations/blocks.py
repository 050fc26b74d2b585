"""Steps done in one go as blocks that lie in one another like boxes.

'Together' means that nothing else comes between. Where two such groups share steps and neither
holds the other, the steps of one alone, the shared ones and those of the other alone follow each
other, this way or the other way round: nothing else keeps both. Groups that hang together so
form one block of parts in a series, whose order is fixed but for its direction (or no order keeps
them all). Groups of different blocks never overlap, so the blocks nest.

Source of the property (consecutive ones): K. S. Booth and G. S. Lueker, 'Testing for the
consecutive ones property, interval graphs, and graph planarity using PQ-tree algorithms', Journal
of Computer and System Sciences 13, 1976 (from memory); the plain way taken here is for few groups.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from armorplan.relations.index import NOBODY

_Group = frozenset[int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """Parts of a block, by number, that follow each other in this order or its reverse."""

    parts: tuple[int, ...]
    made_by: frozenset[int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Blocks:
    """Steps and blocks by number; the blocks are numbered on from the steps, outer ones first.

    Attributes:
        parents: by step or block, the block it lies in, or ``NOBODY``.
        made_by: by step or block, the relations that make it a block; none for a step.
        series: the parts whose order is fixed but for its direction.
    """

    parents: tuple[int, ...]
    made_by: tuple[frozenset[int], ...]
    series: tuple[Series, ...]


def no_blocks(steps: int) -> Blocks:
    """Return so many steps, none of them in a block."""
    return Blocks(parents=(NOBODY,) * steps, made_by=(frozenset(),) * steps, series=())


def lay_blocks(steps: int, groups: Mapping[int, frozenset[int]]) -> Blocks | frozenset[int]:
    """Return the blocks that keep all groups together, or the groups that cannot all be kept.

    Args:
        steps: how many there are.
        groups: by relation, the steps done in one go.
    """
    relations: dict[_Group, set[int]] = {}
    for relation, group in groups.items():
        if len(group) > 1:
            relations.setdefault(group, set()).add(relation)
    wanted: dict[_Group, set[int]] = {}
    rows: list[tuple[list[_Group], frozenset[int]]] = []
    for bunch in _bunches(list(relations)):
        made_by = frozenset[int]().union(*(relations[group] for group in bunch))
        parts = _in_series(bunch)
        if not parts:
            return made_by
        if len(parts) > 1:
            rows.append((parts, made_by))
        for block in (frozenset[int]().union(*parts), *parts):
            if len(block) > 1:
                wanted.setdefault(block, set()).update(made_by)
    return _nested(steps, wanted, rows)


def _nested(
    steps: int,
    wanted: Mapping[_Group, set[int]],
    rows: list[tuple[list[_Group], frozenset[int]]],
) -> Blocks:
    innermost = [NOBODY] * steps
    outer_first = sorted(wanted, key=lambda group: (-len(group), sorted(group)))
    number: dict[_Group, int] = {}
    parents = []
    for block in outer_first:
        number[block] = steps + len(number)
        parents.append(innermost[min(block)])
        for step in block:
            innermost[step] = number[block]
    return Blocks(
        parents=(*innermost, *parents),
        made_by=(*[frozenset[int]()] * steps, *(frozenset(wanted[b]) for b in outer_first)),
        series=tuple(
            Series(
                parts=tuple(number[p] if len(p) > 1 else min(p) for p in parts), made_by=made_by
            )
            for parts, made_by in rows
        ),
    )


def _bunches(groups: list[_Group]) -> Iterator[list[_Group]]:
    """Yield the groups that overlap, each after one of its bunch that it overlaps."""
    by_step: dict[int, list[int]] = {}
    for at, group in enumerate(groups):
        for step in group:
            by_step.setdefault(step, []).append(at)
    seen: set[int] = set()
    for start in range(len(groups)):
        if start in seen:
            continue
        seen.add(start)
        bunch = [start]
        for at in bunch:
            near = sorted({other for step in groups[at] for other in by_step[step]} - seen)
            for other in near:
                if groups[at] - groups[other] and groups[other] - groups[at]:
                    seen.add(other)
                    bunch.append(other)
        yield [groups[at] for at in bunch]


def _in_series(bunch: Sequence[_Group]) -> list[_Group]:
    """Return the parts the groups divide each other into, in series; empty where none exists."""
    parts = [bunch[0]]
    for group in bunch[1:]:
        parts = _divided(parts, group) or _divided(parts[::-1], group)
        if not parts:
            return []
    return parts


def _divided(parts: list[_Group], group: _Group) -> list[_Group]:
    """Return the parts with a group laid over them that ends at their right end or within."""
    new = group.difference(*parts)
    touched = [at for at, part in enumerate(parts) if part & group]
    first, last = touched[0], touched[-1]
    if new and last < len(parts) - 1:
        return []
    whole = touched[1:] if new else touched[1:-1]
    if last - first + 1 > len(touched) or any(parts[at] - group for at in whole):
        return []
    found = [*parts[:first], parts[first] - group, parts[first] & group, *parts[first + 1 : last]]
    if last > first:
        found += [parts[last] & group, parts[last] - group]
    found += [*parts[last + 1 :], new]
    return [part for part in found if part]
