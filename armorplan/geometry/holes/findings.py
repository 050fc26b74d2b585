"""What is said of holes that would tear."""

from collections.abc import Sequence

from armorplan.geometry.edge_rule import edge_rule
from armorplan.geometry.holes.edges import Close, Near
from armorplan.geometry.told import listed
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Part

MOST_COUNTED = 50
"""Pairs of holes counted in one part; beyond it something else is wrong."""


def near_edge_finding(part: Part, near: Sequence[Near]) -> Finding:
    """Return one finding for all holes of a part that lie too near an edge, the worst first."""
    worst = near[0]
    move = f"{worst.lacks_mm:.1f} mm{' inward' if not worst.in_middle else ' to the middle'}"
    if len(near) == 1:
        rule = edge_rule(worst.hole.diameter_mm, worst.stack_mm)
        least = "is the middle" if worst.in_middle else f"is the least: {rule}"
        text = (
            f"Hole '{worst.hole.id}' in {part.name} lies {worst.edge_mm:.1f} mm from the nearest "
            f"edge; {worst.least_mm:.1f} mm {least}."
        )
        remedy = f"Move it {move}, or widen {part.name} there."
    else:
        words = [f"'{n.hole.id}' {n.edge_mm:.1f} mm ({n.least_mm:.1f})" for n in near]
        text = (
            f"{len(near)} holes in {part.name} lie nearer to an edge than is the least for their "
            f"size and stack, in brackets: {listed(words)}."
        )
        remedy = f"Move them {move} at most, or widen {part.name} there."
    return Finding(
        code="hole-near-edge",
        severity=Severity.WARNING,
        text=text,
        remedy=remedy,
        about=(part.id, *(each.hole.id for each in near)),
    )


def too_close_finding(part: Part, close: Sequence[Close]) -> Finding:
    """Return one finding for all pairs of holes of a part that are too close, the worst first."""
    many = len(close) > MOST_COUNTED
    close = sorted(close[:MOST_COUNTED], key=lambda each: -each.lacks_mm)
    text, remedy = _one_pair(part, close[0]) if len(close) == 1 else _pairs(part, close, many=many)
    holes = dict.fromkeys(hole.id for c in close for hole in (c.one, c.other))
    return Finding(
        code="holes-too-close",
        severity=Severity.WARNING,
        text=text,
        remedy=remedy,
        about=(part.id, *holes),
    )


def _one_pair(part: Part, pair: Close) -> tuple[str, str]:
    text = (
        f"Holes '{pair.one.id}' and '{pair.other.id}' in {part.name} are {pair.apart_mm:.1f} mm "
        f"apart; {pair.least_mm:.1f} mm, three diameters, is the least."
    )
    return text, f"Move one of them {pair.lacks_mm:.1f} mm away, or use one hole for both."


def _pairs(part: Part, close: Sequence[Close], *, many: bool) -> tuple[str, str]:
    words = [f"'{c.one.id}' and '{c.other.id}' {c.apart_mm:.1f} mm apart" for c in close]
    text = (
        f"{'More than ' * many}{len(close)} pairs of holes in {part.name} are less than three "
        f"diameters apart: {listed(words, named=3)}."
    )
    if many:
        return text, "Look whether circles were drawn more than once, or are no holes."
    return text, f"Move them {close[0].lacks_mm:.1f} mm apart at most, or use one hole for two."
