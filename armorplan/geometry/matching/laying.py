"""Two rows laid on each other: flat by one motion, turned over, or only drawn into shape."""

from cmath import phase
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import cos, degrees, radians
from typing import NamedTuple

from armorplan.geometry.areas import ring_area_mm2
from armorplan.geometry.matching.chains import Dots
from armorplan.geometry.matching.evenness import Evenness
from armorplan.geometry.matching.model import Meeting
from armorplan.geometry.matching.rows import Row
from armorplan.geometry.matching.spacings import Alike
from armorplan.kernel.stopping import ShouldStop, go_on, never
from armorplan.pattern.parts import Part

AS_GOOD = 0.7
"""What fits with no fewer points, less these, fits as well."""
_STRAIGHT_MM = 3.0
"""A row bowed by less than this is as good as straight: holes do not tell which face is up."""
_CURVED = 1.5
_DRAWN = 0.5
_MIRRORED = 1.5
_TURNED = 0.8
_ABREAST = 1.5
_PLATES = 0.35
"""Of two parts the smaller is no trim, strap or boss where it is at least so much of the larger."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """Holes of one row on holes of another.

    Attributes:
        first: number of the part that comes first.
        second: number of the other.
        pairs: their holes, in order along the row.
        meeting: how they meet.
        off_mm: the most a hole misses by laid flat, or a spacing is off where it is drawn.
        longer: how many times as long the first row is.
        mirrored: they only fit flat with the second turned over.
        no_hand: they fit flat both ways up.
        both_ways: they fit as well the other way round, which lays the parts otherwise.
        turned: it is the less likely of two such ways.
        gores: edges that bow away from each other, and would lie flat only with one turned over.
        nested: two holes at two ends of both parts, farther apart on one than on the other.
        whole: whether it takes the whole of the first and of the second row.
        on_edge: whether the first and the second row follow an edge.
        turn_deg: by how much the second part is turned on the page.
        points: what speaks for it.
    """

    first: int
    second: int
    pairs: tuple[tuple[str, str], ...]
    meeting: Meeting
    off_mm: float
    longer: float = 1.0
    mirrored: bool = False
    no_hand: bool = False
    both_ways: bool = False
    turned: bool = False
    gores: bool = False
    nested: bool = False
    whole: tuple[bool, bool] = (True, True)
    on_edge: tuple[bool, bool] = (False, False)
    turn_deg: float = 0.0
    points: float = 0.0


def laid(
    rows: Sequence[Row],
    parts: Sequence[Part],
    found: Iterable[Alike],
    misfit_mm: float,
    should_stop: ShouldStop = never,
) -> list[Laid]:
    """Return each two sets of holes once, the better way round; both where nothing tells which.

    Raises:
        StoppedError: it was asked to stop.
    """
    layer = _Layer(rows, parts, misfit_mm)
    ways: dict[frozenset[tuple[int, str]], list[Laid]] = defaultdict(list)
    for each in _both_ways(found):
        go_on(should_stop)
        made = layer.laid(each)
        key = frozenset(
            {(made.first, one) for one, _ in made.pairs}
            | {(made.second, other) for _, other in made.pairs}
        )
        ways[key].append(made)
    return [each for one in ways.values() for each in layer.told_apart(one)]


def _both_ways(found: Iterable[Alike]) -> Iterator[Alike]:
    """Yield matches as found, those of two holes once each way: they read alike from both ends."""
    for each in found:
        yield each
        if each.other.end - each.other.start == 1:
            yield each._replace(backward=not each.backward)


class _Layer:
    """Lays rows of some parts on each other."""

    def __init__(self, rows: Sequence[Row], parts: Sequence[Part], misfit_mm: float) -> None:
        self._rows = rows
        self._even = Evenness(parts)
        self._ups = [part.up_deg for part in parts]
        self._areas = [ring_area_mm2(part.outline) for part in parts]
        self._misfit_mm = misfit_mm

    def told_apart(self, ways: Sequence[Laid]) -> list[Laid]:
        """Return the likeliest way to lay the same holes, and its reverse where that is as likely."""
        best = max(ways, key=lambda each: (each.points, each.pairs))
        reverse = [each for each in ways if set(each.pairs) != set(best.pairs)]
        other = max(reverse, key=lambda each: (each.points, each.pairs), default=None)
        if other is None or other.points < best.points - AS_GOOD or self._is_even(best):
            return [best]
        return [replace(best, both_ways=True), replace(other, both_ways=True, turned=True)]

    def _is_even(self, each: Laid) -> bool:
        """Tell whether one of two parts looks the same once turned half about its row's middle."""
        sides = (each.first, 0), (each.second, 1)
        return any(self._even.told(at, {pair[side] for pair in each.pairs}) for at, side in sides)

    def laid(self, alike: Alike) -> Laid:
        """Return how the holes of a row and a stretch lie on each other."""
        one, other, longer = _in_order(self._rows, alike)
        way = self._way(one, other, fits=alike.longer == 1.0)
        turn_deg = self._turned_deg(one.at, other.at, way.flat.turn)
        return Laid(
            first=one.at,
            second=other.at,
            pairs=tuple(zip(one.holes, other.holes, strict=True)),
            meeting=Meeting.FLAT if way.lies_flat else Meeting.DRAWN,
            off_mm=way.taken.most_mm if way.lies_flat else alike.off_mm,
            longer=longer,
            mirrored=way.is_over,
            no_hand=way.lies_flat and way.worst_mm <= self._misfit_mm,
            gores=way.gores,
            nested=one.ends and other.ends and longer != 1.0,
            whole=(one.whole, other.whole),
            on_edge=(one.on_edge, other.on_edge),
            turn_deg=turn_deg,
            points=alike.worth
            + self._points(one, other, way)
            - _TURNED * (1 - cos(radians(turn_deg))) / 2,
        )

    def _way(self, one: "_Held", other: "_Held", *, fits: bool) -> "_Way":
        """Return whether holes lie flat, only turned over, or are those of gores."""
        flat = misses(one.dots, other.dots)
        over = misses(one.dots, [each.conjugate() for each in other.dots])
        mirrored = fits and over.most_mm <= self._misfit_mm < flat.most_mm
        gores = mirrored and one.on_edge and other.on_edge
        gores = gores and _faces(one.lean, other.lean, flat.turn) < 0
        taken = over if mirrored and not gores else flat
        return _Way(
            flat=flat,
            taken=taken,
            worst_mm=max(flat.most_mm, over.most_mm),
            is_over=taken is over,
            gores=gores,
            lies_flat=fits and not gores and taken.most_mm <= self._misfit_mm,
        )

    def _points(self, one: "_Held", other: "_Held", way: "_Way") -> float:
        """Return what speaks for two rows once they are laid on each other."""
        shaped = way.lies_flat or way.gores
        lean = other.lean.conjugate() if way.is_over else other.lean
        points = -_DRAWN * (not shaped) - _MIRRORED * way.is_over
        points += _CURVED * shaped * (bow_mm(one.dots) >= _STRAIGHT_MM)
        return points - self._lies_over(one, other, _faces(one.lean, lean, way.taken.turn))

    def _lies_over(self, one: "_Held", other: "_Held", faces: float) -> float:
        """Return what speaks against two parts that come to lie on each other, less what is apart.

        A trim, a rib or a boss lies on its plate; two plates meet at their edges. Lames that turn
        on pivots lie on each other as much as their motion asks.
        """
        small, large = sorted((self._areas[one.at], self._areas[other.at]))
        over = (one.ends and other.ends) or (faces > 0 and small < _PLATES * large)
        return 0.0 if over else _ABREAST * faces

    def _turned_deg(self, first: int, second: int, turn: complex) -> float:
        """Return by how much the second part is turned against the first, up arrow by up arrow."""
        ups = self._ups[second] - self._ups[first]
        return (degrees(phase(turn)) - ups + 180) % 360 - 180


@dataclass(frozen=True, slots=True, kw_only=True)
class _Held:
    at: int
    holes: tuple[str, ...]
    dots: Dots
    lean: complex
    whole: bool
    on_edge: bool
    ends: bool


def _in_order(rows: Sequence[Row], alike: Alike) -> tuple[_Held, _Held, float]:
    """Return both sides, that of the earlier part first, and how many times longer it is."""
    sides = []
    stretch = alike.other
    for row, start, end, back in (
        (rows[alike.row], 0, len(rows[alike.row].holes), False),
        (rows[stretch.row], stretch.start, stretch.end + 1, alike.backward),
    ):
        step = -1 if back else 1
        sides.append(
            _Held(
                at=row.at,
                holes=row.holes[start:end][::step],
                dots=row.dots[start:end][::step],
                lean=row.lean,
                whole=row.apart and end - start == len(row.holes),
                on_edge=row.follows_edge,
                ends=row.ends,
            )
        )
    if (sides[1].at, sides[1].holes) < (sides[0].at, sides[0].holes):
        return sides[1], sides[0], 1 / alike.longer
    return sides[0], sides[1], alike.longer


def _faces(one: complex, other: complex, turn: complex) -> float:
    """Return 1 where both parts lie on the same side of the row, -1 where they lie apart."""
    return (one * (turn * other).conjugate()).real


class _Way(NamedTuple):
    """How two rows lie: the best motion as drawn, and the one that is taken."""

    flat: "Motion"
    taken: "Motion"
    worst_mm: float
    is_over: bool
    gores: bool
    lies_flat: bool


class Motion(NamedTuple):
    """The most a hole misses by, and the turn as a complex number of size 1."""

    most_mm: float
    turn: complex


def misses(first: Dots, second: Dots) -> Motion:
    """Return how holes lie on others after the best turn and shift.

    The least-squares turn between centred sets in the plane (Kabsch 1976), as in ``placing.fit``.
    """
    here, there = sum(first) / len(first), sum(second) / len(second)
    along = sum((b - there).conjugate() * (a - here) for a, b in zip(first, second, strict=True))
    turn = along / abs(along) if abs(along) else 1.0 + 0j
    far = (abs(a - here - turn * (b - there)) for a, b in zip(first, second, strict=True))
    return Motion(max(far), turn)


def bow_mm(spots: Dots) -> float:
    """Return how far a row bows off the straight line between its ends, in mm."""
    way = spots[-1] - spots[0]
    if way == 0:
        return max(abs(spot - spots[0]) for spot in spots)
    return max(abs(((spot - spots[0]) / way).imag) for spot in spots) * abs(way)
