"""The print to measure and the card mock-up to try: once for a pair, whose right is the mirror."""

from collections.abc import Iterator

from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import names
from armorplan.steps.scene import Group


def paper_steps(group: Group) -> Iterator[Step]:
    """Yield the print to measure and the mock-up to try.

    Of a mirrored piece the left is drawn and tried; the right is its mirror, but for parts that are
    made on the right only or are the same on both sides: their print is checked.
    """
    if group.is_mirror:
        yield from _short_check(group)
        return
    scene, parts = group.scene, group.parts
    both = (*parts, *group.mirror_parts)
    mirror = "; the right one is its mirror" if group.mirror_parts else ""
    yield group.hand_step(
        StepKind.MEASURE,
        group.piece,
        f"Measure the paper print of {group.name}{mirror}",
        parts=both,
        minutes=scene.reckon(StepKind.MEASURE, parts=len(parts)),
        detail="Lay a ruler on a known length: what reads wrong on paper is cut wrong in leather.",
    )
    yield group.hand_step(
        StepKind.MOCK_UP,
        group.piece,
        f"Try a card mock-up of {group.name}{mirror}",
        parts=both,
        minutes=scene.reckon(StepKind.MOCK_UP, parts=len(parts)),
        detail="Over the clothes and padding to be worn; bend fully, look for pinch and gap.",
    )


def _short_check(group: Group) -> Iterator[Step]:
    """Yield the check of the prints of what is not the mirror of the left."""
    scene = group.scene
    parts = tuple(p for p in group.parts if scene.is_own_shape(p))
    if parts:
        yield group.hand_step(
            StepKind.MEASURE,
            group.piece,
            f"Check the print of {names(scene.assembly, parts)}",
            parts=parts,
            minutes=scene.reckon(StepKind.MEASURE, parts=len(parts)),
            detail="Not the mirror of the left one: measure it by itself.",
        )
