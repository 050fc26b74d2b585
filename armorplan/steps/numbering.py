"""The numbering of parts that look alike, so that they are not mixed up at the bench."""

from collections.abc import Iterator

from armorplan.assembly.model import Side
from armorplan.geometry.alike.likeness import LookAlike
from armorplan.geometry.alike.mark_spots import MarkSpot, mark_spot
from armorplan.pattern.pattern import Pattern
from armorplan.steps.model import Step, StepKind
from armorplan.steps.scene import Group

_TOLD = 3
"""So many pairs are told with their difference; the rest are counted."""


def numbering_steps(group: Group) -> Iterator[Step]:
    """Yield the numbering of a piece's parts that are alike but not the same.

    Parts that nothing tells apart may be mixed up without harm; those of one shape and two hands
    may not.
    """
    scene, pattern = group.scene, group.scene.assembly.pattern
    here = tuple(scene.assembly.part(part).part.id for part in group.parts)
    alike = [a for a in scene.look_alikes(here) if not _same(a)]
    mixed_up = {part for a in alike for part in (a.first, a.second)}
    parts = tuple(part for part in group.parts if scene.assembly.part(part).part.id in mixed_up)
    if not parts:
        return
    yield group.hand_step(
        StepKind.NUMBER,
        group.piece,
        f"Number the look-alike parts of {group.name}",
        parts=parts,
        minutes=scene.reckon(StepKind.NUMBER, parts=len(parts)),
        detail=" ".join(
            (*_difference_words(pattern, alike), _how(group.side), *_covered_words(pattern, alike))
        ),
    )


def _how(side: Side) -> str:
    what = "number" if side is Side.SINGLE else "number and its side"
    return f"Stamp the {what} into the flesh side: a pen's mark is gone once it is dyed."


def _same(alike: LookAlike) -> bool:
    return alike.is_twin and not alike.mirrored


def _difference_words(pattern: Pattern, alike: list[LookAlike]) -> Iterator[str]:
    for pair in alike[:_TOLD]:
        who = f"{pattern.part(pair.first).name} and {pattern.part(pair.second).name}"
        told = f"differ by {pair.difference_mm:.1f} mm"
        if pair.is_twin:
            told = "mirror each other"
        elif pair.by_holes:
            told = f"differ only in their holes, {pair.difference_words}"
        yield f"{who[:1].upper()}{who[1:]} {told}."
    if len(alike) > _TOLD:
        yield f"{len(alike) - _TOLD} more pairs are as alike."


def _covered_words(pattern: Pattern, alike: list[LookAlike]) -> Iterator[str]:
    """Say where dots may be punched that another part covers, for the pairs that are told."""
    parts = dict.fromkeys(part for a in alike[:_TOLD] for part in (a.first, a.second))
    found = [spot for part in parts if (spot := mark_spot(pattern, part)) is not None]
    if not found:
        return
    yield "Or punch one dot and two dots where they will be covered:"
    told = [
        f"{pattern.part(spot.part).name} {_at(spot)} (under {pattern.part(spot.cover).name})"
        for spot in found
    ]
    yield f"{'; '.join(told)}."


def _at(spot: MarkSpot) -> str:
    holes = [f"{far_mm:.0f} mm from hole {hole}" for hole, far_mm in spot.near]
    return ", ".join((*holes, f"{spot.edge_mm:.0f} mm from the edge"))
