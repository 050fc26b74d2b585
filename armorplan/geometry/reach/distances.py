"""Lengths over the leather of a finished shell: its plates' nets, glued along their rows.

Between neighbouring joints of a row the same shares of the spacing are one spot on all the plates
that both joints pass. Ways from a joint are the shortest over the leather (Dijkstra 1959).
"""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil, dist
from typing import TYPE_CHECKING

from armorplan.geometry.reach.part_net import PartNet, part_net
from armorplan.geometry.reach.rims import Mouth
from armorplan.geometry.reach.shells import Line, ShellCut, common, span_mm
from armorplan.geometry.reach.slits import MOST_JOINTS, slits
from armorplan.pattern.parts import Point

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from scipy.sparse import csr_array

    Reals = NDArray[np.float64]
    Whole = NDArray[np.int64]

GLUED_MM = 6.0
"""Spots that are glued lie no further apart along a row than this."""
_MOST_GLUED = 60
_ON_RIM_MM = 0.5
_ON_BRIDGE_MM = 1.5
_CHUNK = 128


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class ShellNet:
    """The net of a shell.

    Attributes:
        nets: by plate.
        spots: by plate, the number in the shell of each of its inner spots.
        joints: the number of each joint of a row.
        gaps: the number of each place where a row gapes for good, by its row and name.
        seats: by seat, the plates and the places among their ends where it sits.
        size: how many numbers there are.
    """

    nets: dict[str, PartNet]
    spots: "dict[str, Whole]"
    joints: dict[str, int]
    gaps: dict[tuple[str, str], int]
    seats: dict[str, tuple[tuple[str, int], ...]]
    size: int


def shell_net(cut: ShellCut) -> ShellNet:
    """Return the net of a shell."""
    import numpy as np

    rungs = [[(leg[0], spot) for leg, spot in r.legs] for line in cut.lines for r in line.rungs]
    large = len(rungs) + len(cut.seats) > MOST_JOINTS
    apart_mm = 2 * GLUED_MM if large else GLUED_MM
    glued = [*rungs, *(spots for line in cut.lines for spots in _glued(line, apart_mm))]
    gaping = slits(cut)
    gaps = {
        (row, gap.name): len(glued) + number
        for number, (row, gap) in enumerate((row, gap) for row in gaping for gap in gaping[row])
    }
    glued += [list(gap.spots) for each in gaping.values() for gap in each]
    inner, numbers = _by_part(cut, glued)
    holes, _ = _by_part(cut, rungs)
    ends, seats = _seats(cut)
    nets, spots, size = {}, {}, len(glued)
    for name, ring, _ in cut.parts:
        near = tuple(holes[name] + ends[name])
        net = part_net(ring, tuple(inner[name]), tuple(ends[name]), near)
        more = len(net.inner) - len(inner[name])
        nets[name] = net
        spots[name] = np.array([*numbers[name], *range(size, size + more)], dtype=np.int64)
        size += more
    joints = [rung.joint for line in cut.lines for rung in line.rungs]
    by_joint = {joint: number for number, joint in enumerate(joints)}
    return ShellNet(nets=nets, spots=spots, joints=by_joint, gaps=gaps, seats=seats, size=size)


_Glued = list[tuple[str, Point]]
"""Spots of several plates that are one in the shell."""


def _by_part(
    cut: ShellCut, glued: list[_Glued]
) -> tuple[dict[str, list[Point]], dict[str, list[int]]]:
    """Return by plate its spots in a list of glued ones, and their places in that list."""
    spots: dict[str, list[Point]] = {part.part: [] for part in cut.parts}
    numbers: dict[str, list[int]] = {part.part: [] for part in cut.parts}
    for number, together in enumerate(glued):
        for part, spot in together:
            spots[part].append(spot)
            numbers[part].append(number)
    return spots, numbers


def _seats(cut: ShellCut) -> tuple[dict[str, list[Point]], dict[str, tuple[tuple[str, int], ...]]]:
    """Return by plate the spots of seats, and by seat its plates and places among those."""
    ends: dict[str, list[Point]] = {part.part: [] for part in cut.parts}
    seats = {}
    for seat in cut.seats:
        places = []
        for part, spot in seat.spots:
            places.append((part, len(ends[part])))
            ends[part].append(spot)
        seats[seat.joint] = tuple(places)
    return ends, seats


def _glued(line: Line, apart_mm: float) -> list[_Glued]:
    """Return the spots glued between neighbouring joints of a row, each on all its plates."""
    spans = list(pairwise(line.rungs))
    if line.closed:
        spans.append((line.rungs[-1], line.rungs[0]))
    found = []
    for one, other in spans:
        both = common(one, other)
        length_mm = span_mm(one, other) or 0.0
        count = min(_MOST_GLUED, ceil(length_mm / apart_mm))
        if len(both) > 1:
            for step in range(1, count):
                share = step / count
                found.append([(leg[0], _between(a, b, share)) for leg, a, b in both])
    return found


def _between(one: Point, other: Point, share: float) -> Point:
    return one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])


def on_rim(net: ShellNet, mouth: Mouth) -> "dict[str, Whole]":
    """Return by plate which of the spots along its edge lie on a mouth."""
    import numpy as np
    from shapely import LineString, MultiLineString, distance, points

    found: dict[str, NDArray[np.bool_]] = {}
    lines: dict[str, list[LineString]] = {}
    for arc in mouth.arcs:
        lines.setdefault(arc.part, []).append(LineString(arc.spots))
    short: dict[str, list[LineString]] = {}
    for bridge in mouth.bridges:
        for part, start, end in bridge.ways:
            if dist(start, end) > 0:
                short.setdefault(part, []).append(LineString((start, end)))
    for held, off_mm in ((lines, _ON_RIM_MM), (short, _ON_BRIDGE_MM)):
        for part, ways in held.items():
            edge = net.nets[part].edge
            if len(edge):
                on = distance(MultiLineString(ways), points(edge)) <= off_mm
                found[part] = found.get(part, np.zeros(len(edge), dtype=bool)) | on
    return {part: np.nonzero(on)[0] for part, on in sorted(found.items())}


def graph(net: ShellNet, rims: "tuple[dict[str, Whole], ...]" = ()) -> "csr_array":
    """Return the chords of a shell as a sparse matrix, one row more for each rim: ways in from it."""
    import numpy as np
    from scipy.sparse import csr_array

    rows, cols, lengths = [], [], []
    for part, held in net.nets.items():
        one, other = np.nonzero(np.isfinite(held.across) & (held.across > 0))
        numbers = net.spots[part]
        rows.append(numbers[one])
        cols.append(numbers[other])
        lengths.append(held.across[one, other])
    for at, rim in enumerate(rims):
        for part, on in rim.items():
            if len(on) and len(net.spots[part]):
                least = net.nets[part].to_edge[:, on].min(axis=1)
                rows.append(np.full(len(least), net.size + at))
                cols.append(net.spots[part])
                lengths.append(least.astype(float))
    size = net.size + len(rims)
    if not rows:
        return csr_array((size, size))
    row, col, length = np.concatenate(rows), np.concatenate(cols), np.concatenate(lengths)
    sound = np.isfinite(length) & (row != col)
    row, col, length = row[sound], col[sound], np.maximum(length[sound], 1e-9)
    order = np.lexsort((length, col, row))
    row, col, length = row[order], col[order], length[order]
    first = np.ones(len(row), dtype=bool)
    first[1:] = (row[1:] != row[:-1]) | (col[1:] != col[:-1])
    return csr_array((length[first], (row[first], col[first])), shape=(size, size))


def from_spots(net: ShellNet, chords: "csr_array", starts: list[int], limit_mm: float) -> "Reals":
    """Return the lengths from some spots to every joint: those of rows first, then the seats.

    Infinite where there is no way, or none within the limit.
    """
    import numpy as np
    from scipy.sparse.csgraph import dijkstra

    numbers = list(net.joints.values())
    found: list[Reals] = []
    for at in range(0, len(starts), _CHUNK):
        far = dijkstra(chords, directed=True, indices=starts[at : at + _CHUNK], limit=limit_mm)
        found.append(np.hstack([far[:, numbers], _to_seats(net, far)]))
    return np.vstack(found) if found else np.empty((0, len(numbers) + len(net.seats)))


def _to_seats(net: ShellNet, far: "Reals") -> "Reals":
    import numpy as np

    found = np.full((len(far), len(net.seats)), np.inf)
    for at, places in enumerate(net.seats.values()):
        for part, nth in places:
            if len(net.spots[part]):
                over = far[:, net.spots[part]] + net.nets[part].to_ends[:, nth]
                found[:, at] = np.minimum(found[:, at], over.min(axis=1))
    return found


def straight_in(net: ShellNet, rim: "dict[str, Whole]") -> "Reals":
    """Return the straight chord from a rim to every seat, in their order; infinite without one."""
    import numpy as np

    found = np.full(len(net.seats), np.inf)
    for at, places in enumerate(net.seats.values()):
        for part, nth in places:
            on = rim.get(part)
            if on is not None and len(on):
                found[at] = min(found[at], float(net.nets[part].ends_to_edge[nth, on].min()))
    return found
