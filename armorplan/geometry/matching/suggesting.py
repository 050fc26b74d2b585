"""Which rows of holes may belong together, told by their distances alone, the likeliest first."""

from collections import defaultdict
from collections.abc import Collection, Iterator, Sequence
from math import exp

from armorplan.geometry.matching.consistent import Holed, best_set
from armorplan.geometry.matching.folds import folded
from armorplan.geometry.matching.laying import AS_GOOD, Laid, laid
from armorplan.geometry.matching.model import RowMatch
from armorplan.geometry.matching.naming import shared_words
from armorplan.geometry.matching.rows import Row, rows_of
from armorplan.geometry.matching.scattered import scattered_alike, scattered_sets
from armorplan.geometry.matching.spacings import Alike, alike
from armorplan.geometry.matching.weighing import Scales
from armorplan.geometry.matching.widening import widened_sets
from armorplan.geometry.matching.words import why
from armorplan.geometry.placing import fit
from armorplan.kernel.stopping import ShouldStop, go_on, never
from armorplan.pattern.parts import Part, Point

_NOTHING = 4.0
"""Points of 'these holes belong to nothing that is drawn'."""
_FAR_BETTER = 3.0
_MOST_RANKED = 10_000
"""More matches than this are not weighed against each other, but those with the most points."""
_AMONG = 8
"""What so many others beat for the same holes is not suggested."""


def suggested(
    parts: Sequence[Part],
    *,
    taken: Collection[str] = (),
    misfit_mm: float = 0.5,
    should_stop: ShouldStop = never,
) -> tuple[RowMatch, ...]:
    """Return rows of holes that fit each other, the likeliest first.

    Args:
        parts: parts with their outlines and holes; pieces, kinds and materials are not asked.
        taken: ids of holes that are joined already.
        misfit_mm: a hole, or a spacing, may be off by this much.
        should_stop: asked now and then.

    Raises:
        StoppedError: it was asked to stop.
    """
    rows: list[Row] = []
    for at, part in enumerate(parts):
        go_on(should_stop)
        rows += rows_of(at, part, frozenset(taken), should_stop)
    sets = list(scattered_sets(parts, rows, frozenset(taken), misfit_mm, should_stop))
    every = [*rows, *(row for both in sets for row in both)]
    found: list[Alike] = []
    if every:
        scales = Scales(every, parts)
        found += alike(rows, scales, misfit_mm, should_stop)
        found += scattered_alike(len(rows), sets, scales)
    set_holes = {(str(row.at), hole) for row in rows if row.set_row for hole in row.holes}
    laid_on = laid(every, parts, found, misfit_mm, should_stop)
    wider = list(
        widened_sets(
            parts, rows, frozenset(taken), laid_on, misfit_mm=misfit_mm, should_stop=should_stop
        )
    )
    laid_on += _laid_sets(parts, wider, misfit_mm)
    laid_on += folded(parts, taken, misfit_mm)
    go_on(should_stop)
    kept = [each for each in laid_on if not _is_by_its_tongue(each, set_holes)]
    kept = sorted(kept, key=lambda each: -each.points)[:_MOST_RANKED]
    return tuple(_ranked(parts, _whole_ones(kept, should_stop), should_stop))


def _is_by_its_tongue(each: Laid, set_holes: Collection[Holed]) -> bool:
    """Tell whether straps would be riveted by holes that a buckle's tongue goes through.

    One on itself by any of them, two by nothing else.
    """
    is_set = [
        (str(at), hole) in set_holes
        for pair in each.pairs
        for at, hole in zip((each.first, each.second), pair, strict=True)
    ]
    return any(is_set) if each.first == each.second else all(is_set)


def _laid_sets(
    parts: Sequence[Part], sets: Sequence[tuple[Row, Row]], misfit_mm: float
) -> list[Laid]:
    rows = [row for both in sets for row in both]
    if not rows:
        return []
    return laid(rows, parts, scattered_alike(0, sets, Scales(rows, parts)), misfit_mm)


def _whole_ones(found: Sequence[Laid], should_stop: ShouldStop) -> list[Laid]:
    """Return matches without those that are a stretch of another, hole for hole."""
    kept: list[Laid] = []
    held: dict[tuple[int, int, str, str], list[set[tuple[str, str]]]] = defaultdict(list)
    for each in sorted(found, key=lambda one: (-len(one.pairs), -one.points, one.pairs)):
        go_on(should_stop)
        keys = [(each.first, each.second, *pair) for pair in each.pairs]
        if any(set(each.pairs) <= other for other in held[keys[0]]):
            continue
        kept.append(each)
        for key in keys:
            held[key].append(set(each.pairs))
    return kept


def _ranked(
    parts: Sequence[Part], found: Sequence[Laid], should_stop: ShouldStop
) -> Iterator[RowMatch]:
    holes = [_holes(each) for each in found]
    rivals = list(_rivals(holes, should_stop))
    worth = [exp(each.points) for each in found]
    likely = [
        worth[at] / (exp(_NOTHING) + worth[at] + sum(map(worth.__getitem__, others)))
        for at, others in enumerate(rivals)
    ]
    go_on(should_stop)
    best = best_set(holes, [each.points - _NOTHING / 2 for each in found])
    order = sorted(
        (at for at in range(len(found)) if _is_among(at, found, rivals[at], holes)),
        key=lambda at: (at not in best, -likely[at], found[at].first, found[at].pairs),
    )
    words = shared_words(parts)
    for at in order:
        go_on(should_stop)
        each = found[at]
        as_good = [o for o in rivals[at] if found[o].points >= each.points - AS_GOOD]
        reason = why(
            parts[each.first],
            parts[each.second],
            each,
            rivals=len(as_good),
            word=words.get((each.first, each.second), ""),
        )
        yield _match(parts, each, likely[at], rivals=len(as_good), reason=reason)


def _is_among(
    at: int, found: Sequence[Laid], rivals: Sequence[int], holes: Sequence[frozenset[Holed]]
) -> bool:
    """Tell whether a match is among the likeliest for the holes of one of its sides.

    What joins the holes of a longer and likelier one otherwise is not.
    """
    better = [o for o in rivals if found[o].points > found[at].points]
    if any(holes[at] < holes[o] for o in better):
        return False
    sides = [
        {(str(found[at].first), one) for one, _ in found[at].pairs},
        {(str(found[at].second), other) for _, other in found[at].pairs},
    ]
    for side in sides:
        beaten_by = [found[o].points for o in better if not side.isdisjoint(holes[o])]
        if (
            len(beaten_by) < _AMONG
            and max(beaten_by, default=0.0) <= found[at].points + _FAR_BETTER
        ):
            return True
    return False


def _holes(each: Laid) -> frozenset[Holed]:
    ones = {(str(each.first), one) for one, _ in each.pairs}
    return frozenset(ones | {(str(each.second), other) for _, other in each.pairs})


def _rivals(holes: Sequence[frozenset[Holed]], should_stop: ShouldStop) -> Iterator[list[int]]:
    """Yield for each set of holes the numbers of the others that share one with it."""
    users: dict[Holed, list[int]] = defaultdict(list)
    for at, held in enumerate(holes):
        for hole in held:
            users[hole].append(at)
    same: dict[frozenset[Holed], set[int]] = defaultdict(set)
    for at, held in enumerate(holes):
        same[held].add(at)
    for held in holes:
        go_on(should_stop)
        sharing = {other for hole in held for other in users[hole]}
        yield sorted(sharing - same[held])


def _match(
    parts: Sequence[Part], each: Laid, likely: float, *, rivals: int, reason: str
) -> RowMatch:
    first, second = parts[each.first], parts[each.second]
    one, other = _centres(first), _centres(second)
    return RowMatch(
        first=first.id,
        second=second.id,
        pairs=each.pairs,
        meeting=each.meeting,
        residual_mm=round(each.off_mm, 3),
        mirrored=each.mirrored,
        turned=each.turned,
        likely=round(likely, 4),
        rivals=rivals,
        fit=fit(
            [one[a] for a, _ in each.pairs],
            [_over(other[b], over=each.mirrored) for _, b in each.pairs],
        ),
        why=reason,
    )


def _centres(part: Part) -> dict[str, Point]:
    return {hole.id: hole.centre for hole in part.holes}


def _over(point: Point, *, over: bool) -> Point:
    return (-point[0], point[1]) if over else point
