"""Which lines pass close by which spots: found by place, in bounded time however dense they lie."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from armorplan.geometry.brought.lines import Drawn, corners_of, is_straight
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.stopping import ShouldStop, go_on

if TYPE_CHECKING:
    from numpy import float64, int64
    from numpy.typing import NDArray

    Numbers = NDArray[float64]
    Whole = NDArray[int64]

SAME_MM = 0.08
"""Lines no farther apart are one: two ways of flattening a curve differ by 0.05 mm each at most."""
MAX_LOOKS = 40_000_000
"""How many pieces near spots are looked at; a pattern needs some 100,000."""
MAX_PAIRS = 3_000_000
"""How many lines near spots may be found."""
_MOST_PIECES = 2_000_000
_AT_ONCE = 500_000
_LEAST_CELL_MM = 1.0


def too_dense(what: str) -> UnreadableError:
    """Return the error of a drawing whose lines lie too close together; ``what`` names them."""
    return UnreadableError(
        (
            Finding(
                code="drawing-limit",
                severity=Severity.ERROR,
                text=f"Thousands of {what} lie on or close to one another; so many are not compared.",
                remedy="Take out hatchings and ornaments; leave the outlines, holes and slots.",
            ),
        )
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cells:
    """Pieces of lines by the square cell in which the middle of each lies.

    ``keys`` are sorted numbers of cells, ``pieces`` the straight run of which each is part;
    ``runs`` gives where each run begins and how far it goes, ``owner`` the place of its line.
    """

    cell_mm: float
    keys: "Whole"
    pieces: "Whole"
    runs: "Numbers"
    owner: "Whole"


class Nearby:
    """Finds lines near spots; what it needs of the lines is made once, and only where asked.

    Long straight lines are not compared with one another: see ``straights``.
    """

    def __init__(self, lines: Sequence[Drawn], should_stop: ShouldStop) -> None:
        import numpy as np

        self._lines = lines
        self._should_stop = should_stop
        self._straight = np.array([is_straight(line) for line in lines], dtype=bool)
        self._made: dict[bool, _Cells] = {}

    def near(self, spots: "Numbers", own: "Whole") -> "tuple[Whole, Whole]":
        """Return pairs of a spot and another line within SAME_MM of it, each by its place.

        Args:
            spots: where to look, in mm.
            own: the place of the line on which each spot lies.

        Raises:
            UnreadableError: too many lines lie too close together.
        """
        import numpy as np

        every = np.arange(len(spots))
        found = [np.empty((2, 0), dtype=int)]
        for straight, asked in ((False, every), (True, every[~self._straight[own]])):
            if len(asked) and (self._straight == straight).any():
                found.append(self._near(spots, asked, straight=straight))
        at, line = np.concatenate(found, axis=1)
        there = own[at] != line
        return at[there], line[there]

    def _near(self, spots: "Numbers", asked: "Whole", *, straight: bool) -> "Whole":
        import numpy as np

        passing = np.flatnonzero(self._straight == straight)
        if straight not in self._made:
            go_on(self._should_stop)
            self._made[straight] = _cells([self._lines[n] for n in passing.tolist()])
        cells = self._made[straight]
        pairs = [np.empty(0, dtype=int)]
        count = 0
        for spot, piece in _beside(spots[asked], cells, self._should_stop):
            there = _apart2(spots[asked[spot]], cells.runs[piece]) <= SAME_MM**2
            lines = passing[cells.owner[piece[there]]]
            pairs.append(asked[spot[there]] * len(self._lines) + lines)
            count += len(lines)
            if count > MAX_PAIRS:
                raise too_dense("lines")
        both = np.unique(np.concatenate(pairs))
        return np.stack((both // len(self._lines), both % len(self._lines)))


def _cells(lines: Sequence[Drawn]) -> _Cells:
    import numpy as np

    corners, owner = corners_of(lines)
    same = owner[1:] == owner[:-1]
    starts, ways = corners[:-1][same], (corners[1:] - corners[:-1])[same]
    long_mm = np.hypot(*ways.T)
    piece_mm = max(_LEAST_CELL_MM, float(long_mm.sum()) / _MOST_PIECES)
    count = np.maximum(np.ceil(long_mm / piece_mm), 1).astype(int)
    pieces = np.repeat(np.arange(len(ways)), count)
    place = np.arange(len(pieces)) - np.repeat(np.cumsum(count) - count, count)
    share = ((place + 0.5) / count[pieces])[:, None]
    middles = starts[pieces] + share * ways[pieces]
    # A spot by a piece is no farther from its middle, across or down, than half a cell.
    cell_mm = piece_mm + 2 * SAME_MM
    keys = _key(np.floor(middles / cell_mm).astype(int))
    order = np.argsort(keys, kind="stable")
    return _Cells(
        cell_mm=cell_mm,
        keys=keys[order],
        pieces=pieces[order],
        runs=np.concatenate((starts, ways), axis=1),
        owner=owner[:-1][same],
    )


def _key(cell: "Whole") -> "Whole":
    return cell[:, 0] * (1 << 31) + cell[:, 1]


def _beside(
    spots: "Numbers", cells: _Cells, should_stop: ShouldStop
) -> "Iterator[tuple[Whole, Whole]]":
    """Yield spots with the straight runs in the four cells about each, some at a time."""
    import numpy as np

    corner = np.floor(spots / cells.cell_mm - 0.5).astype(int)
    about = np.array(((0, 0), (0, 1), (1, 0), (1, 1)), dtype=int)
    keys = np.concatenate([_key(corner + step) for step in about])
    spot = np.tile(np.arange(len(spots)), 4)
    first = np.searchsorted(cells.keys, keys)
    count = np.searchsorted(cells.keys, keys, side="right") - first
    total = np.cumsum(count)
    if len(total) and total[-1] > MAX_LOOKS:
        raise too_dense("lines")
    begin = 0
    while begin < len(keys):
        go_on(should_stop)
        before = total[begin - 1] if begin else 0
        end = max(int(np.searchsorted(total, before + _AT_ONCE)), begin + 1)
        part = slice(begin, end)
        step = np.arange(count[part].sum()) - np.repeat(
            total[part] - count[part] - before, count[part]
        )
        yield (
            np.repeat(spot[part], count[part]),
            cells.pieces[np.repeat(first[part], count[part]) + step],
        )
        begin = end


def _apart2(spots: "Numbers", runs: "Numbers") -> "Numbers":
    """Return the square of how far each spot is from its straight run.

    Args:
        spots: x and y of each.
        runs: of each the x and y where it begins, then how far it goes in x and y.
    """
    import numpy as np

    x, y, run_x, run_y = runs.T
    to_x, to_y = spots[:, 0] - x, spots[:, 1] - y
    length2 = run_x * run_x + run_y * run_y
    along = (to_x * run_x + to_y * run_y) / np.where(length2 > 0, length2, 1.0)
    along = np.minimum(np.maximum(along, 0.0), 1.0)
    return np.asarray((to_x - along * run_x) ** 2 + (to_y - along * run_y) ** 2, dtype=float)
