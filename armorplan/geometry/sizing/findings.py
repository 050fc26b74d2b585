"""What a maker should know of a pattern in its new size: what could not be kept, what to look at."""

from collections.abc import Iterator, Mapping
from itertools import combinations
from math import dist

from armorplan.geometry.sizing.clusters import shared_with
from armorplan.geometry.sizing.factors import LENGTHENED
from armorplan.geometry.sizing.model import Sized, WantedBy
from armorplan.geometry.sizing.spacing import LEAST_MM, MOST_MM
from armorplan.geometry.sizing.stretches import spread_of
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Part, PartKind
from armorplan.pattern.pattern import Pattern

FAR = (0.8, 1.25)
"""Beyond these a shape may no longer suit (common practice, no source)."""
_LONG_MM, _SHARE_MM = 60.0, 1.0
_LESS_MM, _NEARER_MM = 0.5, 1.0
_NEAR_MM = 0.05
_Left = Mapping[tuple[str, str], float]


def findings_of(
    before: Pattern, made: Sized, wanted: WantedBy, left: tuple[_Left, _Left], kept_mm: float
) -> tuple[Finding, ...]:
    """Return what is found.

    Args:
        before: as it was drawn.
        made: in its new size.
        wanted: the measures.
        left: what lies under a lame's neighbour at the end of the bend, before and now.
        kept_mm: how much should.
    """
    return (
        *_far(wanted),
        *_rows(made),
        *_kept_lengths(before, made),
        *_edges(before, made),
        *_lames(made.pattern, *left, kept_mm),
    )


def _far(wanted: WantedBy) -> Iterator[Finding]:
    for measure, one in sorted(wanted.items()):
        if not FAR[0] <= one.ratio <= FAR[1]:
            yield Finding(
                code="far-from-drawn",
                severity=Severity.WARNING,
                text=f"{measure}: {one.wanted_mm:.0f} mm is {100 * one.ratio:.0f} % of the "
                f"{one.drawn_mm:.0f} mm that the pattern was drawn for.",
                remedy="Look whether the measure is right; if it is, make a mock-up first, and draw anew "
                "what no longer suits.",
                about=(measure,),
            )


def _rows(made: Sized) -> Iterator[Finding]:
    for row in made.rows:
        was_by_rule = (
            row.before_mm[0] + _NEAR_MM >= LEAST_MM and row.before_mm[1] <= MOST_MM + _NEAR_MM
        )
        is_by_rule = (
            row.after_mm[0] + _NEAR_MM >= LEAST_MM and row.after_mm[1] <= MOST_MM + _NEAR_MM
        )
        if row.seam and was_by_rule and not is_by_rule:
            yield Finding(
                code="spacing-out",
                severity=Severity.WARNING,
                text=f"The holes of '{row.name}' now lie {row.after_mm[0]:.1f} to "
                f"{row.after_mm[1]:.1f} mm apart; {LEAST_MM:g} to {MOST_MM:g} mm is usual.",
                remedy="Joints that stay where they are leave no better number; move one in the pattern.",
                about=(row.seam,),
            )


def _kept_lengths(before: Pattern, made: Sized) -> Iterator[Finding]:
    """Yield long rows that could not grow, since what they hold is in no scaling."""
    grown = {one.part: one for one in made.parts if before.part(one.part).kind not in LENGTHENED}
    follows = {part for scaling in before.scalings for part in scaling.parts}
    for (part, other), holes in sorted(shared_with(before, frozenset(grown)).items()):
        if before.part(other).kind in LENGTHENED or other in follows:
            continue
        spread = spread_of(before.part(part), grown[part].factors)
        ends = max(
            combinations([hole.centre for hole in holes], 2), key=lambda e: dist(*e), default=None
        )
        if ends is None:
            continue
        long_mm = dist(*ends)
        off_mm = abs(dist(spread.at(ends[0]), spread.at(ends[1])) - long_mm)
        if long_mm >= _LONG_MM and off_mm > _SHARE_MM:
            names = before.part(other).name, before.part(part).name
            yield Finding(
                code="row-keeps-length",
                severity=Severity.WARNING,
                text=f"{len(holes)} holes that {names[0]} and {names[1]} share keep their {long_mm:.0f} mm, "
                f"since {names[0]} follows no measure.",
                remedy=f"Name {other} in a scaling too, if it shall grow with {part}.",
                about=(other, part),
            )


def _edges(before: Pattern, made: Sized) -> Iterator[Finding]:
    """Yield parts whose holes came nearer to an edge."""
    for one in made.parts:
        was, now = before.part(one.part), made.pattern.part(one.part)
        if not was.holes or not now.holes:
            continue
        least_was, least = _least_mm(was), _least_mm(now)
        if least < least_was - _NEARER_MM:
            yield Finding(
                code="holes-nearer-the-edge",
                severity=Severity.NOTE,
                text=f"The hole of {now.name} that lies nearest to an edge is {least:.1f} mm from it; as drawn it "
                f"is {least_was:.1f} mm.",
                remedy="Look at the part before and after; move the edge there if that is too little.",
                about=(now.id,),
            )


def _least_mm(part: Part) -> float:
    """Return how near to the edge the middle of some hole lies."""
    from shapely import LinearRing, Point

    edge = LinearRing(part.outline)
    return min(edge.distance(Point(hole.centre)) for hole in part.holes)


def _lames(pattern: Pattern, before: _Left, now: _Left, kept_mm: float) -> Iterator[Finding]:
    for (upper, lower), left in sorted(now.items()):
        was = before.get((upper, lower))
        if was is None or left >= min(was, kept_mm) - _LESS_MM:
            continue
        names = pattern.part(upper).name, pattern.part(lower).name
        lames = [p for p in (upper, lower) if pattern.part(p).kind is PartKind.LAME]
        yield Finding(
            code="lame-shorter",
            severity=Severity.WARNING if left < 0 else Severity.NOTE,
            text=f"At the end of the bend {left:.1f} mm of {names[1]} and {names[0]} stay over each "
            f"other; as drawn it is {was:.1f} mm.",
            remedy="The check tells what should stay; draw the lame deeper if that is too little."
            if lames
            else "Neither is a lame, so neither was made deeper: draw one deeper if that is too little.",
            about=(upper, lower),
        )
