"""Joints that make rows: those of a seam, and rivets of no seam that hold the same parts."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations, pairwise
from math import dist

from armorplan.geometry.rows.loose import chains, pivots, together
from armorplan.geometry.rows.rungs import Row, Rung, aligned, rung
from armorplan.geometry.widths import LIMP
from armorplan.pattern.parts import Hole
from armorplan.pattern.pattern import Pattern

STANDS_OFF_MM = 50.0
"""Between rivets as far apart as this a longer strap may be meant to stand off, so that something
passes beneath it; nearer ones hold its end (common practice, no source)."""
ONE_PLACE_MM = 0.05
"""Nearer than this two holes are drawn in one place: centres are written to hundredths."""
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

    def holes(self, row: Row) -> tuple[Hole, ...]:
        """Return the holes of one of its two rows."""
        return self.on_first if row == self.first else self.on_second

    def other(self, row: Row) -> Row:
        """Return the row that one of its two is held against."""
        return self.second if row == self.first else self.first


def _spans(holes: tuple[Hole, ...]) -> tuple[float, ...]:
    return tuple(dist(a.centre, b.centre) for a, b in pairwise(holes))


def bundles(pattern: Pattern) -> Iterator[Bundle]:
    """Yield the seams, then the groups of loose rivets that hold the same parts.

    Loose joints that move or are placed on the wearer are left out; in a seam those placed on the
    wearer pass no row.
    """
    for seam in pattern.seams:
        rungs, turned = aligned([_punched(pattern, joint) for joint in seam.joints])
        yield Bundle(
            id=seam.id,
            name=seam.name,
            joints=seam.joints,
            rungs=tuple(rungs),
            turned=tuple(turned),
            sewn=True,
        )
    named: set[tuple[str, ...]] = set()
    for parts, joints in together(pattern):
        found = [chain for chain in chains(pattern, parts, joints) if len(chain) >= _LEAST]
        many = len(found) > 1 or parts in named
        named.add(parts)
        for chain in found:
            full = [rung(pattern, joint) for joint in chain]
            rungs, _ = aligned([{r: h for r, h in e.items() if r.part in parts} for e in full])
            names = [pattern.part(part).name for part in parts]
            yield Bundle(
                id="+".join(parts) + (f":{chain[0]}+{chain[-1]}" if many else ""),
                name=f"rivets through {' and '.join(names)}",
                joints=tuple(chain),
                rungs=tuple(rungs),
                turned=(),
                sewn=False,
            )


def _punched(pattern: Pattern, joint: str) -> Rung:
    """Return the holes of a joint that are punched by the drawing: on the wearer they are made to fit."""
    return {} if pattern.joint(joint).placed_on_wearer else rung(pattern, joint)


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
    """Yield the two pivots of two parts as a row of two: those of lames."""
    for (one_id, other_id), found in pivots(pattern):
        rows = Row(one_id), Row(other_id)
        yield Run(
            first=rows[0],
            second=rows[1],
            joints=tuple(joint for joint, _ in found),
            numbers=(0, 1),
            on_first=tuple(each[rows[0]] for _, each in found),
            on_second=tuple(each[rows[1]] for _, each in found),
        )


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
