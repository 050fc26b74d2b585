"""What exercises call a step: as something that a person does, or lets happen."""

from armorplan.steps.drying_step import DRIED_AS
from armorplan.steps.model import Step, StepKind, Work

_LET = {StepKind.CURE: "cure", StepKind.DRIP: "drip"}
_MADE_OF_IT = "Dry "


def step_title(work: Work, step: Step) -> str:
    """Return a step's title; of what time alone does, that one lets it: ``Let dry: Light oil``."""
    if step.attended or step.after is None:
        return step.title
    wet = work.step(step.after)
    if wet.kind is StepKind.OWN:
        return f"Let stand: {wet.title}"
    if step.kind is StepKind.DRY and wet.kind in DRIED_AS:
        return f"Let dry: {step.title.removeprefix(_MADE_OF_IT)}"
    return f"Let {_LET.get(step.kind, 'dry')}: {_head(wet)}"


def _head(wet: Step) -> str:
    """Return a wet step's title without the parts it is put on."""
    return wet.title.split(":", maxsplit=1)[0]
