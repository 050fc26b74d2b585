"""A duration or a window that depends on when it begins: looked up by the quarter of an hour."""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A duration that depends on when it starts: ``ready[i]`` for a start in grid cell ``i``.

    ``ready`` is non-decreasing and holds minutes from the origin; cell ``i`` covers the minutes
    ``[i * grid_min, (i + 1) * grid_min)``. A start beyond the last cell takes as long as in it.

    Attributes:
        takes: minutes for a start in each cell, beside ``ready``: where a quarter of an hour is
            too coarse, the one of the two counts that is nearer. Adding them to a start never
            leads from one cell beyond what the next cell says. Empty where ``ready`` is enough.
        shortest_min: it takes no less, whenever it starts.
        longest_min: it takes no more, whenever it starts.
    """

    grid_min: int
    ready: tuple[int, ...]
    takes: tuple[int, ...] = ()
    shortest_min: int = field(init=False, repr=False, compare=False)
    longest_min: int = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Reckon its least and most once: a plan asks for them again and again."""
        grid, all_min = self.grid_min, len(self.ready) * self.grid_min
        ends, starts = range(grid - 1, all_min, grid), range(0, all_min, grid)
        least = min(ready - end for ready, end in zip(self.ready, ends, strict=True))
        most = max(ready - start for ready, start in zip(self.ready, starts, strict=True))
        object.__setattr__(self, "shortest_min", max(0, min((least, *self.takes))))
        object.__setattr__(self, "longest_min", max(0, most, *self.takes))

    def ready_at(self, start_min: int) -> int:
        """Return the minute it is ready when it starts at ``start_min``; before 0, as from cell 0."""
        cell, ready = self._entry(start_min)
        if self.takes:
            ready = min(ready, start_min + self.takes[cell])
        return max(start_min, ready)

    def open_till(self, start_min: int) -> int:
        """Return the last minute of what begins to close at ``start_min``."""
        cell, ready = self._entry(start_min)
        if self.takes:
            ready = max(ready, start_min + self.takes[cell])
        return max(start_min, ready)

    def _entry(self, start_min: int) -> tuple[int, int]:
        cell = max(0, min(start_min // self.grid_min, len(self.ready) - 1))
        beyond = max(0, start_min - ((cell + 1) * self.grid_min - 1))
        return cell, self.ready[cell] + beyond
