"""Which way round parts go: what the declared sides say against how a row joins them.

A row's own curvature proves nothing. What tells is where 'up' of both parts comes to lie when one
is laid on the other by their holes, as both are seen from outside, together with the side of the
row on which either lies. Parts that meet over a shoulder or a toe are turned end for end and lie on
unlike sides of their row: that is sound. Lying on the same side and upside down is not.
"""

from collections import Counter
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from math import dist, hypot
from typing import NamedTuple

from armorplan.geometry.measures import Measure, Topic
from armorplan.geometry.placing import fit
from armorplan.geometry.rows.bundles import Bundle, Run, swapped, turning_runs
from armorplan.geometry.rows.faults import BundlesRead
from armorplan.geometry.rows.mends import lighter
from armorplan.geometry.rows.shift import Wrong
from armorplan.geometry.told import listed, quoted
from armorplan.geometry.upward import says_up
from armorplan.geometry.widths import STIFF, is_strap
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Part, Point, Ring
from armorplan.pattern.pattern import Pattern

CONTRADICTS_DEG = 120.0
"""Beyond a quarter turn 'up' contradicts; petals of a cop splay, and get 30° more."""
_TRUSTED = 0.25
"""A fit that misses by more than this share of the row's length tells no direction."""
_SEVERAL = 2
"""Parts that so many seams hold are meant to lie on each other."""
_LEAST_MM = 5.0
"""A part whose middle lies nearer to the row than this lies on neither side of it."""


class Sides(NamedTuple):
    """How a second part lies to a first one by their row, both seen from outside.

    Attributes:
        turned_deg: from the first part's up to the second's, 0 to 180.
        same_side: whether both lie on the same side of the row; ``None``: that is not clear.
        wanted_up_deg: the ``up_deg`` of the second that would agree with the first.
    """

    turned_deg: float
    same_side: bool | None
    wanted_up_deg: float


class _Drawn(NamedTuple):
    """A part as one of a row: its outline, its holes in the row, and what is declared of it."""

    outline: Ring
    row: tuple[Point, ...]
    up_deg: float
    from_inside: bool


@lru_cache(maxsize=1024)
def sides(first: _Drawn, second: _Drawn) -> Sides | None:
    """Return how two parts lie to each other, or ``None`` where their row tells no direction."""
    (one, one_row), (other, other_row) = (_from_outside(each) for each in (first, second))
    laid = fit(one_row, other_row)
    length_mm = max(_reach(one_row), _reach(other_row))
    if laid is None or laid.residual_mm > _TRUSTED * length_mm or length_mm < _LEAST_MM:
        return None
    up = _up(first), _up(second) - laid.rotation_deg
    turned = abs((up[1] - up[0] + 180.0) % 360.0 - 180.0)
    wanted = (up[0] + laid.rotation_deg) % 360.0
    along = one_row[-1][0] - one_row[0][0], one_row[-1][1] - one_row[0][1]
    on = _middle(one_row)
    lies = (
        _beside(_centroid(one), on, along),
        _beside(laid.place(_centroid(other)), on, along),
    )
    clear = all(abs(each) >= _LEAST_MM for each in lies)
    return Sides(
        turned_deg=turned,
        same_side=(lies[0] > 0) == (lies[1] > 0) if clear else None,
        wanted_up_deg=(180.0 - wanted) % 360.0 if second.from_inside else wanted,
    )


def _from_outside(drawn: _Drawn) -> tuple[Sequence[Point], Sequence[Point]]:
    if not drawn.from_inside:
        return drawn.outline, drawn.row
    return [(-x, y) for x, y in drawn.outline], [(-x, y) for x, y in drawn.row]


def _up(drawn: _Drawn) -> float:
    return 180.0 - drawn.up_deg if drawn.from_inside else drawn.up_deg


def _reach(row: Sequence[Point]) -> float:
    return max(dist(row[0], spot) for spot in row)


def _middle(spots: Sequence[Point]) -> Point:
    return sum(x for x, _ in spots) / len(spots), sum(y for _, y in spots) / len(spots)


def _beside(spot: Point, row: Point, along: Point) -> float:
    """Return how far a spot lies beside a row that runs along a direction, in mm."""
    length = hypot(*along)
    if not length:
        return 0.0
    return (along[0] * (spot[1] - row[1]) - along[1] * (spot[0] - row[0])) / length


def _centroid(ring: Sequence[Point]) -> Point:
    """Return the centre of the area in a ring; of one without area the middle of its corners."""
    x0, y0 = _middle(ring)
    area = x = y = 0.0
    for (ax, ay), (bx, by) in pairwise([*ring, ring[0]]):
        cross = (ax - x0) * (by - y0) - (bx - x0) * (ay - y0)
        area += cross
        x += cross * (ax + bx - 2 * x0)
        y += cross * (ay + by - 2 * y0)
    return (x0 + x / (3 * area), y0 + y / (3 * area)) if area else (x0, y0)


def told_sides(pattern: Pattern, run: Run) -> Sides | None:
    """Return how the two parts of a row lie to each other; ``None`` for straps, trims and linings."""
    parts = [pattern.part(row.part) for row in (run.first, run.second)]
    if any(part.kind not in STIFF for part in parts):
        return None
    return laid_sides(pattern, run)


def laid_sides(pattern: Pattern, run: Run) -> Sides | None:
    """Return how any two parts of a row lie to each other; ``None`` where that is not told."""
    parts = [pattern.part(row.part) for row in (run.first, run.second)]
    if parts[0] == parts[1] or not all(part.outline for part in parts):
        return None
    first, second = (
        _Drawn(
            part.outline, tuple(hole.centre for hole in holes), part.up_deg, part.drawn_from_inside
        )
        for part, holes in zip(parts, (run.on_first, run.on_second), strict=True)
    )
    return sides(first, second)


class Turned(NamedTuple):
    """Two parts that come to lie upside down on each other, and what joins them."""

    run: Run
    bundle: Bundle | None
    """``None``: two pivots."""


def upside_down(pattern: Pattern, read: BundlesRead) -> tuple[Turned, ...]:
    """Return the parts that rows or pivots lay upside down on each other by their declared sides.

    The middle of a curved lame lies on either side of its pivots: there only 'up' tells. So it has
    to be a word that the pattern uses; where no part says it, a part may lie any way on the sheet.
    """
    found: list[Turned] = []
    for bundle, readings in read:
        for reading in readings:
            told = told_sides(pattern, reading.run)
            other_way = any(fault.wrong is Wrong.OTHER_WAY for fault in reading.faults)
            if (
                told
                and told.same_side
                and not other_way
                and _contradicts(pattern, told, reading.run)
            ):
                found.append(Turned(reading.run, bundle))
    if says_up(pattern):
        for run in turning_runs(pattern):
            told = told_sides(pattern, run)
            if told and _contradicts(pattern, told, run):
                found.append(Turned(run, None))
    return tuple(found)


def _contradicts(pattern: Pattern, told: Sides, run: Run) -> bool:
    parts = pattern.part(run.first.part), pattern.part(run.second.part)
    return told.turned_deg > CONTRADICTS_DEG and not any(is_strap(part) for part in parts)


def hand_findings(
    pattern: Pattern, turned: Sequence[Turned]
) -> tuple[tuple[Turned, Finding], ...]:
    """Return what is told of parts upside down on others, each part once.

    The one that lies unlike more of its neighbours is the one drawn turned over: it is named, at
    the first of what joins it to them. Where that does not tell, the lighter of the two is named.
    """
    counts = Counter(row.part for each in turned for row in (each.run.first, each.run.second))
    by_part: dict[tuple[str, ...], list[Turned]] = {}
    for each in turned:
        run = each.run
        one, other = run.first.part, run.second.part
        unlike = counts[one] - counts[other]
        if unlike > 0 or (unlike == 0 and lighter(pattern, one, other) == one):
            run = swapped(run)
        sure = counts[run.first.part] != counts[run.second.part]
        key = (run.second.part,) if sure else (run.second.part, run.first.part)
        by_part.setdefault(key, []).append(Turned(run, each.bundle))
    return tuple(
        (found[0], _hand_finding(pattern, found, sure=len(key) == 1))
        for key, found in by_part.items()
    )


def _hand_finding(pattern: Pattern, found: Sequence[Turned], *, sure: bool) -> Finding:
    run, bundle = found[0]
    others = [pattern.part(each.run.first.part) for each in found]
    one, other = others[0], pattern.part(run.second.part)
    told = told_sides(pattern, run)
    deg, up_deg = (told.turned_deg, told.wanted_up_deg) if told else (180.0, one.up_deg)
    seams = _seams_of(pattern, run)
    which = f"Mirror {other.name} in the drawing if it is drawn turned over"
    if not sure:
        which = "Look which of the two is drawn turned over and mirror it in the drawing"
    about = [each for turned in found for each in _joined(turned)]
    return Finding(
        code="sides-disagree",
        severity=Severity.WARNING,
        text=f"As {_by(found)} them, {other.name} lies upside down to "
        f"{listed(list(dict.fromkeys(part.name for part in others)))}: its up is turned by "
        f"{deg:.0f}° from that of {one.name}{_over(other.name) if bundle and len(seams) < _SEVERAL else ''}.",
        remedy=f"{which}, or write the holes of {other.name} into the stacks"
        f"{_anew(run, seams)}. If it is meant to lie so, write up_deg = {up_deg:.0f} for "
        f"{other.name}.{_inside(one, other)}",
        about=tuple(dict.fromkeys((*about, *(part.id for part in others), other.id))),
    )


def _seams_of(pattern: Pattern, run: Run) -> list[str]:
    """Return the names of all seams between the two parts of a row."""
    both = {run.first.part, run.second.part}
    return [
        seam.name
        for seam in pattern.seams
        if any(both <= set(pattern.stack_parts(joint)) for joint in seam.joints)
    ]


def _anew(run: Run, seams: list[str]) -> str:
    """Say how holes are to be written: of parts that several seams hold in all of them."""
    if len(seams) < _SEVERAL:
        return f" from the other end, '{run.on_second[-1].id}' first"
    return f" of {listed(quoted(seams))} from the other end of each"


def _by(found: Sequence[Turned]) -> str:
    """Name what joins a part to those that it lies upside down to."""
    rows = [f"'{each.bundle.name}'" for each in found if each.bundle is not None]
    if len(rows) < len(found):
        rows.append("their two pivots" if not rows else "two pivots")
    one = len(rows) == 1 and found[0].bundle is not None
    return f"{listed(list(dict.fromkeys(rows)))} {'joins' if one else 'join'}"


def _over(name: str) -> str:
    return f"; hole on hole, {name} comes to lie over it instead of carrying on beyond the row"


def _joined(turned: Turned) -> tuple[str, ...]:
    bundle = turned.bundle
    return turned.run.joints if bundle is None else (bundle.id,) * bundle.sewn


def _inside(one: Part, other: Part) -> str:
    if one.drawn_from_inside == other.drawn_from_inside:
        return ""
    drawn = one if one.drawn_from_inside else other
    return f' Or is {drawn.name} drawn as seen from outside? Then leave out drawn_from = "inside".'


def pivot_measure(pattern: Pattern, turned: Turned, finding: Finding) -> Measure:
    """Return the measure of two pivots that lay plates upside down on each other."""
    run = turned.run
    names = [pattern.part(row.part).name for row in (run.first, run.second)]
    return Measure(
        id=f"rows:pivots:{run.first.part}+{run.second.part}",
        topic=Topic.ROWS,
        title=f"pivots of {names[0]} on {names[1]}",
        verdict="look at which way round it goes",
        text=finding.text,
        findings=(finding,),
        about=finding.about,
    )
