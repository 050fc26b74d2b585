"""Joints of a seam that are turned over, lack a hole that their neighbours have, or lie in one place."""

from collections.abc import Iterator
from itertools import combinations, pairwise
from math import dist

from armorplan.geometry.rows.bundles import ONE_PLACE_MM, Bundle
from armorplan.geometry.rows.rungs import fewer, rung
from armorplan.geometry.told import listed, quoted
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern


def order_findings(pattern: Pattern, bundle: Bundle) -> Iterator[Finding]:
    """Yield joints that lie the other way round, holes that a row lacks, and holes in one place."""
    if bundle.sewn:
        for at in sorted({*bundle.turned, *_swapped(pattern, bundle)}):
            yield _turned_over(pattern, bundle, bundle.joints[at])
        yield from _lacking(pattern, bundle)
        yield from _coinciding(pattern, bundle)


def _swapped(pattern: Pattern, bundle: Bundle) -> set[int]:
    """Return the joints of a seam in which two parts lie the other way round than in most."""
    orders: dict[tuple[str, str], dict[int, bool]] = {}
    for at, joint in enumerate(bundle.joints):
        passed = pattern.stack_parts(joint)
        once = [part for part in passed if passed.count(part) == 1]
        for outer, inner in combinations(once, 2):
            key = (min(outer, inner), max(outer, inner))
            orders.setdefault(key, {})[at] = outer > inner
    return {at for over in orders.values() for at in fewer(over)}


def _turned_over(pattern: Pattern, bundle: Bundle, joint_id: str) -> Finding:
    stack = pattern.joint(joint_id).stack
    written = ", ".join(f'"{hole}"' for hole in stack)
    return Finding(
        code="joint-other-way-round",
        severity=Severity.WARNING,
        text=f"Joint '{joint_id}' of '{bundle.name}' lies the other way round than its "
        f"neighbours: its stack is {written}, the outermost first.",
        remedy="Write its layers in the order of the others, unless the parts are woven there.",
        about=(bundle.id, joint_id),
    )


def _lacking(pattern: Pattern, bundle: Bundle) -> Iterator[Finding]:
    """Yield the rows that most joints of a seam pass, but not one between two others."""
    for row in bundle.rows:
        passed = [any(r.part == row.part for r in each) for each in bundle.rungs]
        lacking = [
            at
            for at in range(1, len(passed) - 1)
            if not passed[at] and passed[at - 1] and passed[at + 1] and _may(pattern, bundle, at)
        ]
        if row.nth or not lacking or 2 * sum(passed) <= len(passed):
            continue
        part, joints = pattern.part(row.part), [bundle.joints[at] for at in lacking]
        named = listed(quoted(joints))
        yield Finding(
            code="row-count",
            severity=Severity.WARNING,
            text=f"{sum(passed)} of {len(passed)} joints of '{bundle.name}' pass {part.name}, but "
            f"{named} between them {'pass' if len(joints) > 1 else 'passes'} none of its holes.",
            remedy=f"Draw the hole in {part.name} and write it into the stack, or make that joint "
            "one of another seam.",
            about=(bundle.id, *joints, part.id),
        )


def _may(pattern: Pattern, bundle: Bundle, at: int) -> bool:
    """Tell whether a joint passes single holes: one over a surface names none."""
    joint = pattern.joint(bundle.joints[at])
    return bool(joint.stack) and not joint.placed_on_wearer


def in_one_place(pattern: Pattern) -> frozenset[tuple[str, str]]:
    """Return the holes that two joints side by side in a seam have in one place, in either order."""
    found: set[tuple[str, str]] = set()
    for seam in pattern.seams:
        for here, beyond in pairwise(rung(pattern, joint) for joint in seam.joints):
            pairs = ((here[row], beyond[row]) for row in here if row in beyond)
            same = [(a.id, b.id) for a, b in pairs if dist(a.centre, b.centre) < ONE_PLACE_MM]
            found.update(same, ((b, a) for a, b in same))
    return frozenset(found)


def _coinciding(pattern: Pattern, bundle: Bundle) -> Iterator[Finding]:
    """Yield neighbours in a seam whose holes lie in one place, marked on the wearer or not."""
    rungs = [
        rung(pattern, joint) if pattern.joint(joint).placed_on_wearer else each
        for joint, each in zip(bundle.joints, bundle.rungs, strict=True)
    ]
    for row in dict.fromkeys(row for each in rungs for row in each):
        name = pattern.part(row.part).name
        holes = [each.get(row) for each in rungs]
        for one, other in pairwise(holes):
            if one and other and dist(one.centre, other.centre) < ONE_PLACE_MM:
                yield Finding(
                    code="holes-coincide",
                    severity=Severity.ERROR,
                    text=f"Holes '{one.id}' and '{other.id}' of {name} lie in one place, and are "
                    f"two of '{bundle.name}'.",
                    remedy="Move one of them along the row, or write one hole into one joint.",
                    about=(bundle.id, row.part, one.id, other.id),
                )
