"""Parts made twice alike, left and right, on a partner that is mirrored: do their holes still meet?"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from math import dist

from armorplan.geometry.told import listed
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import MadeOn, Part, Point, heading
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants


def copy_findings(pattern: Pattern, constants: Constants) -> Iterator[Finding]:
    """Yield copied parts whose holes, kept upright, miss those of their mirrored partners, in mm.

    The right part is the left one again, but the right partner is the left one turned over about
    its upright line. The holes of both meet on the right only if they lie alike on both sides of
    an upright line; where that line is, is free. One hole always meets.
    """
    mirrored = {piece.id for piece in pattern.pieces if piece.mirrored}
    for part in pattern.parts:
        if not part.copied or part.piece not in mirrored or part.made_on is not MadeOn.BOTH:
            continue
        shared, partners = _shared(pattern, part, mirrored)
        misses = ((_miss_mm(holes, part.up_deg), at) for at, holes in shared.items())
        miss_mm, _ = max(misses, default=(0.0, ""))
        if miss_mm > constants.misfit.value:
            yield _told(pattern, part, partners, miss_mm)


def _shared(
    pattern: Pattern, part: Part, mirrored: set[str]
) -> tuple[dict[str, list[Point]], dict[str, list[str]]]:
    """Return for each mirrored partner the part's holes that meet it, and their joints."""
    holes: dict[str, list[Point]] = defaultdict(list)
    joints: dict[str, list[str]] = defaultdict(list)
    for joint in pattern.joints:
        passed = [pattern.hole(hole) for hole in joint.stack]
        own = [hole.centre for hole in passed if hole.part == part.id and not hole.travel_mm]
        if not own or joint.placed_on_wearer:
            continue
        for other in dict.fromkeys(hole.part for hole in passed):
            partner = pattern.part(other)
            paired = partner.piece in mirrored and partner.made_on is MadeOn.BOTH
            if other != part.id and paired and not partner.copied:
                holes[other] += own
                joints[other].append(joint.id)
    return holes, joints


def _miss_mm(holes: Sequence[Point], up_deg: float) -> float:
    """Return by how much holes miss their own mirror image about the upright line amid them."""
    up = heading(up_deg)
    upright = [(x * -up[1] + y * up[0], x * up[0] + y * up[1]) for x, y in holes]
    across = [a for a, _ in upright]
    twice_middle = min(across) + max(across)
    turned = [(twice_middle - a, b) for a, b in upright]
    return max(min(dist(one, other) for other in upright) for one in turned)


def _told(pattern: Pattern, part: Part, partners: dict[str, list[str]], miss_mm: float) -> Finding:
    names = listed([pattern.part(other).name for other in partners])
    joints = dict.fromkeys(joint for held in partners.values() for joint in held)
    return Finding(
        code="copy-misses-mirror",
        severity=Severity.WARNING,
        text=(
            f"The right {part.name} is a copy of the left one, but the right {names} is mirrored: "
            f"with {part.name} upright the holes miss there by up to {miss_mm:.1f} mm."
        ),
        remedy=f"Draw the holes of {part.name} alike on both sides of its upright middle line "
        "(up_deg), or leave out copied = true.",
        about=(part.id, *partners, *joints),
    )
