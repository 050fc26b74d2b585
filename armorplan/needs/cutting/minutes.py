"""Minutes of cutting, by hand and on a machine, from the durations catalogue."""

from armorplan.geometry.areas import edge_length_mm
from armorplan.kernel.units import MM_PER_CM
from armorplan.pattern.choosing import cut_by_machine, time_factor
from armorplan.pattern.parts import Part
from armorplan.steps.model import StepKind
from armorplan.steps.scene import BY_MACHINE, Scene
from armorplan.workshop.shelf import Duration


def hand_min(scene: Scene, part: Part, openings: int) -> float:
    """Return minutes with knife and punch for one step of cutting a part, all its copies in it.

    Args:
        scene: the build.
        part: what is cut.
        openings: holes and slots in one of it that are punched.
    """
    cut = _entry(scene, StepKind.CUT.value)
    edge_cm = part.count * edge_length_mm(part) / MM_PER_CM
    minutes = cut.fixed_min + cut.per_part_min * part.count + cut.per_cm_min * edge_cm
    minutes *= 1.0 if cut_by_machine(scene.assembly.pattern) else _factor(scene, StepKind.CUT)
    if not openings:
        return minutes
    punch = _entry(scene, StepKind.PUNCH.value)
    punching = punch.fixed_min + punch.per_hole_min * openings * part.count
    return minutes + punching * _factor(scene, StepKind.PUNCH)


def machine_min(scene: Scene, part: Part, cut_mm: float) -> float:
    """Return minutes on a machine for all copies of a part, without setting up.

    Args:
        scene: the build.
        part: what is cut.
        cut_mm: length of every cut in one of it.
    """
    entry = _entry(scene, BY_MACHINE)
    minutes = (entry.per_part_min + entry.per_cm_min * cut_mm / MM_PER_CM) * part.count
    return minutes * _machine_factor(scene)


def set_up_min(scene: Scene) -> float:
    """Return minutes of setting a machine up for one bed."""
    return _entry(scene, BY_MACHINE).fixed_min * _machine_factor(scene)


def _entry(scene: Scene, kind: str) -> Duration:
    known = (entry for entry in scene.shelf.durations if entry.kind == kind)
    return next(known, Duration(kind=kind))


def _factor(scene: Scene, kind: StepKind) -> float:
    return time_factor(scene.assembly.pattern, kind.value)


def _machine_factor(scene: Scene) -> float:
    """Return what the chosen options make of cutting, where they have it done on a machine."""
    return _factor(scene, StepKind.CUT) if cut_by_machine(scene.assembly.pattern) else 1.0
