"""Steps on flat, dry leather: print, mock-up, cutting, bevelling, punching, strap ends."""

from collections import Counter
from collections.abc import Iterable, Iterator

from armorplan.pattern.parts import Hole, PartKind, Slot
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import part_name, piece_name
from armorplan.steps.scene import Group


def paper_steps(group: Group, parts: tuple[str, ...]) -> Iterator[Step]:
    """Yield the print to measure and the mock-up to try: once for a piece on each side."""
    scene = group.scene
    name = piece_name(scene.assembly, group.piece, group.side)
    yield group.hand_step(
        StepKind.MEASURE,
        group.piece,
        f"Measure the paper print of {name}",
        parts=parts,
        minutes=scene.reckon(StepKind.MEASURE, parts=len(parts)),
        detail="Lay a ruler on a known length: what reads wrong on paper is cut wrong in leather.",
    )
    yield group.hand_step(
        StepKind.MOCK_UP,
        group.piece,
        f"Try a card mock-up of {name}",
        parts=parts,
        minutes=scene.reckon(StepKind.MOCK_UP, parts=len(parts)),
        detail="Over the clothes and padding to be worn; bend fully, look for pinch and gap.",
    )


def cutting_steps(group: Group, parts: tuple[str, ...]) -> Iterator[Step]:
    """Yield cut, bevel and punch for each part."""
    scene = group.scene
    for part_id in parts:
        part, name = scene.assembly.part(part_id).part, part_name(scene.assembly, part_id)
        edge_cm = scene.edge_cm((part_id,))
        yield group.hand_step(
            StepKind.CUT,
            part_id,
            f"Cut {name}",
            parts=(part_id,),
            minutes=scene.reckon(StepKind.CUT, parts=1, cm=edge_cm),
            detail=f"{part.thickness_mm:.1f} mm leather, {edge_cm:.0f} cm of edge.",
        )
        if part.bevelled:
            yield group.hand_step(
                StepKind.BEVEL,
                part_id,
                f"Bevel the edges of {name}",
                parts=(part_id,),
                minutes=scene.reckon(StepKind.BEVEL, parts=1, cm=edge_cm),
            )
        now = [hole for hole in part.holes if not scene.waits_for_fit(hole.id)]
        if now or part.slots:
            yield group.hand_step(
                StepKind.PUNCH,
                part_id,
                f"Punch {_counted(len(now), len(part.slots))} in {name}",
                parts=(part_id,),
                minutes=scene.reckon(StepKind.PUNCH, holes=len(now) + len(part.slots)),
                detail=_sizes(now, part.slots),
            )


def _counted(holes: int, slots: int) -> str:
    words = [f"{holes} {'hole' if holes == 1 else 'holes'}"] if holes else []
    words += [f"{slots} {'slot' if slots == 1 else 'slots'}"] if slots else []
    return " and ".join(words)


def _sizes(holes: Iterable[Hole], slots: Iterable[Slot]) -> str:
    """Return how many of which size: ``7 of 4 mm; slots of 16 × 3.5 mm``."""
    counts = Counter(hole.diameter_mm for hole in holes)
    words = [f"{count} of {size:g} mm" for size, count in sorted(counts.items())]
    words += [f"a slot of {slot.length_mm:.0f} × {slot.width_mm:.1f} mm" for slot in slots]
    return f"{'; '.join(words)}."


def strap_steps(group: Group, parts: tuple[str, ...]) -> Iterator[Step]:
    """Yield the preparing of each strap, so that it is ready when it is wanted."""
    scene = group.scene
    for part_id in parts:
        if scene.assembly.part(part_id).part.kind is PartKind.STRAP:
            yield group.hand_step(
                StepKind.PREPARE_STRAP,
                part_id,
                f"Prepare {part_name(scene.assembly, part_id)}",
                parts=(part_id,),
                minutes=scene.reckon(StepKind.PREPARE_STRAP, parts=1),
                detail="Skive the ends, round the tip, check the length against the wearer's girth.",
            )
