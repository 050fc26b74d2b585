"""Rivets that hold the same parts without a seam declared: their spacing has to agree as well."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations
from math import dist, pi, radians

from armorplan.geometry.rows import MISFIT_MM, REMEDY, Row, Rung, aligned, rung, spans_mm, where
from armorplan.geometry.stacks import POSTED
from armorplan.geometry.widths import LIMP
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Form, FormKind, Joint, Motion
from armorplan.pattern.pattern import Pattern

STANDS_OFF_MM = 50.0
"""Between rivets as far apart as this a longer strap may be meant to stand off, so that something
passes beneath it; nearer ones hold its end (common practice, no source)."""


_Pair = tuple[str, str]


def loose_row_findings(pattern: Pattern) -> Iterator[Finding]:
    """Yield neighbouring rivets of no seam whose spacing differs between the parts they hold, in mm.

    Left out are joints that move or are placed on the wearer, and parts shaped to an unknown
    radius. Across a bend the outer layer is longer by the layers' distance times the angle, as
    the geometry of two arcs about one centre has it: that much may differ.
    """
    told: set[_Pair] = set()
    for joints in _together(pattern):
        rungs = {joint: rung(pattern, joint) for joint in joints}
        for one, other in _neighbours(rungs):
            if (one, other) in told:
                continue
            told.add((one, other))
            found = _misfit(pattern, one, other)
            if found is not None:
                yield found


def _stays(joint: Joint) -> bool:
    fixed = joint.motion is Motion.FIXED and not joint.placed_on_wearer
    return joint.kind in POSTED and fixed and bool(joint.stack)


def _together(pattern: Pattern) -> Iterator[list[str]]:
    """Yield joints of no seam that hold the same two parts, or close the same part on itself."""
    sewn = {joint for seam in pattern.seams for joint in seam.joints}
    groups: dict[_Pair, list[str]] = defaultdict(list)
    for joint in pattern.joints:
        if joint.id in sewn or not _stays(joint):
            continue
        held = dict.fromkeys(pattern.stack_parts(joint.id))
        pairs = combinations(sorted(held), 2) if len(held) > 1 else ((part, part) for part in held)
        for pair in pairs:
            groups[pair].append(joint.id)
    yield from (joints for joints in groups.values() if len(joints) > 1)


def _neighbours(rungs: dict[str, Rung]) -> Iterator[_Pair]:
    """Yield each joint with the one nearest to it on the part that both pass first."""
    for one, here in rungs.items():
        near = [
            (dist(here[row].centre, there[row].centre), other)
            for other, there in rungs.items()
            if other != one
            for row in here
            if row in there
        ]
        if near:
            yield min(one, min(near)[1]), max(one, min(near)[1])


def _bend(pattern: Pattern, part_id: str) -> tuple[Form | None, bool]:
    """Return the tightest bend of a part that says its radius, and whether it is shaped at all.

    A fold is left out: it lies along one line, and rivets lie beside it.
    """
    shaped = [f for f in pattern.forms if part_id in f.parts and f.kind is not FormKind.FOLD]
    known = [(form.radius_mm, form) for form in shaped if form.radius_mm]
    return (min(known, key=lambda each: each[0])[1] if known else None), bool(shaped)


def _bend_takes_mm(
    pattern: Pattern, joint_id: str, rows: tuple[Row, Row], span_mm: float
) -> float:
    """Return what two layers may differ by across a bend in mm; infinity where that is unknown."""
    parts = [pattern.part(row.part) for row in rows]
    through_mm = sum(pattern.part(p).thickness_mm for p in pattern.stack_parts(joint_id))
    apart_mm = through_mm - sum(part.thickness_mm for part in parts) / 2
    most = 0.0
    for part in parts:
        form, shaped = _bend(pattern, part.id)
        if form is None or not form.radius_mm:
            most = max(most, float("inf") if shaped else 0.0)
            continue
        angle = pi if form.angle_deg is None else radians(form.angle_deg)
        most = max(most, apart_mm * min(span_mm / form.radius_mm, angle))
    return most


def _misfit(pattern: Pattern, one: str, other: str) -> Finding | None:
    (here, beyond), _ = aligned([rung(pattern, one), rung(pattern, other)])
    spans = spans_mm(here, beyond)
    if not spans:
        return None
    far, near = max(spans, key=spans.__getitem__), min(spans, key=spans.__getitem__)
    miss_mm = spans[far] - spans[near]
    if miss_mm <= MISFIT_MM:
        return None
    takes_mm = _bend_takes_mm(pattern, one, (far, near), spans[far])
    stands_off = pattern.part(far.part).kind in LIMP and spans[far] >= STANDS_OFF_MM
    if miss_mm <= MISFIT_MM + takes_mm or stands_off:
        return None
    bend = f", and the bend takes {takes_mm:.1f} mm of it at most" if takes_mm else ""
    return Finding(
        code="row-misfit",
        severity=Severity.WARNING,
        text=(
            f"'{one}' and '{other}' are {spans[far]:.1f} mm apart on "
            f"{where(pattern, far, here, beyond)} but {spans[near]:.1f} mm on "
            f"{where(pattern, near, here, beyond)}: they miss by {miss_mm:.1f} mm{bend}."
        ),
        remedy=REMEDY.format(miss_mm),
        about=(one, other, *dict.fromkeys((far.part, near.part))),
    )
