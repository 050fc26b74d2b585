"""What a mistake is about: parts, holes and the joints through them, in a build."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from armorplan.assembly.model import Assembly, SidedJoint
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.steps.model import StepKind

UNKNOWN_MM = 3.0
"""How far a hole or row is taken to be out where nobody says (common practice, no source)."""
SidedHole = tuple[str, str]


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
    parts = tuple(_part(assembly, one) for one in mistake.about)
    if not parts:
        raise ArmorplanError(f"{mistake.kind.value.capitalize()}: name the part.")
    return Amiss(id=amiss_id, mistake=mistake, parts=parts, mm=mistake.mm)


def _part(assembly: Assembly, name: str) -> str:
    if any(part.id == name for part in assembly.parts):
        return name
    alike = [part.id for part in assembly.parts if part.part.id == name]
    if alike:
        raise ArmorplanError(f"'{name}' is made on both sides. Name which: {' or '.join(alike)}.")
    raise ArmorplanError(f"No part of this build is called '{name}'.")


def _holes(scene: RecoveryScene, mistake: Mistake) -> Iterator[SidedHole]:
    if not mistake.about:
        raise ArmorplanError(f"{mistake.kind.value.capitalize()}: name the hole, joint or row.")
    assembly = scene.facts.assembly
    wanted = {part.id for part in assembly.parts} & set(mistake.about)
    named = [one for one in mistake.about if one not in wanted]
    for one in named:
        joints = _joints(assembly, one)
        found = tuple(_of_joints(scene, joints, wanted) if joints else _hole(assembly, one))
        if not found:
            raise ArmorplanError(
                f"No hole, joint or row of this build is called '{one}'. Write a hole as PART/HOLE."
            )
        yield from found


def _joints(assembly: Assembly, name: str) -> tuple[SidedJoint, ...]:
    seam = next((s for s in assembly.seams if s.id == name), None)
    ids = seam.joints if seam else (name,)
    return tuple(joint for joint in assembly.joints if joint.id in ids)


def _of_joints(
    scene: RecoveryScene, joints: tuple[SidedJoint, ...], wanted: Collection[str]
) -> Iterator[SidedHole]:
    """Yield the holes of joints in the part that is wrong: the one named, else the smallest."""
    shared = set.intersection(*(set(joint.parts) for joint in joints))
    parts = sorted(shared & set(wanted) or shared or set(joints[0].parts))
    part = min(parts, key=lambda one: (_area(scene, one), one))
    for joint in joints:
        yield from ((p, hole) for p, hole in joint.stack if p == part and hole)


def _area(scene: RecoveryScene, part: str) -> float:
    from armorplan.geometry.areas import outline_dm2

    return outline_dm2(scene.facts.assembly.part(part).part)


def _hole(assembly: Assembly, name: str) -> Iterator[SidedHole]:
    part, _, hole = name.rpartition("/")
    found = [
        (each.id, drilled.id)
        for each in assembly.parts
        for drilled in each.part.holes
        if drilled.id == hole and part in ("", each.id)
    ]
    if len(found) > 1:
        told = " or ".join(f"{p}/{h}" for p, h in found)
        raise ArmorplanError(f"'{name}' is made on both sides. Name which: {told}.")
    yield from found


def implied_by(scene: RecoveryScene, found: tuple[Amiss, ...]) -> frozenset[str]:
    """Return the steps that surely stand where something is wrong with cut leather."""
    stands = set[str]()
    for amiss in found:
        kinds = [StepKind.CUT, *([StepKind.PUNCH] if amiss.holes else [])]
        for part in amiss.parts:
            stands.update(s.id for s in scene.facts.work.touching(part, *kinds))
    return frozenset(stands)
