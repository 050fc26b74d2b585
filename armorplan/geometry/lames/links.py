"""Two plates that turn on each other: their pivots, how they are bent, what lies under what."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import combinations, pairwise
from math import cos, degrees, dist, pi, radians

from armorplan.geometry.areas import ring_area_mm2
from armorplan.geometry.lames.articulation import depth_mm
from armorplan.geometry.lames.seats import LEAST_SPAN_MM, Seat, hand_of
from armorplan.kernel.figures import Figure
from armorplan.pattern.joining import Form, FormKind, Joint, Motion
from armorplan.pattern.parts import Hole, Part, PartKind
from armorplan.pattern.pattern import Pattern

HALF_ROUND_DEG = 180.0
_FULL_DEG, _LEAST_DEG = 360.0, 1.0
CIRCLE = "circle geometry"
DRAWN = "measured on the drawing"
_MOST_PIVOTS = 40
"""Turning joints of two plates that are looked at; two are enough."""
_LEAST_AREA_MM2 = 1.0
_DRAWN_IN = frozenset({FormKind.DISH, FormKind.CLOSURE})

PairKey = tuple[str, str]
"""Ids of two parts, in the order of the alphabet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrap:
    """How a lame is bent between its pivots.

    Attributes:
        radius_mm: of its middle surface.
        wrap_deg: how far it runs round from pivot to pivot.
        words: where the angle comes from, for a formula.
    """

    radius_mm: float
    wrap_deg: float
    words: str

    def round(self, girth_mm: float) -> "Wrap":
        """Return the same angle round a plate of another girth."""
        return replace(self, radius_mm=girth_mm / radians(self.wrap_deg))

    @property
    def depth_mm(self) -> float:
        """How far the middle of its back stands off the line between the pivots, in mm."""
        return depth_mm(self.radius_mm, self.wrap_deg)

    def lever_mm(self, across_mm: float) -> float:
        """Return how far a spot beside the middle of the back stands off that line, in mm."""
        ends = self.radius_mm * cos(radians(self.wrap_deg) / 2)
        return max(0.0, self.radius_mm * cos(across_mm / self.radius_mm) - ends)

    def inward_mm(self, beyond_mm: float) -> float:
        """Return how far inward of that line a spot lies that is so far beyond a pivot, in mm."""
        half = radians(self.wrap_deg) / 2
        further = min(half + beyond_mm / self.radius_mm, pi)
        return self.radius_mm * (cos(half) - cos(further))


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """Two plates on two pivots.

    Attributes:
        outer, inner: the plates as seen from these pivots, up the same way.
        joints: ids of the joints of the first and the second pivot.
        outside: ids of the plate that lies outside at either of them.
        wrap: how the inner plate is bent.
        apart_mm: distance of the middles of the two leathers where they lie on each other.
        shaped: ids of those that are dished or closed, whose flat spans do not tell their girth.
        spare: ids of further turning joints between the two.
    """

    outer: Seat
    inner: Seat
    joints: tuple[str, str]
    outside: tuple[str, str]
    wrap: Wrap
    apart_mm: float
    shaped: frozenset[str]
    spare: tuple[str, ...] = ()

    @property
    def parts(self) -> tuple[str, str]:
        """Ids of the outer and the inner plate."""
        return self.outer.part.id, self.inner.part.id

    @property
    def drawn_in(self) -> bool:
        """Whether one of them is dished or closed."""
        return bool(self.shaped)

    @property
    def stacks_disagree(self) -> bool:
        """Whether one plate lies over the other at one pivot and under it at the other."""
        return self.outside[0] != self.outside[1]

    @property
    def key(self) -> PairKey:
        """The two ids, sorted."""
        one, other = sorted(self.parts)
        return one, other

    def seat(self, part_id: str) -> Seat:
        """Return one of the plates by its id."""
        return self.outer if self.outer.part.id == part_id else self.inner

    @property
    def lever_mm(self) -> float:
        """How far the middle of the inner plate's back lies from the pivots, in mm."""
        return self.wrap.depth_mm

    @property
    def lever_figure(self) -> Figure:
        """The lever with the way it is reckoned."""
        wrap, span_mm = self.wrap, self.inner.girth_mm
        return Figure(
            name="lever at the back",
            value=self.lever_mm,
            unit="mm",
            formula=f"R = span / wrap = {span_mm:.1f} / {wrap.wrap_deg:.0f}° = {wrap.radius_mm:.1f} mm "
            f"({wrap.words}); lever = R × (1 - cos({wrap.wrap_deg:.0f}° / 2)) = {self.lever_mm:.1f} mm",
            source=CIRCLE,
        )


def _wrap(seat: Seat, angle_deg: float, radius_mm: float | None) -> Wrap:
    """Return how a plate runs round between its pivots, by its radius no further than its bend."""
    words = f"the bend of the {seat.part.name}"
    wrap_deg = min(max(angle_deg, _LEAST_DEG), _FULL_DEG)
    if radius_mm is not None:
        by_radius = degrees(seat.girth_mm / (radius_mm + seat.part.thickness_mm / 2))
        if by_radius < wrap_deg:
            wrap_deg = max(by_radius, _LEAST_DEG)
            words = f"the {seat.part.name} bent to an inner radius of {radius_mm:g} mm"
    return Wrap(radius_mm=seat.girth_mm / radians(wrap_deg), wrap_deg=wrap_deg, words=words)


_HALF_ROUND = "no bend is written: taken as half round"


def _wrap_of(seats: Iterable[Seat], forms: dict[str, list[Form]]) -> Wrap:
    """Return how the first of two plates is bent.

    Plates on one axis wrap alike, so that the bend of either tells it: that of a lame before that
    of a plate, which may reach far beyond its pivots, then that of the first.
    """
    inner, *_ = both = tuple(seats)
    for seat in sorted(both, key=lambda each: each.part.kind is not PartKind.LAME):
        for form in forms[seat.part.id]:
            if form.angle_deg is not None and _runs_up(form, seat):
                return _wrap(seat, form.angle_deg, form.radius_mm).round(inner.girth_mm)
    half = radians(HALF_ROUND_DEG)
    return Wrap(radius_mm=inner.girth_mm / half, wrap_deg=HALF_ROUND_DEG, words=_HALF_ROUND)


def _runs_up(form: Form, seat: Seat) -> bool:
    """Tell whether a bend goes round the limb: its axis, where it is said, runs along it."""
    if form.axis is None:
        return True
    (x0, y0), (x1, y1) = form.axis
    x, y = x1 - x0, y1 - y0
    (ax, ay), (ux, uy) = seat.across, seat.up
    return abs(x * ux + y * uy) >= abs(x * ax + y * ay)


def _turning(pattern: Pattern) -> dict[PairKey, list[Joint]]:
    """Return the turning joints of each two parts that lie on each other in their stacks."""
    found: dict[PairKey, list[Joint]] = defaultdict(list)
    for joint in pattern.joints:
        if joint.motion is not Motion.TURNING:
            continue
        passed = [pattern.hole(hole).part for hole in joint.stack]
        for one, other in pairwise(passed):
            if one != other and passed.count(one) == passed.count(other) == 1:
                low, high = sorted((one, other))
                found[low, high].append(joint)
    return found


def links(pattern: Pattern) -> dict[PairKey, Link]:
    """Return every two plates that turn on each other on two pivots, by their ids.

    What one pivot holds swings flat like scissors, and is left out.
    """
    bends: dict[str, list[Form]] = defaultdict(list)
    drawn_in: set[str] = set()
    for form in pattern.forms:
        for part in form.parts:
            if form.kind is FormKind.BEND:
                bends[part].append(form)
            elif form.kind in _DRAWN_IN:
                drawn_in.add(part)
    found: dict[PairKey, Link] = {}
    for key, joints in sorted(_turning(pattern).items()):
        link = _link(pattern, key, joints[:_MOST_PIVOTS], bends=bends, drawn_in=drawn_in)
        if link is not None:
            found[key] = link
    return found


def _link(
    pattern: Pattern,
    key: PairKey,
    joints: list[Joint],
    *,
    bends: dict[str, list[Form]],
    drawn_in: set[str],
) -> Link | None:
    outer, inner = _outer_first(pattern, key, joints)
    on_outer = {j.id: _hole_in(pattern, j, outer.id) for j in joints}
    on_inner = {j.id: _hole_in(pattern, j, inner.id) for j in joints}
    pairs = list(combinations(on_outer, 2))
    if not pairs or min(ring_area_mm2(p.outline) for p in (outer, inner)) < _LEAST_AREA_MM2:
        return None
    first, second = max(pairs, key=lambda p: dist(on_outer[p[0]].centre, on_outer[p[1]].centre))
    holes = (on_outer[first], on_outer[second], on_inner[first], on_inner[second])
    if min(dist(a.centre, b.centre) for a, b in (holes[:2], holes[2:])) < LEAST_SPAN_MM:
        return None
    hand = hand_of(outer, holes[0], holes[1])
    turned = -1 if outer.drawn_from_inside != inner.drawn_from_inside else 1
    seats = (
        _seat(outer, holes[:2], hand, bends),
        _seat(inner, holes[2:], hand * turned, bends),
    )
    return Link(
        outer=seats[0],
        inner=seats[1],
        joints=(first, second),
        outside=(_outside(pattern, first, key), _outside(pattern, second, key)),
        wrap=_wrap_of(reversed(seats), bends),
        apart_mm=(outer.thickness_mm + inner.thickness_mm) / 2,
        shaped=frozenset(drawn_in.intersection(key)),
        spare=tuple(joint for joint in on_outer if joint not in (first, second)),
    )


def _seat(
    part: Part, pivots: tuple[Hole, Hole], hand: int, bends: Mapping[str, list[Form]]
) -> Seat:
    tapers = part.kind is PartKind.PLATE and bool(bends.get(part.id))
    return Seat(part=part, first=pivots[0], second=pivots[1], hand=hand, tapers=tapers)


def _outer_first(pattern: Pattern, key: PairKey, joints: list[Joint]) -> tuple[Part, Part]:
    """Return the plate that lies outside in most of the joints, and the other."""
    outside = [_outside(pattern, joint.id, key) for joint in joints]
    outer = max(key, key=outside.count)
    return pattern.part(outer), pattern.part(next(part for part in key if part != outer))


def _outside(pattern: Pattern, joint_id: str, key: PairKey) -> str:
    """Return which of two plates a joint's stack lists first."""
    return next(part for part in pattern.stack_parts(joint_id) if part in key)


def _hole_in(pattern: Pattern, joint: Joint, part_id: str) -> Hole:
    return next(h for h in map(pattern.hole, joint.stack) if h.part == part_id)
