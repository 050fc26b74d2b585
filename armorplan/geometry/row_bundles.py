"""Joints that make rows: those of a seam, and rivets of no seam that hold the same parts."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations, pairwise
from math import dist

from armorplan.geometry.rows import Row, Rung, aligned, rung
from armorplan.geometry.stacks import POSTED
from armorplan.geometry.widths import LIMP
from armorplan.pattern.joining import Joint, Motion
from armorplan.pattern.parts import Hole
from armorplan.pattern.pattern import Pattern

STANDS_OFF_MM = 50.0
"""Between rivets as far apart as this a longer strap may be meant to stand off, so that something
passes beneath it; nearer ones hold its end (common practice, no source)."""
ONE_PLACE_MM = 0.05
"""Nearer than this two holes are drawn in one place: centres are written to hundredths."""
_APART = 2.5
"""Rivets so many times farther apart than their neighbours are two groups, not one row."""
_MOST = 100
_LEAST = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Bundle:
    """Joints side by side, and the holes of each in the rows that they belong to.

    Attributes:
        id: of the seam; of loose rivets the parts they hold, with ``+`` between.
        joints: their ids, in order along the row.
        turned: places of joints whose two holes of one part lie the other way round than in most.
        sewn: whether the maker wrote them as a seam, and so in their order.
    """

    id: str
    name: str
    joints: tuple[str, ...]
    rungs: tuple[Rung, ...]
    turned: tuple[int, ...]
    sewn: bool

    @property
    def rows(self) -> tuple[Row, ...]:
        """Its rows, the outermost first as the joints first tell."""
        return tuple(dict.fromkeys(row for each in self.rungs for row in each))

    def holes(self, row: Row) -> tuple[Hole, ...]:
        """Return the holes of a row, in order; joints that do not pass it are left out."""
        return tuple(each[row] for each in self.rungs if row in each)


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A stretch of two rows without a break: holes that follow each other on both parts."""

    first: Row
    second: Row
    joints: tuple[str, ...]
    numbers: tuple[int, ...]
    """Places of the joints in their bundle, counted from 0."""
    on_first: tuple[Hole, ...]
    on_second: tuple[Hole, ...]

    @property
    def spans(self) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """The spacings in mm on the first and on the second row."""
        return _spans(self.on_first), _spans(self.on_second)


def _spans(holes: tuple[Hole, ...]) -> tuple[float, ...]:
    return tuple(dist(a.centre, b.centre) for a, b in pairwise(holes))


def bundles(pattern: Pattern) -> Iterator[Bundle]:
    """Yield the seams, then the groups of loose rivets that hold the same parts.

    Loose joints that move or are placed on the wearer are left out.
    """
    for seam in pattern.seams:
        rungs, turned = aligned([rung(pattern, joint) for joint in seam.joints])
        yield Bundle(
            id=seam.id,
            name=seam.name,
            joints=seam.joints,
            rungs=tuple(rungs),
            turned=tuple(turned),
            sewn=True,
        )
    for parts, joints in _together(pattern).items():
        chains = [chain for chain in _chains(pattern, parts, joints) if len(chain) >= _LEAST]
        for number, chain in enumerate(chains, start=1):
            full = [rung(pattern, joint) for joint in chain]
            rungs, _ = aligned([{r: h for r, h in e.items() if r.part in parts} for e in full])
            names = [pattern.part(part).name for part in parts]
            many = f":{number}" if len(chains) > 1 else ""
            yield Bundle(
                id="+".join(parts) + many,
                name=f"rivets through {' and '.join(names)}",
                joints=tuple(chain),
                rungs=tuple(rungs),
                turned=(),
                sewn=False,
            )


def _stays(joint: Joint) -> bool:
    fixed = joint.motion is Motion.FIXED and not joint.placed_on_wearer
    return joint.kind in POSTED and fixed and bool(joint.stack)


def _together(pattern: Pattern) -> dict[tuple[str, ...], list[str]]:
    """Return parts with the joints of no seam that hold all of them, two or more."""
    sewn = {joint for seam in pattern.seams for joint in seam.joints}
    held: dict[tuple[str, str], list[str]] = defaultdict(list)
    for joint in pattern.joints:
        if joint.id in sewn or not _stays(joint):
            continue
        passed = sorted(dict.fromkeys(pattern.stack_parts(joint.id)))
        pairs = combinations(passed, 2) if len(passed) > 1 else ((part, part) for part in passed)
        for pair in pairs:
            held[pair].append(joint.id)
    same: dict[tuple[str, ...], set[str]] = defaultdict(set)
    for pair, joints in held.items():
        if len(joints) >= _LEAST:
            same[tuple(joints)].update(pair)
    return {tuple(sorted(parts)): list(joints) for joints, parts in same.items()}


def lone_joints(
    pattern: Pattern,
) -> Iterator[tuple[tuple[str, str], str, tuple[Hole, Hole]]]:
    """Yield joints of no seam that alone hold two parts, and their holes in the outer and inner."""
    sewn = {joint for seam in pattern.seams for joint in seam.joints}
    held: dict[tuple[str, str], list[tuple[str, tuple[Hole, Hole]]]] = defaultdict(list)
    for joint in pattern.joints:
        if joint.id in sewn or not _stays(joint):
            continue
        once = [(row.part, hole) for row, hole in rung(pattern, joint.id).items() if not row.nth]
        for (outer, one), (inner, other) in combinations(once, 2):
            held[outer, inner].append((joint.id, (one, other)))
    for pair, found in held.items():
        if len(found) == 1:
            yield pair, *found[0]


def swapped(run: Run) -> Run:
    """Return the same two rows, the second named first."""
    return replace(
        run,
        first=run.second,
        second=run.first,
        on_first=run.on_second,
        on_second=run.on_first,
    )


def turning_runs(pattern: Pattern) -> Iterator[Run]:
    """Yield pairs of turning joints of no seam that hold the same two parts: the pivots of lames."""
    sewn = {joint for seam in pattern.seams for joint in seam.joints}
    held: dict[tuple[str, str], list[tuple[str, Rung]]] = defaultdict(list)
    for joint in pattern.joints:
        if joint.id in sewn or joint.motion is not Motion.TURNING or joint.placed_on_wearer:
            continue
        found = {row: hole for row, hole in rung(pattern, joint.id).items() if not row.nth}
        for one, other in combinations(found, 2):
            held[one.part, other.part].append((joint.id, found))
    for (one_id, other_id), found in held.items():
        if len(found) == _LEAST:
            rows = Row(one_id), Row(other_id)
            yield Run(
                first=rows[0],
                second=rows[1],
                joints=tuple(joint for joint, _ in found),
                numbers=(0, 1),
                on_first=tuple(each[rows[0]] for _, each in found),
                on_second=tuple(each[rows[1]] for _, each in found),
            )


def _chains(pattern: Pattern, parts: tuple[str, ...], joints: list[str]) -> list[list[str]]:
    """Return loose joints in rows: one after the other along the shortest way through all.

    Where that way forks they are no row, and each is taken with its nearest alone.
    """
    spots = {joint: _spot(pattern, parts, joint) for joint in joints[:_MOST]}
    at = {joint: spot for joint, spot in spots.items() if spot is not None}
    links = _shortest_tree(at)
    ends: dict[str, list[str]] = {joint: [] for joint in at}
    for one, other in links:
        ends[one].append(other)
        ends[other].append(one)
    if any(len(near) > _LEAST for near in ends.values()):
        return [list(pair) for pair in _nearest(at)]
    start = next((joint for joint, near in ends.items() if len(near) == 1), None)
    return [] if start is None else _parted(_walk(start, ends), at)


def _spot(pattern: Pattern, parts: tuple[str, ...], joint: str) -> tuple[float, float] | None:
    found = rung(pattern, joint)
    return next((h.centre for part in parts for r, h in found.items() if r.part == part), None)


_Spots = dict[str, tuple[float, float]]


def _shortest_tree(at: _Spots) -> list[tuple[str, str]]:
    """Return the links of the shortest tree through all spots (Prim 1957)."""
    todo = list(at)
    if not todo:
        return []
    near = dict.fromkeys(todo[1:], todo[0])
    found: list[tuple[str, str]] = []
    while near:
        joint = min(near, key=lambda each: dist(at[each], at[near[each]]))
        found.append((near.pop(joint), joint))
        for other in near:
            if dist(at[other], at[joint]) < dist(at[other], at[near[other]]):
                near[other] = joint
    return found


def _walk(start: str, ends: dict[str, list[str]]) -> list[str]:
    way, last = [start], ""
    while True:
        onward = [joint for joint in ends[way[-1]] if joint != last]
        if not onward:
            return way
        last = way[-1]
        way.append(onward[0])


def _nearest(at: _Spots) -> list[tuple[str, str]]:
    found: dict[tuple[str, str], None] = {}
    for one in at:
        near = min((j for j in at if j != one), key=lambda other: dist(at[one], at[other]))
        found[min(one, near), max(one, near)] = None
    return list(found)


def _parted(way: list[str], at: _Spots) -> list[list[str]]:
    """Return a way cut where two groups of rivets lie far apart, each a row of its own."""
    links = [dist(at[a], at[b]) for a, b in pairwise(way)]
    cuts = [0]
    for place, link in enumerate(links, start=1):
        grouped = place - cuts[-1] >= _LEAST and len(way) - place >= _LEAST
        if grouped and link > _APART * max(links[place - 2], links[place]):
            cuts.append(place)
    return [way[a:b] for a, b in pairwise([*cuts, len(way)])]


def runs(pattern: Pattern, bundle: Bundle) -> Iterator[Run]:
    """Yield each two rows of a bundle, cut where a joint does not pass both or a strap stands off."""
    for first, second in combinations(bundle.rows, 2):
        both = [at for at, each in enumerate(bundle.rungs) if first in each and second in each]
        stretch: list[int] = []
        for at in both:
            if stretch and (
                at != stretch[-1] + 1 or _cut(pattern, bundle, stretch[-1], (first, second))
            ):
                yield from _run(bundle, stretch, first, second)
                stretch = []
            stretch.append(at)
        yield from _run(bundle, stretch, first, second)


def _cut(pattern: Pattern, bundle: Bundle, at: int, pair: tuple[Row, Row]) -> bool:
    """Tell whether a strap may stand off after a joint, or holes lie in one place there."""
    here, beyond = bundle.rungs[at], bundle.rungs[at + 1]
    spans = {row: dist(here[row].centre, beyond[row].centre) for row in pair}
    if min(spans.values()) < ONE_PLACE_MM:
        return True
    far = max(pair, key=spans.__getitem__)
    limp = pattern.part(far.part).kind in LIMP
    return not bundle.sewn and limp and spans[far] >= STANDS_OFF_MM


def _run(bundle: Bundle, stretch: list[int], first: Row, second: Row) -> Iterator[Run]:
    if len(stretch) >= _LEAST:
        yield Run(
            first=first,
            second=second,
            joints=tuple(bundle.joints[at] for at in stretch),
            numbers=tuple(stretch),
            on_first=tuple(bundle.rungs[at][first] for at in stretch),
            on_second=tuple(bundle.rungs[at][second] for at in stretch),
        )
