"""The drying of a wet step, as a step that time alone does."""

from armorplan.steps.model import Step, StepKind
from armorplan.steps.scene import Group
from armorplan.workshop.shelf import TreatmentEntry


def drying_step(group: Group, step: Step, entry: TreatmentEntry, minutes: int | None) -> Step:
    """Return the drying of a wet step, dyed, cased or glued.

    Air too damp to dry keeps the catalogue's time (``minutes`` is ``None`` then).

    That the air is too damp is told as a finding (``steps.deriving``), not hidden here.
    """
    subject = step.id.rsplit("/", 2)
    return Step(
        id=group.id(StepKind.DRY, f"{subject[-1]}.{subject[-2]}"),
        kind=StepKind.DRY,
        piece=group.piece,
        side=group.side,
        title=f"Drying after '{step.title.split(':')[0]}'",
        tray=group.tray(f"{StepKind.DRY}:{entry.id}"),
        parts=step.parts,
        minutes=entry.handle_min if minutes is None else minutes,
        attended=False,
        after=step.id,
        treatment=entry.id,
        detail=f"Times of {entry.name} at 23 °C and 50 %, carried to this shop's air.",
        cautions=entry.cautions,
    )
