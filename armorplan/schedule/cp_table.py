"""What depends on the time of day, for the solver: looked up by grid cell.

``Table.ready_at`` has three branches, and so has this, as far as they can come up: the cell's own
ready time; the start itself where that comes later; beyond the last cell it takes as long as there.
Only cells that a start can lie in are laid: those of the hours, where hands come before.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from armorplan.schedule.calendars import merged
from armorplan.schedule.draft import Draft
from armorplan.schedule.lag_spans import longest_of, shortest_of
from armorplan.schedule.problem import Table
from armorplan.solving.model import Element, Linear, Range, Term, at_least, at_most


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cells:
    """The cell that a start lies in, laid once for tables of one size.

    ``beyond`` is the literal of a start beyond the last cell; empty where there can be none.
    """

    name: str
    beyond: str
    ranges: tuple[Range, ...]

    @property
    def within(self) -> tuple[str, ...]:
        """The literals under which the start lies in a cell."""
        return (f"~{self.beyond}",) if self.beyond else ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    """One look-up: where it is ready, and by which entry; ``already`` as ``beyond`` in cells."""

    ready: str
    entry: str
    already: str
    cells: _Cells


class LookUps:
    """Look-ups in tables while a model is written; the same one is laid once."""

    def __init__(self, draft: Draft, most_min: int) -> None:
        self._draft = draft
        self._most = most_min
        self._cells: dict[tuple[Term, int, int], _Cells] = {}
        self._known: dict[tuple[Term, Table], _Found] = {}

    def ready_at(self, at: Term, table: Table, ranges: Iterable[Range]) -> str:
        """Return the name of the minute it is ready that begins at ``at``.

        Args:
            at: a variable and what is added to it.
            table: where to look it up.
            ranges: minutes that ``at`` can be, all of them from 0 upwards.
        """
        if (at, table) not in self._known:
            inside = tuple((low, min(high, self._most)) for low, high in ranges)
            cells = self._cells_of(at, table, inside)
            self._known[at, table] = self._laid(at, table, cells)
        return self._known[at, table].ready

    def hints(self, values: Mapping[str, int]) -> list[Term]:
        """Return the values that go with those of the variables looked up from."""
        found: dict[str, int] = {}
        for (at, table), known in self._known.items():
            start = values[at[0]] + at[1]
            last = len(table.ready) - 1
            cell = min(start // table.grid_min, last)
            beyond = start // table.grid_min > last
            found[known.cells.name] = cell
            found[known.entry] = table.ready[cell]
            found[known.ready] = table.ready_at(start)
            if known.cells.beyond:
                found[known.cells.beyond] = int(beyond)
            if known.already:
                found[known.already] = int(not beyond and table.ready[cell] < start)
        return list(found.items())

    def _cells_of(self, at: Term, table: Table, inside: tuple[Range, ...]) -> _Cells:
        grid, count = table.grid_min, len(table.ready)
        key = (at, grid, count)
        if key not in self._cells:
            name = f"cell {len(self._cells)}"
            last = max((high for _, high in inside), default=0)
            cells = _Cells(
                name=name,
                beyond=f"{name} beyond" if last >= count * grid else "",
                ranges=_cell_ranges(inside, grid, count),
            )
            self._lay_cells(at, cells, grid, count)
            self._cells[key] = cells
        return self._cells[key]

    def _lay_cells(self, at: Term, cells: _Cells, grid: int, count: int) -> None:
        start, offset = at
        self._draft.number(cells.name, cells.ranges)
        in_cell = ((start, 1), (cells.name, -grid))
        ranges = ((-offset, grid - 1 - offset),)
        self._draft.need(Linear(terms=in_cell, ranges=ranges, only_if=cells.within))
        if cells.beyond:
            self._draft.booleans.append(cells.beyond)
            only_if = (cells.beyond,)
            edge = at_least(count * grid - offset)
            self._draft.need(Linear(terms=((start, 1),), ranges=edge, only_if=only_if))
            last = ((count - 1, count - 1),)
            self._draft.need(Linear(terms=((cells.name, 1),), ranges=last, only_if=only_if))

    def _laid(self, at: Term, table: Table, cells: _Cells) -> _Found:
        possible = [table.ready[c] for a, b in cells.ranges for c in range(a, b + 1)]
        entry = self._draft.number(f"ready {len(self._known)}", ((min(possible), max(possible)),))
        self._draft.need(Element(index=cells.name, table=table.ready, target=entry))
        sooner = any(
            table.ready[c] < (c + 1) * table.grid_min - 1
            for a, b in cells.ranges
            for c in range(a, b + 1)
        )
        start, offset = at
        if not sooner and not cells.beyond:
            takes = ((shortest_of(table) + offset, longest_of(table) + offset),)
            # It follows from the look-up, and is told so that bounds need not look up.
            self._draft.need(Linear(terms=((entry, 1), (start, -1)), ranges=takes))
            return _Found(ready=entry, entry=entry, already="", cells=cells)
        already = f"{entry} already" if sooner else ""
        found = _Found(ready=f"{entry} or later", entry=entry, already=already, cells=cells)
        self._lay_branches(at, table, found)
        return found

    def _lay_branches(self, at: Term, table: Table, found: _Found) -> None:
        (start, offset), cells = at, found.cells
        edge = len(table.ready) * table.grid_min
        lasting = max(0, table.ready[-1] - (edge - 1))
        top = max(self._most, edge, *table.ready) + lasting
        self._draft.number(found.ready, ((0, top),))
        takes = ((found.ready, 1), (start, -1))
        ahead = ((found.entry, 1), (start, -1))
        by_entry = cells.within
        if found.already:
            self._draft.booleans.append(found.already)
            by_entry = (*by_entry, f"~{found.already}")
            by_now = (*cells.within, found.already)
            self._need(ahead, at_most(offset - 1), by_now)
            self._need(takes, ((offset, offset),), by_now)
        self._need(ahead, at_least(offset), by_entry)
        self._need(((found.ready, 1), (found.entry, -1)), ((0, 0),), by_entry)
        if cells.beyond:
            self._need(takes, ((offset + lasting,) * 2,), (cells.beyond,))
            if found.already:
                self._need(((found.already, 1),), ((0, 0),), (cells.beyond,))

    def _need(
        self, terms: tuple[Term, ...], ranges: tuple[Range, ...], only_if: tuple[str, ...]
    ) -> None:
        self._draft.need(Linear(terms=terms, ranges=ranges, only_if=only_if))


def _cell_ranges(inside: Iterable[Range], grid: int, count: int) -> tuple[Range, ...]:
    """Return the cells that minutes lie in; those beyond the last count to it."""
    last = count - 1
    cells = [
        (min(low // grid, last), min(high // grid, last)) for low, high in inside if low <= high
    ]
    joined = merged((low, high + 1) for low, high in cells)
    return tuple((low, high - 1) for low, high in joined) or ((0, 0),)
