"""Steps on flat, dry leather: lay out, cut, bevel, skive, punch."""

from collections import Counter
from collections.abc import Iterable, Iterator

from armorplan.assembly.model import Side
from armorplan.pattern.parts import Hole, Part, PartKind, Slot
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import part_name
from armorplan.steps.scene import Group
from armorplan.steps.wearing_words import girth_words

_STIFF = frozenset((PartKind.PLATE, PartKind.LAME, PartKind.COP))


def laying_steps(group: Group) -> Iterator[Step]:
    """Yield the laying out of a piece on the hide."""
    scene = group.scene
    parts = [scene.assembly.part(p).part for p in group.parts]
    yield group.hand_step(
        StepKind.LAY_OUT,
        group.piece,
        f"Lay out {group.name} on the hide",
        parts=group.parts,
        minutes=scene.reckon(StepKind.LAY_OUT, parts=scene.count(group.parts)),
        detail=" ".join(_laying_words(parts, group.side)),
    )


def _laying_words(parts: list[Part], side: Side) -> Iterator[str]:
    kinds = {part.kind for part in parts}
    if kinds & _STIFF:
        yield "Plates and lames from the back, none from the belly; keep clear of brands and scars."
    if PartKind.STRAP in kinds:
        yield "Straps run along the backbone, where leather stretches least."
    if side is Side.RIGHT:
        yield "Turn the prints over: the right side mirrors the left."
        copied = [part.name for part in parts if part.copied]
        if copied:
            yield f"Not so {', '.join(copied)}: on the right it is the same as on the left."
    if side is not Side.SINGLE:
        yield "Cut both sides from one hide, so that they take colour alike."
    inward = [part.name for part in parts if part.drawn_from_inside]
    if inward:
        yield f"Drawn as seen from inside: {', '.join(inward)}."


def cutting_steps(group: Group) -> Iterator[Step]:
    """Yield cut, bevel, skive and punch for each part."""
    for part_id in group.parts:
        part = group.scene.assembly.part(part_id).part
        yield _cut(group, part_id, part)
        if part.bevelled:
            yield _edge_step(group, StepKind.BEVEL, part_id, "Bevel the edges of")
        if part.skived:
            yield group.hand_step(
                StepKind.SKIVE,
                part_id,
                f"Skive the overlaps of {part_name(group.scene.assembly, part_id)}",
                parts=(part_id,),
                minutes=group.scene.reckon(StepKind.SKIVE, parts=part.count),
                detail="Thin towards the edge, on the flesh side, while the leather is dry.",
            )
        yield from _punch(group, part_id, part)


def burnishing_steps(group: Group) -> Iterator[Step]:
    """Yield the burnishing of edges, where it is asked for."""
    for part_id in group.parts:
        if group.scene.assembly.part(part_id).part.burnished:
            yield _edge_step(group, StepKind.BURNISH, part_id, "Burnish the edges of")


def _edge_step(group: Group, kind: StepKind, part_id: str, verb: str) -> Step:
    scene = group.scene
    return group.hand_step(
        kind,
        part_id,
        f"{verb} {part_name(scene.assembly, part_id)}",
        parts=(part_id,),
        minutes=scene.reckon(kind, parts=scene.count((part_id,)), cm=scene.edge_cm((part_id,))),
    )


def _cut(group: Group, part_id: str, part: Part) -> Step:
    scene, edge_cm = group.scene, group.scene.edge_cm((part_id,))
    thickness = f"{part.thickness_mm:.1f}"
    if part.least_mm is not None:
        thickness = f"{part.least_mm:.1f}–{thickness}"
    times = f", {part.count} times" if part.count > 1 else ""
    return group.hand_step(
        StepKind.CUT,
        part_id,
        f"Cut {part_name(scene.assembly, part_id)}{times}",
        parts=(part_id,),
        minutes=scene.reckon(StepKind.CUT, parts=part.count, cm=edge_cm),
        detail=f"{thickness} mm leather, {edge_cm:.0f} cm of edge.",
    )


def _punch(group: Group, part_id: str, part: Part) -> Iterator[Step]:
    scene = group.scene
    now = [hole for hole in scene.made_in(part_id) if not scene.waits_for_fit(hole.id)]
    if not now and not part.slots:
        return
    count = len(now) + len(part.slots)
    long = [hole for hole in now if hole.travel_mm]
    counted = _counted(len(now) - len(long), len(part.slots) + len(long))
    times = f", {part.count} times" if part.count > 1 else ""
    yield group.hand_step(
        StepKind.PUNCH,
        part_id,
        f"Punch {counted} in {part_name(group.scene.assembly, part_id)}{times}",
        parts=(part_id,),
        minutes=group.scene.reckon(StepKind.PUNCH, holes=count * part.count),
        detail=_sizes(now, part.slots),
    )


def _counted(holes: int, slots: int) -> str:
    words = [f"{holes} {'hole' if holes == 1 else 'holes'}"] if holes else []
    words += [f"{slots} {'slot' if slots == 1 else 'slots'}"] if slots else []
    return " and ".join(words)


def _sizes(holes: Iterable[Hole], slots: Iterable[Slot]) -> str:
    """Return how many of which size: ``7 of 4 mm; slots of 16 × 3.5 mm``."""
    every = list(holes)
    counts = Counter(hole.diameter_mm for hole in every if not hole.travel_mm)
    words = [f"{count} of {size:g} mm" for size, count in sorted(counts.items())]
    words += [f"a slot of {slot.length_mm:.0f} × {slot.width_mm:.1f} mm" for slot in slots]
    words += [
        f"a slot of {hole.travel_mm + hole.diameter_mm:.0f} × {hole.diameter_mm:.1f} mm to slide in"
        for hole in every
        if hole.travel_mm
    ]
    return f"{'; '.join(words)}."


def strap_steps(group: Group) -> Iterator[Step]:
    """Yield the preparing of each strap, so that it is ready when it is wanted."""
    scene = group.scene
    for part_id in group.parts:
        part = scene.assembly.part(part_id).part
        if part.kind is PartKind.STRAP:
            closes = tuple(girth_words(scene.assembly.pattern, (part.id,)))
            length = "Skive the ends and round the tip."
            if closes:
                length = (
                    "Skive the ends, round the tip, check the length against the wearer's girth."
                )
            yield group.hand_step(
                StepKind.PREPARE_STRAP,
                part_id,
                f"Prepare {part_name(scene.assembly, part_id)}",
                parts=(part_id,),
                minutes=scene.reckon(StepKind.PREPARE_STRAP, parts=part.count),
                detail=" ".join((length, *closes)),
            )
