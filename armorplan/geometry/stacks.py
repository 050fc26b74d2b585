"""Joints against their fasteners: kind, hole size, and a post that fits the stack."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from math import ceil
from typing import NamedTuple

from armorplan.geometry.told import listed, quoted
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Joint, JointKind
from armorplan.pattern.parts import Hole, Part
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.fastening import choose_length, pinched_mm, post_window_mm
from armorplan.workshop.shelf import Fastener, Shelf

HOLE_OFF_MM = 0.6
"""Tighter or looser than this the punch is the wrong one: fastener makers give 0.25–0.38 mm of
clearance, a turning joint about 0.5 mm (common practice, no source)."""
POSTED = frozenset({JointKind.RIVET, JointKind.SCREW})
"""Joints with a post through holes; glue, stitches and laces have none."""
_NAMED = 3
"""So many joints or parts are named in a message; the rest are counted."""
_DIGITS = 3


MEASURED_MM = 0.05
"""Calipers on leather tell a tenth of a millimetre (common practice, no source): half of it."""


class Stack(NamedTuple):
    """What a fastener goes through, in mm unpinched: at the lower and at the upper end.

    The two differ where leather is sold as a range. ``washer_mm`` is in both.
    """

    least_mm: float
    most_mm: float
    washer_mm: float = 0.0

    def post_mm(self, fastener: Fastener) -> float | None:
        """Return the post on sale for the upper end in mm, or ``None`` where none fits.

        One that misses by less than leather is measured to still fits.
        """
        for off_mm in (0.0, -MEASURED_MM, MEASURED_MM):
            length_mm = choose_length(self.most_mm + off_mm, fastener, washer_mm=self.washer_mm)
            if length_mm is not None:
                return length_mm
        return None

    def thin_window_mm(self, fastener: Fastener) -> tuple[float, float]:
        """Return the shortest and longest post that would hold the lower end, in mm."""
        return post_window_mm(self.least_mm, fastener, washer_mm=self.washer_mm)

    def window_mm(self, fastener: Fastener) -> tuple[float, float]:
        """Return the shortest and longest post that would hold the upper end, in mm."""
        return post_window_mm(self.most_mm, fastener, washer_mm=self.washer_mm)

    def pinched_mm(self) -> float:
        """Return the upper end in mm once it is drawn together; washers do not give."""
        return pinched_mm(self.most_mm, washer_mm=self.washer_mm)


def stack_of(layers: Iterable[Part], washer_mm: float = 0.0) -> Stack:
    """Return the stack of layers, repeats kept, with washers or spacers of a thickness in mm."""
    most = least = washer_mm
    for part in layers:
        most += part.thickness_mm
        least += part.thickness_mm if part.least_mm is None else part.least_mm
    return Stack(round(least, _DIGITS), round(most, _DIGITS), washer_mm)


def joint_stack(pattern: Pattern, joint: Joint) -> Stack:
    """Return the stack of one joint of a pattern, its washers included."""
    return stack_of(map(pattern.part, pattern.stack_parts(joint.id)), joint.washer_mm)


WORTH_TELLING_MM = 0.1
"""Leather is not measured finer: a post too long by less says nothing to a maker."""


def _wrong_kind(joint: Joint, fastener: Fastener) -> Finding:
    return Finding(
        code="fastener-wrong-kind",
        severity=Severity.ERROR,
        text=f"Joint '{joint.id}' is a {joint.kind} but '{fastener.id}' is a {fastener.kind}.",
        remedy=f'Write kind = "{fastener.kind}", or name a {joint.kind} as its fastener.',
        about=(joint.id,),
    )


_Wrong = dict[Hole, list[str]]
"""Holes with the ids of the joints that need others."""


def _wrong_sizes(part: Part, fastener: Fastener, wrong: _Wrong) -> Finding:
    """Return one finding for all holes of a part made for another fastener, the worst first."""
    holes = sorted(wrong, key=lambda hole: -abs(hole.diameter_mm - fastener.hole_mm))
    hole = holes[0]
    off_mm = hole.diameter_mm - fastener.hole_mm
    if len(wrong) == 1:
        what = "Slot" if hole.travel_mm > 0 else "Hole"
        text = (
            f"{what} '{hole.id}' in {part.name} is {hole.diameter_mm:.1f} mm wide, "
            f"{abs(off_mm):.1f} mm {'looser' if off_mm > 0 else 'tighter'} than {fastener.name} "
            "needs."
        )
    else:
        words = [f"'{each.id}' {each.diameter_mm:.1f} mm" for each in holes]
        text = (
            f"{len(wrong)} holes in {part.name} are not as wide as {fastener.name} needs, "
            f"{fastener.hole_mm:.1f} mm: {listed(words)}."
        )
    it = "it" if len(wrong) == 1 else "them"
    joints = dict.fromkeys(joint for hole in holes for joint in wrong[hole])
    return Finding(
        code="hole-wrong-size",
        severity=Severity.WARNING,
        text=text,
        remedy=f"Draw {it} {fastener.hole_mm:.1f} mm wide, or choose another fastener.",
        about=(part.id, *(each.id for each in holes), *joints),
    )


def _hole_sizes(pattern: Pattern, joint: Joint, fastener: Fastener) -> Iterator[Hole]:
    for hole in map(pattern.hole, dict.fromkeys(joint.stack)):
        # Of a slot that a joint slides in, the diameter is the width.
        if abs(hole.diameter_mm - fastener.hole_mm) > HOLE_OFF_MM:
            yield hole


def _who(pattern: Pattern, joints: list[str]) -> str:
    """Name joints and what they hold, as far as a sentence bears it."""
    parts = dict.fromkeys(p for joint in joints for p in pattern.stack_parts(joint))
    names = listed([pattern.part(part).name for part in parts], named=_NAMED, last=", ")
    if len(joints) == 1:
        return f"Joint '{joints[0]}' ({names})"
    ids = listed(quoted(joints), named=_NAMED, last=", ")
    return f"{len(joints)} joints ({ids}; in {names})"


def _stack_words(stack: Stack) -> str:
    washer = f" with {stack.washer_mm:g} mm of washers" if stack.washer_mm else ""
    pinched = f"{stack.pinched_mm():.1f} mm pinched"
    return f"the stack is {stack.most_mm:.1f} mm{washer}, {pinched}"


def _no_post(who: str, stack: Stack, fastener: Fastener, joints: list[str]) -> Finding:
    least_mm, most_mm = stack.window_mm(fastener)
    on_sale = ", ".join(f"{length:g}" for length in fastener.lengths_mm)
    return Finding(
        code="no-post-length",
        severity=Severity.WARNING,
        text=(
            f"{who}: {_stack_words(stack)}; {fastener.name} needs a post of {least_mm:.1f} to "
            f"{most_mm:.1f} mm; posts on sale {on_sale} mm."
        ),
        remedy=_mend(stack, fastener),
        about=tuple(joints),
    )


def _mend(stack: Stack, fastener: Fastener) -> str:
    """Say what would make the next longer post fit, or the longest where the stack is too thick."""
    least_mm, most_mm = stack.window_mm(fastener)
    longer = [length for length in fastener.lengths_mm if length > most_mm]
    if longer:
        washer_mm = min(longer) - (least_mm + most_mm) / 2
        return (
            f"Add {washer_mm:.1f} mm of washers (washer_mm) and the {min(longer):g} mm post fits, "
            "skive a layer, or choose another fastener."
        )
    off_mm = ceil(10 * (least_mm - max(fastener.lengths_mm)) / pinched_mm(1.0)) / 10
    return f"Skive {off_mm:.1f} mm off the layers, or choose another fastener."


def _too_long(
    who: str, stack: Stack, fastener: Fastener, length_mm: float, joints: list[str]
) -> Finding:
    _, most_mm = stack.thin_window_mm(fastener)
    shorter = choose_length(stack.least_mm, fastener, washer_mm=stack.washer_mm)
    thin = f"a {shorter:g} mm post" if shorter else "no post on sale without a washer"
    return Finding(
        code="measure-before-buying",
        severity=Severity.NOTE,
        text=(
            f"{who}: the {length_mm:g} mm post of {fastener.name} is for the upper end of the "
            f"leather, {stack.most_mm:.1f} mm; at the lower end, {stack.least_mm:.1f} mm, it is "
            f"{length_mm - most_mm:.1f} mm too long, and {thin} fits."
        ),
        remedy="Measure the stack before you buy the posts.",
        about=tuple(joints),
    )


def stack_findings(pattern: Pattern, shelf: Shelf) -> Iterator[Finding]:
    """Yield joints whose fastener is of another kind, needs another hole, or has no post for them.

    Posts are chosen for the upper end of leather sold as a range. Joints with the same stack and
    fastener share one finding about their posts.
    """
    alike: dict[tuple[str, Stack], list[str]] = defaultdict(list)
    wrong: dict[tuple[str, str], _Wrong] = defaultdict(dict)
    for joint in pattern.joints:
        fastener = shelf.fastener(joint.fastener)
        if fastener is None:
            continue
        if fastener.kind != joint.kind:
            yield _wrong_kind(joint, fastener)
        if joint.kind in POSTED:
            for hole in _hole_sizes(pattern, joint, fastener):
                wrong[hole.part, fastener.id].setdefault(hole, []).append(joint.id)
            alike[fastener.id, joint_stack(pattern, joint)].append(joint.id)
    by_id = {fastener.id: fastener for fastener in shelf.fasteners}
    for (part_id, fastener_id), holes in wrong.items():
        yield _wrong_sizes(pattern.part(part_id), by_id[fastener_id], holes)
    for (fastener_id, stack), joints in alike.items():
        yield from _posts(pattern, stack, by_id[fastener_id], joints)


def _posts(
    pattern: Pattern, stack: Stack, fastener: Fastener, joints: list[str]
) -> Iterator[Finding]:
    length_mm = stack.post_mm(fastener)
    if length_mm is None:
        yield _no_post(_who(pattern, joints), stack, fastener, joints)
    elif length_mm > stack.thin_window_mm(fastener)[1] + WORTH_TELLING_MM:
        yield _too_long(_who(pattern, joints), stack, fastener, length_mm, joints)
