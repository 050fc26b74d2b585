"""What depends on the time of day, for the solver: looked up by grid cell.

``Table`` has three branches, and so has this, as far as they can come up: the cell's own entry;
the start itself where that comes later; beyond the last cell it takes as long as there. Only
cells that a start can lie in are laid: those of the hours, where hands come before.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from armorplan.schedule.calendars import merged
from armorplan.schedule.cp.draft import Draft, Told
from armorplan.schedule.cp.reading import Reading
from armorplan.schedule.table import Table
from armorplan.solving.model import Linear, Range, Term, at_least, at_most


@dataclass(frozen=True, slots=True, kw_only=True)
class Cells:
    """The cell that a start lies in, laid once for tables of one size.

    Attributes:
        name: of its variable.
        at: the variable of the start, and what is added to it.
        ranges: the cells that can be.
        grid_min: minutes of each.
        count: how many there are.
        beyond: the literal of a start beyond the last cell; empty where there can be none.
    """

    name: str
    at: Term
    ranges: tuple[Range, ...]
    grid_min: int
    count: int
    beyond: str

    @property
    def within(self) -> tuple[str, ...]:
        """The literals under which the start lies in a cell."""
        return (f"~{self.beyond}",) if self.beyond else ()

    def all(self) -> Iterable[int]:
        """Return the cells that can be."""
        return (cell for low, high in self.ranges for cell in range(low, high + 1))

    def first_of(self, cell: int) -> int:
        """Return the first minute of a cell."""
        return cell * self.grid_min

    def last_of(self, cell: int) -> int:
        """Return the last minute of a cell."""
        return (cell + 1) * self.grid_min - 1

    def says_more(self, table: Table, *, closes: bool) -> tuple[bool, bool]:
        """Tell whether a window's ready time counts anywhere, and whether its minutes do."""
        ready, takes = table.ready, table.takes or (0,) * len(table.ready)
        if closes:
            by_takes = bool(table.takes) or any(ready[c] < self.last_of(c) for c in self.all())
            by_ready = any(ready[c] > self.first_of(c) + takes[c] for c in self.all())
            return by_ready or not by_takes, by_takes
        if not table.takes:
            return True, False
        return any(ready[c] < self.last_of(c) + takes[c] for c in self.all()), True


@dataclass(frozen=True, slots=True, kw_only=True)
class Branch:
    """A choice between a window's ready time (true) and its minutes."""

    start: str
    end: Term
    table: Table
    closes: bool

    def by_ready(self, end_min: int, start_min: int) -> bool:
        """Tell whether the ready time allows a start, or is beside the point."""
        cell = end_min // self.table.grid_min
        if cell >= len(self.table.ready):
            return True
        over = start_min - self.table.ready[cell]
        return over <= 0 if self.closes else over >= 0


class LookUps:
    """Look-ups in tables while a model is written; the same one is laid once."""

    def __init__(self, draft: Draft, most_min: int) -> None:
        self._draft = draft
        self._most = most_min
        self._cells: dict[tuple[Term, int, int], Cells] = {}
        self._entries: dict[tuple[str, tuple[int, ...]], tuple[str, Cells]] = {}
        self._branches = 0

    def cells(self, at: Term, table: Table, ranges: Iterable[Range]) -> Cells:
        """Return the cell of a start.

        Args:
            at: a variable and what is added to it.
            table: whose cells.
            ranges: minutes that ``at`` can be, all of them from 0 upwards.
        """
        grid, count = table.grid_min, len(table.ready)
        key = (at, grid, count)
        if key not in self._cells:
            inside = tuple((low, min(high, self._most)) for low, high in ranges)
            last = max((high for _, high in inside), default=0)
            name = f"cell {len(self._cells)}"
            cells = Cells(
                name=name,
                at=at,
                ranges=_cell_ranges(inside, grid, count),
                grid_min=grid,
                count=count,
                beyond=f"{name} beyond" if last >= count * grid else "",
            )
            self._lay_cells(cells)
            self._cells[key] = cells
        return self._cells[key]

    def entry(self, cells: Cells, entries: tuple[int, ...]) -> str:
        """Return the name of the entry of a cell."""
        key = (cells.name, entries)
        if key not in self._entries:
            name = f"entry {len(self._entries)}"
            self._lay_entries(name, cells, entries)
            self._entries[key] = name, cells
        return self._entries[key][0]

    def ready_at(self, start: str, table: Table, cells: Cells, told: Told) -> str:
        """Return the name of the minute it is ready that begins at a variable, in these cells."""
        entry = self.entry(cells, table.ready)
        if not cells.beyond and all(table.ready[c] >= cells.last_of(c) for c in cells.all()):
            takes = ((table.shortest_min, table.longest_min),)
            # It follows from the look-up, and is told so that bounds need not look up.
            self._draft.need(Linear(terms=((entry, 1), (start, -1)), ranges=takes))
            return entry
        ready = f"{start} ready"
        edge = cells.count * cells.grid_min
        lasting = max(0, table.ready[-1] - (edge - 1))
        most = max(self._most, edge, *table.ready) + lasting
        self._draft.number(ready, ((0, most),), told)
        already = self._already(ready, entry, cells)
        self._lay_entry(start, (ready, entry), cells, already)
        if cells.beyond:
            self._need(((ready, 1), (start, -1)), ((lasting, lasting),), (cells.beyond,))
            self._need(((already, 1),), ((0, 0),), (cells.beyond,))
        return ready

    def _lay_entries(self, name: str, cells: Cells, entries: tuple[int, ...]) -> None:
        """Let a variable be the entry of a cell: so much for each cell, and one of a few waits.

        The day repeats itself, so there are far fewer waits than cells: with a literal for each
        wait 80 dryings by the hour need 600, with one for each cell 12,000.
        """
        slope, waits = min((_waits(cells, entries, s) for s in (cells.grid_min, 0)), key=_count)
        possible = [entries[c] for c in cells.all()]
        self._draft.number(
            name,
            ((min(possible), max(possible)),),
            lambda plan: entries[plan.at((cells.name, 0))],
        )
        literals = {wait: f"{name} waits {wait}" for wait in sorted(waits)}
        if len(literals) == 1:
            (wait,) = literals
            self._draft.keep(((name, 1), (cells.name, -slope)), ((wait, wait),))
            return
        for wait, literal in literals.items():
            self._draft.boolean(literal, _told_wait(cells, entries, slope, wait))
            self._draft.keep(((cells.name, 1),), _joined(waits[wait]), literal)
        self._draft.one_of(*literals.values())
        terms = ((literal, -wait) for wait, literal in literals.items() if wait)
        self._draft.keep(((name, 1), (cells.name, -slope), *terms), ((0, 0),))

    def branch(self, branch: Branch) -> str:
        """Return a literal for a choice."""
        literal = f"branch {self._branches}"
        self._branches += 1
        return self._draft.boolean(
            literal,
            lambda plan: int(branch.by_ready(plan.at(branch.end), plan.at((branch.start, 0)))),
        )

    def _lay_cells(self, cells: Cells) -> None:
        (start, offset), grid = cells.at, cells.grid_min

        def told(plan: Reading) -> int:
            return min(plan.at(cells.at) // grid, cells.count - 1)

        self._draft.number(cells.name, cells.ranges, told)
        self._need(
            ((start, 1), (cells.name, -grid)), ((-offset, grid - 1 - offset),), cells.within
        )
        if cells.beyond:
            self._draft.boolean(
                cells.beyond, lambda plan: int(plan.at(cells.at) // grid >= cells.count)
            )
            edge = at_least(cells.count * grid - offset)
            self._need(((start, 1),), edge, (cells.beyond,))
            last = ((cells.count - 1, cells.count - 1),)
            self._need(((cells.name, 1),), last, (cells.beyond,))

    def _already(self, ready: str, entry: str, cells: Cells) -> str:
        """Return the literal of what is ready as it starts."""

        def told(plan: Reading) -> int:
            begins = plan.at(cells.at)
            within = begins < cells.count * cells.grid_min
            return int(within and plan.at((entry, 0)) < begins)

        return self._draft.boolean(f"{ready} already", told)

    def _lay_entry(self, start: str, end: tuple[str, str], cells: Cells, already: str) -> None:
        """Lay the two branches of an end within the cells: it is the entry, or the start itself."""
        ready, entry = end
        takes, ahead = ((ready, 1), (start, -1)), ((entry, 1), (start, -1))
        by_now, by_entry = (*cells.within, already), (*cells.within, f"~{already}")
        self._need(ahead, at_most(-1), by_now)
        self._need(takes, ((0, 0),), by_now)
        self._need(ahead, at_least(0), by_entry)
        self._need(((ready, 1), (entry, -1)), ((0, 0),), by_entry)

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


_Waits = tuple[int, dict[int, list[int]]]
"""Minutes for each cell, and the cells of every wait beside them."""


def _waits(cells: Cells, entries: tuple[int, ...], slope: int) -> _Waits:
    found: dict[int, list[int]] = {}
    for cell in cells.all():
        found.setdefault(entries[cell] - slope * cell, []).append(cell)
    return slope, found


def _count(waits: _Waits) -> int:
    return len(waits[1])


def _told_wait(cells: Cells, entries: tuple[int, ...], slope: int, wait: int) -> Told:
    def told(plan: Reading) -> int:
        cell = plan.at((cells.name, 0))
        return int(entries[cell] - slope * cell == wait)

    return told


def _joined(cells: Iterable[int]) -> tuple[Range, ...]:
    """Return cells as inclusive ranges."""
    joined = merged((cell, cell + 1) for cell in cells)
    return tuple((low, high - 1) for low, high in joined)
