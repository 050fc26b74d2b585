"""What a mistake is about: parts, holes and the joints through them, in a build."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from armorplan.assembly.model import Assembly, Side, SidedJoint
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.orders.recovery.named_leather import (
    SidedHole,
    holes_named,
    joint_named,
    no_hole_in,
    not_dyed,
    part_named,
    row_named,
)
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.steps.model import StepKind
from armorplan.steps.naming import lowered, part_name

UNKNOWN_MM = 3.0
"""How far a hole or row is taken to be out where nobody says (common practice, no source)."""
COLOURS = (StepKind.DYE,)
"""What gives leather its colour."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Amiss:
    """One mistake with what it is about looked up.

    Attributes:
        id: its step in the problem: that it is set right.
        parts: sided parts that are wrong; one of them is cut anew, or all.
        holes: (sided part, hole) that are in a wrong place.
        joints: joints through these holes.
        mm: how far they are out, as told or as it is taken.
    """

    id: str
    mistake: Mistake
    parts: tuple[str, ...]
    holes: tuple[SidedHole, ...] = ()
    joints: tuple[SidedJoint, ...] = ()
    mm: float = 0.0


def amiss_of(scene: RecoveryScene, mistakes: tuple[Mistake, ...]) -> tuple[Amiss, ...]:
    """Return the mistakes that are about leather, with what each is about.

    Raises:
        ArmorplanError: nothing in the build has the id, or it is none of the kind that is wanted.
    """
    leather = (m for m in mistakes if m.kind is not MistakeKind.CLOSED)
    return tuple(_amiss(scene, at, mistake) for at, mistake in enumerate(leather, start=1))


def closed_steps(scene: RecoveryScene, mistakes: tuple[Mistake, ...]) -> frozenset[str]:
    """Return the steps that stand though nobody ticked them.

    Raises:
        ArmorplanError: nothing in the build has the id.
    """
    found = set[str]()
    for mistake in mistakes:
        if mistake.kind is MistakeKind.CLOSED:
            for one in mistake.about:
                found.update(steps_named(scene, one))
    return frozenset(found)


def steps_named(scene: RecoveryScene, name: str) -> tuple[str, ...]:
    """Return the steps that a step's id, a sided joint or a sided row stands for.

    Raises:
        ArmorplanError: nothing in the build has the id.
    """
    work, assembly = scene.facts.work, scene.facts.assembly
    if work.has(name):
        return (name,)
    seam = next((s for s in assembly.seams if s.id == name), None)
    joints = seam.joints if seam else (name,)
    found = tuple(step.id for step in map(work.setting, joints) if step)
    if not found:
        raise ArmorplanError(f"No step, joint or row of this build is called '{name}'.")
    return found


def _amiss(scene: RecoveryScene, at: int, mistake: Mistake) -> Amiss:
    assembly = scene.facts.assembly
    amiss_id = f"amiss-{at}-{mistake.kind.slug}"
    if mistake.kind in (MistakeKind.WRONG_HOLE, MistakeKind.ROW_OFF):
        holes = tuple(dict.fromkeys(_holes(scene, mistake)))
        parts = tuple(dict.fromkeys(part for part, _ in holes))
        mine = set(holes)
        joints = tuple(j for j in assembly.joints if mine & set(j.stack))
        mm = mistake.mm or UNKNOWN_MM
        return Amiss(id=amiss_id, mistake=mistake, parts=parts, holes=holes, joints=joints, mm=mm)
    parts = tuple(part_named(assembly, one) for one in mistake.about)
    if not parts:
        raise ArmorplanError(f"{mistake.kind.value.capitalize()}: name the part.")
    for part in parts:
        _can_be(scene, mistake.kind, part)
    return Amiss(id=amiss_id, mistake=mistake, parts=parts, mm=mistake.mm)


def _can_be(scene: RecoveryScene, kind: MistakeKind, part: str) -> None:
    """Refuse what cannot have gone wrong with a part: a colour without dye, a hand without sides."""
    work, assembly = scene.facts.work, scene.facts.assembly
    if kind is MistakeKind.WRONG_COLOUR and not work.touching(part, *COLOURS):
        dyed = (one for step in work.of_kind(*COLOURS) for one in step.parts)
        raise not_dyed(assembly, part, dyed)
    if kind is MistakeKind.TWO_ALIKE and not can_be_of_wrong_hand(assembly, part):
        said = lowered(part_name(assembly, part))
        raise ArmorplanError(
            f"Turned over, {said} is the same: it has no hand, so no two of one hand can be made of it."
        )


def can_be_of_wrong_hand(assembly: Assembly, part: str) -> bool:
    """Tell whether a part is one of a pair, or another when it is turned over."""
    from armorplan.geometry.alike.likeness import has_hand

    sided = assembly.part(part)
    return sided.side is not Side.SINGLE or has_hand(sided.part)


def _holes(scene: RecoveryScene, mistake: Mistake) -> Iterator[SidedHole]:
    if not mistake.about:
        raise ArmorplanError(f"{mistake.kind.value.capitalize()}: name the hole, joint or row.")
    assembly = scene.facts.assembly
    named = [one for one in mistake.about if not _is_part(assembly, one)]
    wanted = set(mistake.about) - set(named)
    for one in named or mistake.about:
        yield from _of_name(scene, mistake.kind, one, wanted if named else set())


def _is_part(assembly: Assembly, name: str) -> bool:
    return any(part.id == name for part in assembly.parts) and not any(
        name in (joint.id, joint.joint.id) for joint in assembly.joints
    )


def _of_name(
    scene: RecoveryScene, kind: MistakeKind, name: str, wanted: Collection[str]
) -> tuple[SidedHole, ...]:
    """Return the holes that a name stands for; of a joint or row those of the part that is wrong."""
    assembly = scene.facts.assembly
    is_row = any(name in (seam.id, seam.seam.id) for seam in assembly.seams)
    if kind is MistakeKind.ROW_OFF or is_row:
        joints = row_named(assembly, name)
    else:
        joint = joint_named(assembly, name)
        if joint is None:
            return holes_named(assembly, name)
        joints = (joint,)
    found = tuple(_of_joints(scene, joints, wanted))
    if not found:
        raise no_hole_in(name, joints[0])
    return found


def _of_joints(
    scene: RecoveryScene, joints: tuple[SidedJoint, ...], wanted: Collection[str]
) -> Iterator[SidedHole]:
    """Yield the holes of joints in the part that is wrong: the one named, else the smallest."""
    drilled = [{part for part, hole in joint.stack if hole} for joint in joints]
    shared = set.intersection(*drilled)
    parts = sorted(shared & set(wanted) or shared or drilled[0])
    if not parts:
        return
    part = min(parts, key=lambda one: (_area(scene, one), one))
    for joint in joints:
        yield from ((p, hole) for p, hole in joint.stack if p == part and hole)


def _area(scene: RecoveryScene, part: str) -> float:
    from armorplan.geometry.areas import outline_dm2

    return outline_dm2(scene.facts.assembly.part(part).part)


def implied_by(
    scene: RecoveryScene, found: tuple[Amiss, ...], done: Collection[str] = ()
) -> frozenset[str]:
    """Return the steps that surely stand where something is wrong with cut leather.

    A wrong colour is seen only on a part that was dyed: its coats stand. What comes before such a
    step is taken as done with it, unless the step is known to stand: then that is known as well.
    """
    stands, held = set[str](), set(done)
    work = scene.facts.work
    for amiss in found:
        kinds = [StepKind.CUT, *([StepKind.PUNCH] if amiss.holes else [])]
        for part in amiss.parts:
            untold = {s.id for s in work.touching(part, *kinds)} - held
            coats = {s.id for s in work.touching(part, *COLOURS)}
            if amiss.mistake.kind is MistakeKind.WRONG_COLOUR and not coats & held:
                untold |= coats
            stands |= scene.standing(untold, left=(), whole=True) if untold else untold
    return frozenset(stands)
