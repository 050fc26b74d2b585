"""Laying one flat outline on another, turned and, where it is nearer, turned over.

Where to begin is told by the arc lengths: both outlines are sampled at equal steps along their
edge, and one correlation gives for every place to begin the least-squares turn. That finds every
likely turn of squares and other nearly symmetric shapes too. From each of them the fit is refined
until the largest distance between the outlines no longer falls.
"""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from armorplan.geometry.alike.closed_lines import Closed, Reals, Spots, hull_tones
from armorplan.pattern.parts import Ring

if TYPE_CHECKING:
    import shapely

SAMPLES = 96
EXACT_MM = 0.03
"""A fit as near as this is not refined; curves are flattened to some hundredths of a mm."""
HOPELESS = 2.0
"""How many times too far off a start may be; a refinement rarely halves the miss."""
_NEARLY = 1.3
_STARTS = 5
_EVERY = 2
_ROUNDS = 12
_ENOUGH_MM = 0.01
_PATIENCE = 2
_LAWSON = 6
_FURTHEST_MM = 3.0
_FINE_MM = 8.0
_MOST_FINE = 4_000
"""Of edges longer than so many steps of that, the steps are longer: 32 m are no outline of armour."""
_KEEN_MM = 0.3
"""Corners that stand out by this much are looked at in every round."""
_TINY = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class Pose:
    """How the second outline lies on the first, both with their centroid at the origin.

    Attributes:
        turn: a turn, as a complex number of size 1.
        shift: movement in mm after the turn.
        mirrored: turned over before the turn.
        miss_mm: the largest distance between the two outlines, as they then lie.
    """

    turn: complex
    shift: complex = 0.0
    mirrored: bool = False
    miss_mm: float = float("inf")

    def turned(self, turn: complex) -> "Pose":
        """Return the pose turned further about the middle of the second outline."""
        return replace(self, turn=self.turn * turn)

    def lay(self, spots: Spots) -> Spots:
        """Return points of the second outline where they lie on the first."""
        return self.turn * (spots.conj() if self.mirrored else spots) + self.shift

    def lift(self, spots: Spots) -> Spots:
        """Return points where they lie on the second outline's own drawing."""
        back = (spots - self.shift) * self.turn.conjugate()
        return back.conj() if self.mirrored else back

    def steer(self, ways: Spots) -> Spots:
        """Return ways on the second outline's own drawing as they run on the first."""
        return self.turn * (ways.conj() if self.mirrored else ways)


class Contour:
    """One outline, made ready to be compared: its centroid at the origin, always the same way.

    Attributes:
        corners: its corners, the first again at the end.
        line: the same as a line.
        even: spots at equal steps along the edge.
        probes: spots from which distances are taken while a fit is refined.
        fine: all its corners and more, for the last measure.
        tone: the Fourier transform of ``even``; ``tone_over`` that of the outline turned over.
        step_mm: half of what lies between two even spots, along the edge.
        sizes: extent and length of the hull in mm, area in mm², length of the edge in mm.
        tones: of the hull, in mm, the same however it is turned, moved or turned over.
    """

    def __init__(self, ring: Ring) -> None:
        import shapely

        area = shapely.orient_polygons(shapely.Polygon(ring))
        edge = area.exterior
        centre = area.centroid
        self.centre = complex(centre.x, centre.y)
        # Without regard to crossings: GEOS has no end of minding those of an edge that crosses itself.
        bare = shapely.LineString(edge.coords)
        plain = bare.simplify(EXACT_MM / 4, preserve_topology=False)
        self.corners = _spots(plain) - self.centre
        self.line = Closed(self.corners)
        self.fine = _spots(plain.segmentize(max(_FINE_MM, edge.length / _MOST_FINE))) - self.centre
        self.even = _evenly(self.corners)
        self.tone = np.fft.fft(self.even)
        self.tone_over = np.fft.fft(self.even.conj()[::-1])
        keen = _spots(bare.simplify(_KEEN_MM, preserve_topology=False)) - self.centre
        self.probes = np.concatenate((self.even[::_EVERY], keen[:-1]))
        hull = area.convex_hull
        far = _spots(hull)
        self.extent_mm = float(np.abs(far[:, None] - far[None, :]).max())
        self.step_mm = edge.length / SAMPLES / 2
        self.sizes = (self.extent_mm, hull.length, area.area, edge.length)
        self.tones = hull_tones(far - self.centre)

    def laid(self, other: "Contour", pose: Pose) -> Pose:
        """Return a pose of the other with the largest distance (Hausdorff's) between the two."""
        out = np.abs(self.line.ways(pose.lay(other.fine))).max()
        back = np.abs(other.line.ways(pose.lift(self.fine))).max()
        return replace(pose, miss_mm=float(max(out, back)))


def _spots(line: "shapely.Geometry") -> Spots:
    import shapely

    xy = shapely.get_coordinates(line)
    return np.asarray(xy[:, 0] + 1j * xy[:, 1], dtype=np.complex128)


def _evenly(closed: Spots) -> Spots:
    along = np.concatenate(([0.0], np.cumsum(np.abs(np.diff(closed)))))
    at = np.linspace(0.0, along[-1], SAMPLES, endpoint=False)
    found = np.interp(at, along, closed.real) + 1j * np.interp(at, along, closed.imag)
    return np.asarray(found, dtype=np.complex128)


def fits(first: Contour, second: Contour, limit_mm: float, *, mirrored: bool) -> list[Pose]:
    """Return ways to lay the second outline on the first, the nearest first.

    A start more than ``HOPELESS`` times the limit off is not refined, nor one twice as far off as
    what was reached already.
    """
    found: list[Pose] = []
    nearest_mm = limit_mm
    for mean_mm, turn in _starts(first, second, HOPELESS * limit_mm, mirrored=mirrored):
        most_mm = HOPELESS * nearest_mm + first.step_mm / 2
        if mean_mm > most_mm + first.step_mm / 2:
            break
        start = _look(first, second, Pose(turn=turn, mirrored=mirrored))
        if start.miss_mm > most_mm:
            continue
        near = start.pose if start.miss_mm < EXACT_MM else _refined(first, second, start, limit_mm)
        nearest_mm = min(nearest_mm, near.miss_mm)
        if near.miss_mm <= limit_mm + EXACT_MM:
            found.append(first.laid(second, near))
    return sorted(found, key=lambda pose: pose.miss_mm)


def likelier_over(first: Contour, second: Contour) -> bool:
    """Tell whether the second outline seems to lie better on the first when it is turned over."""
    plain, over = (
        np.abs(np.fft.ifft(first.tone * tone.conj())).max()
        for tone in (second.tone, second.tone_over)
    )
    return bool(over > plain)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Look:
    """A pose with what its probes tell: the ways between the outlines, and what would move."""

    pose: Pose
    ways: Spots
    moving: Spots
    far_mm: Reals

    @property
    def miss_mm(self) -> float:
        return self.pose.miss_mm


def _look(first: Contour, second: Contour, pose: Pose) -> _Look:
    moved = pose.lay(second.probes)
    out = first.line.ways(moved)
    back = pose.steer(second.line.ways(pose.lift(first.probes)))
    ways = np.concatenate((out, -back))
    far_mm = np.abs(ways)
    return _Look(
        pose=replace(pose, miss_mm=float(far_mm.max())),
        ways=ways,
        moving=np.concatenate((moved, first.probes - back)) - pose.shift,
        far_mm=far_mm,
    )


def _starts(
    first: Contour, second: Contour, most_mm: float, *, mirrored: bool
) -> list[tuple[float, complex]]:
    """Return likely turns of the second outline, the likeliest first, each with its mean miss in mm.

    The transforms' product gives how well the outlines agree for every spot to begin at; between
    spots a parabola through three of them tells where they agree best. The mean is that of the
    squares, from spot to spot along the edges.
    """
    cross = first.tone * (second.tone_over if mirrored else second.tone).conj()
    size = np.abs(np.fft.ifft(cross))
    square = np.vdot(first.even, first.even).real + np.vdot(second.even, second.even).real
    mean = np.maximum(square - 2 * size, 0.0) / SAMPLES
    before, after = np.roll(size, 1), np.roll(size, -1)
    near = mean <= (most_mm + first.step_mm) ** 2
    peaks = np.flatnonzero(near & (size >= before) & (size >= after) & (size > 0))
    best = peaks[np.argsort(-size[peaks], kind="stable")][:_STARTS]
    bend = 2 * size[best] - before[best] - after[best]
    at = best + (after[best] - before[best]) / 2 / np.maximum(bend, _TINY * size[best] + _TINY)
    turns = np.exp(2j * np.pi * np.fft.fftfreq(SAMPLES) * at[:, None]) @ cross
    return [
        (float(mean[peak] ** 0.5), complex(turn / abs(turn)))
        for peak, turn in zip(best, turns, strict=True)
        if abs(turn) > _TINY
    ]


def _refined(first: Contour, second: Contour, start: _Look, limit_mm: float) -> Pose:
    """Return the pose near a start whose largest distance is least.

    Each round takes the small turn and shift for which the largest distance, were all distances
    straight, would be least. What is not near the limit after two rounds is left.
    """
    best = here = start
    waited = 0
    weight = np.full(len(start.far_mm), 1.0 / len(start.far_mm))
    for done in range(1, _ROUNDS + 1):
        pose, weight = _moved(here, weight, reach_mm=first.extent_mm / 2)
        here = _look(first, second, pose)
        waited = 0 if here.miss_mm < best.miss_mm - _ENOUGH_MM else waited + 1
        if here.miss_mm < best.miss_mm:
            best = here
        hopeless = done > 1 and best.miss_mm > _NEARLY * limit_mm
        if hopeless or waited == _PATIENCE or best.miss_mm < EXACT_MM:
            break
    return best.pose


def _moved(look: _Look, weight: Reals, *, reach_mm: float) -> tuple[Pose, Reals]:
    unit = look.ways / np.maximum(look.far_mm, _TINY)
    spin = (unit.conj() * 1j * look.moving).real / reach_mm
    slope = np.column_stack((unit.real, unit.imag, spin))
    step, weight = _least_largest(slope, look.far_mm, weight)
    step *= min(1.0, _FURTHEST_MM / max(float(np.abs(step).sum()), _TINY))
    turn = look.pose.turn * complex(np.exp(1j * step[2] / reach_mm))
    shift = look.pose.shift + complex(step[0], step[1])
    return replace(look.pose, turn=turn, shift=shift), weight


def _least_largest(slope: Reals, far_mm: Reals, weight: Reals) -> tuple[Reals, Reals]:
    """Return x for which the largest of |far + slope·x| is least, and the weights that tell it.

    Weights are multiplied by what is left, round by round; the least squares then tend to the
    least largest (Lawson 1961).
    """
    best: Reals = np.zeros(3)
    least = float(far_mm.max())
    for _ in range(_LAWSON):
        weighed = slope.T * weight
        square = weighed @ slope
        square.flat[::4] += _TINY
        step = -_solved(square, weighed @ far_mm)
        left = np.abs(far_mm + slope @ step)
        if (most := float(left.max())) < least:
            best, least = np.asarray(step, dtype=np.float64), most
        weight = weight * (left + _TINY)
        weight /= weight.sum()
    return best, weight


def _solved(square: Reals, right: Reals) -> Reals:
    """Return x with square·x = right, of a symmetric three by three: by cofactors, which is quick."""
    (a, b, c), (_, e, f), (_, _, i) = square.tolist()
    x, y, z = right.tolist()
    ei, bi, bf = e * i - f * f, c * f - b * i, b * f - c * e
    ai, af, ae = a * i - c * c, b * c - a * f, a * e - b * b
    size = a * ei + b * bi + c * bf
    found = (ei * x + bi * y + bf * z, bi * x + ai * y + af * z, bf * x + af * y + ae * z)
    return np.array(found) / (size if abs(size) > _TINY**2 else _TINY**2)
