"""Trays: steps worked in one go; their titles and their state in one word."""

from collections.abc import Iterable

from armorplan.app.derived import Derived
from armorplan.app.rows import BenchState
from armorplan.assembly.model import SidedSeam
from armorplan.steps.drying_step import DRIED_AS
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import kind_slug, piece_name

_TITLES = {
    StepKind.CUT: "Cut",
    StepKind.BEVEL: "Bevel edges",
    StepKind.SKIVE: "Skive overlaps",
    StepKind.PUNCH: "Punch holes",
    StepKind.TOOL: "Tool",
    StepKind.FORM: "Shape while damp",
    StepKind.FORM_DRY: "Curve by hand",
    StepKind.BURNISH: "Burnish edges",
    StepKind.MASK: "Mask glue faces",
    StepKind.ROUGHEN: "Roughen glue faces",
    StepKind.MOUNT: "Put on hardware",
    StepKind.CHECK: "Look for",
    StepKind.OWN: "Your own steps",
    StepKind.MEND: "Way back",
    StepKind.PREPARE_STRAP: "Prepare straps",
    StepKind.THREAD: "Thread",
    StepKind.PUNCH_MARKED: "Punch marked holes",
    StepKind.RIVET: "Rivets outside the seams",
    StepKind.SCREW: "Screw posts",
    StepKind.GLUE: "Glue",
    StepKind.STITCH: "Stitch",
    StepKind.LACE: "Lace",
}
_AFTER_WET = {
    StepKind.DRIP: "Dripping",
    StepKind.WATCH: "Turn and wipe",
    StepKind.DRY: "Drying",
    StepKind.CURE: "Cure",
}
_LOUDEST = (
    BenchState.RUNNING,
    BenchState.DRYING,
    BenchState.PAUSED,
    BenchState.MISSED,
    BenchState.READY,
    BenchState.WAITING,
    BenchState.EARLY,
    BenchState.DONE,
)


def is_seam(derived: Derived, step: Step) -> bool:
    """Tell whether a step is of a tray that holds the joints of one seam."""
    return _seam(derived, step) is not None


def _seam(derived: Derived, step: Step) -> SidedSeam | None:
    seam = derived.assembly.seam_of(step.joints[0]) if step.joints else None
    return seam if seam is not None and step.tray.endswith(f"/seam:{seam.id}") else None


def tray_title(derived: Derived, steps: tuple[Step, ...]) -> str:
    """Return what a tray of steps is called."""
    first = steps[0]
    seam = _seam(derived, first)
    if seam is not None:
        return f"{seam.seam.name}: {len(steps)} joints"
    if first.serves is not None:
        return f"Case for {kind_slug(derived.work.step(first.serves).kind)}ing"
    if first.after is not None and first.treatment is None:
        is_mend = derived.work.step(first.after).kind is StepKind.MEND
        return "Waits of the way back" if is_mend else "Waits after your own steps"
    is_dry = first.after is not None and first.kind is StepKind.DRY
    dried_as = DRIED_AS.get(derived.work.step(first.after or "").kind) if is_dry else None
    if dried_as is not None:
        return f"Dry the {dried_as} leather"
    if first.treatment is not None:
        entry = derived.shelf.treatment(first.treatment)
        name = entry.name if entry else first.treatment
        what = _AFTER_WET.get(first.kind, first.kind.capitalize())
        return f"{what}: {name}"
    return _TITLES.get(first.kind, first.kind.capitalize())


def heading_title(derived: Derived, step: Step) -> str:
    """Return the heading of the piece a step belongs to."""
    return piece_name(derived.assembly, step.piece, step.side)


def summed_state(states: Iterable[BenchState]) -> BenchState:
    """Return the state that speaks for several: whatever runs, else what is ready, and so on."""
    found = set(states)
    return next((state for state in _LOUDEST if state in found), BenchState.WAITING)
