"""The drying of a wet step, as a step that time alone does."""

from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import names
from armorplan.steps.scene import Group
from armorplan.workshop.shelf import TreatmentEntry

DRIED_AS = {
    StepKind.TOOL: "tooled",
    StepKind.FORM: "damp-formed",
    StepKind.HARDEN: "hardened",
}
"""What leather is called that dries in a new shape or state."""


def _title(group: Group, step: Step) -> str:
    if step.kind in DRIED_AS:
        return f"Dry the {DRIED_AS[step.kind]} {names(group.scene.assembly, step.parts)}"
    return f"Drying after '{step.title.split(':')[0]}'"


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
        title=_title(group, step),
        tray=group.tray(f"{StepKind.DRY}:{step.kind if step.kind in DRIED_AS else entry.id}"),
        parts=step.parts,
        minutes=entry.handle_min if minutes is None else minutes,
        attended=False,
        after=step.id,
        treatment=entry.id,
        detail=f"Times of {entry.name} at 23 °C and 50 %, carried to this shop's air.",
        cautions=entry.cautions,
    )


def waiting_step(group: Group, step: Step, minutes: int) -> Step:
    """Return the wait behind a step of the maker's own, in minutes that no air changes."""
    subject = step.id.rsplit("/", 2)
    return Step(
        id=group.id(StepKind.DRY, f"{subject[-1]}.{subject[-2]}"),
        kind=StepKind.DRY,
        piece=group.piece,
        side=group.side,
        title=f"Wait after '{step.title}'",
        tray=group.tray(f"{StepKind.DRY}:{StepKind.OWN}"),
        parts=step.parts,
        minutes=minutes,
        attended=False,
        after=step.id,
        detail="As long as the pattern says.",
        cautions=step.cautions,
    )
