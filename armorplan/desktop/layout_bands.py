"""Folds a long layered picture into bands that are read like lines of text.

A build is mostly one step after the other: drawn in one line it is forty boxes long and two high.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from armorplan.desktop.layout_dag import Edge, Layered, Place, Size

ASPECT = 1.5
"""The width of the whole picture over its height, about that of the place it is shown in."""
TURN = 26.0
"""How far an edge runs out of a band before it turns to the next."""
LANE = 9.0
"""Between the edges that turn side by side."""
BAND_GAP = 40.0
SHIFT = 1
"""A band may be so many layers shorter or longer, to be broken where few edges run."""


@dataclass(frozen=True, slots=True)
class _Band:
    """Layers ``first`` up to ``past``: where they lay, and by how much they move."""

    first: int
    past: int
    left: float
    right: float
    top: float
    low: float


def folded(laid: Layered, sizes: Mapping[str, Size]) -> Layered:
    """Return the picture in as many bands as bring it nearest to ``ASPECT``."""
    columns = sorted({x for route in laid.routes.values() for x, _ in route}
                     | {x for x, _ in laid.centres.values()})  # fmt: skip
    if not columns:
        return laid
    place = {x: number for number, x in enumerate(columns)}
    cuts = _cuts(laid, place)
    options = [
        _bands(laid, sizes, columns, _breaks(len(columns), count, cuts))
        for count in range(1, max(len(columns) // 2, 1) + 1)
    ]
    bands = min(options, key=lambda bands: abs(_aspect(bands) - ASPECT))
    return _moved(laid, bands, place)


def _cuts(laid: Layered, place: Mapping[float, int]) -> list[int]:
    """Return how many edges run between each layer and the next."""
    cuts = [0] * len(place)
    for route in laid.routes.values():
        for (x, _), (to_x, _) in pairwise(route):
            if place[to_x] == place[x] + 1:
                cuts[place[x]] += 1
    return cuts


def _breaks(layers: int, count: int, cuts: Sequence[int]) -> list[int]:
    """Return the layers at which bands begin, each break where fewest edges are cut."""
    breaks = [0]
    for number in range(1, count):
        wanted = round(number * layers / count)
        near = [at for at in range(wanted - SHIFT, wanted + SHIFT + 1) if breaks[-1] < at < layers]
        if near:
            breaks.append(min(near, key=lambda at: (cuts[at - 1], abs(at - wanted))))
    return breaks


def _bands(
    laid: Layered, sizes: Mapping[str, Size], columns: Sequence[float], breaks: Sequence[int]
) -> tuple[_Band, ...]:
    found = []
    for first, past in pairwise((*breaks, len(columns))):
        low_x, high_x = columns[first], columns[past - 1]
        boxes = [
            (x, y, *sizes[node]) for node, (x, y) in laid.centres.items() if low_x <= x <= high_x
        ]
        bends = [
            y for route in laid.routes.values() for x, y in route[1:-1] if low_x <= x <= high_x
        ]
        found.append(
            _Band(
                first=first,
                past=past,
                left=min((x - wide / 2 for x, _, wide, _ in boxes), default=low_x),
                right=max((x + wide / 2 for x, _, wide, _ in boxes), default=high_x),
                top=min([y - high / 2 for _, y, _, high in boxes] + bends),
                low=max([y + high / 2 for _, y, _, high in boxes] + bends),
            )
        )
    return tuple(found)


def _aspect(bands: Sequence[_Band]) -> float:
    wide = max(band.right - band.left for band in bands)
    return wide / sum(band.low - band.top + BAND_GAP for band in bands)


def _moved(laid: Layered, bands: Sequence[_Band], place: Mapping[float, int]) -> Layered:
    """Move every band under the one before it, and lead edges round from one to the next."""
    turning = _turning(laid, bands, place)
    shifts: list[Place] = []
    gaps: list[float] = []
    top = 0.0
    for number, band in enumerate(bands):
        shifts.append((-band.left, top - band.top))
        gaps.append(top + band.low - band.top)
        top += band.low - band.top + BAND_GAP + LANE * len(turning.get(number, ()))
    home = {c: n for n, band in enumerate(bands) for c in range(band.first, band.past)}

    def move(spot: Place) -> Place:
        across, down = shifts[home[place[spot[0]]]]
        return (spot[0] + across, spot[1] + down)

    right = max(band.right - band.left for band in bands)
    routes: dict[Edge, tuple[Place, ...]] = {}
    for edge, route in laid.routes.items():
        points = [move(route[0])]
        for spot, onward in pairwise(route):
            number = home[place[spot[0]]]
            lanes = turning.get(number, [])
            if (spot, onward) in lanes:
                lane = lanes.index((spot, onward))
                span = (right, gaps[number])
                points += _turn(points[-1], move(onward), span, (lane, len(lanes)))
            points.append(move(onward))
        routes[edge] = tuple(points)
    centres = {node: move(spot) for node, spot in laid.centres.items()}
    return Layered(centres=centres, routes=routes, crossings=laid.crossings)


def _turning(
    laid: Layered, bands: Sequence[_Band], place: Mapping[float, int]
) -> dict[int, list[tuple[Place, Place]]]:
    """Return the links that lead from each band to the next, from the top down."""
    last = {band.past - 1: number for number, band in enumerate(bands[:-1])}
    found: dict[int, set[tuple[Place, Place]]] = {}
    for route in laid.routes.values():
        for spot, onward in pairwise(route):
            at = place[spot[0]]
            if at in last and place[onward[0]] == at + 1:
                found.setdefault(last[at], set()).add((spot, onward))
    return {
        number: sorted(links, key=lambda link: (link[0][1], link[1][1]))
        for number, links in found.items()
    }


def _turn(
    spot: Place, onward: Place, span: tuple[float, float], lane: tuple[int, int]
) -> list[Place]:
    """Return the corners of an edge that goes round: out, down, back, and to the next band."""
    (right, low), (number, count) = span, lane
    out = right + TURN + LANE * (count - 1 - number)
    level = low + BAND_GAP / 2 + LANE * number
    back = -TURN - LANE * number
    return [(out, spot[1]), (out, level), (back, level), (back, onward[1])]
