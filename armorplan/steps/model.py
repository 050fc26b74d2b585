"""A step: one thing a person does, or time alone does."""

from dataclasses import dataclass, field
from enum import StrEnum

from armorplan.assembly.model import Side
from armorplan.drying.body import Body
from armorplan.drying.spans import Stage


class StepKind(StrEnum):
    """Kinds of step, in the order the work usually passes through them."""

    MEASURE = "measure print"
    MOCK_UP = "mock-up"
    LAY_OUT = "lay out"
    CUT = "cut"
    FREE = "cut free"
    CHAR = "take off char"
    NUMBER = "number"
    BEVEL = "bevel"
    SKIVE = "skive"
    PUNCH = "punch"
    PREPARE_STRAP = "prepare strap"
    CASE = "case"
    TOOL = "tool"
    FORM = "form"
    HARDEN = "harden"
    CLEAN = "clean"
    DYE = "dye"
    MASK = "mask"
    OIL = "oil"
    BURNISH = "burnish"
    FINISH = "finish"
    DRIP = "drip"
    WATCH = "watch"
    DRY = "dry"
    CURE = "cure"
    ROUGHEN = "roughen"
    MOUNT = "put on"
    THREAD = "thread"
    DRY_FIT = "dry-fit"
    CHECK = "check"
    MARK = "mark on the wearer"
    PUNCH_MARKED = "punch marked holes"
    GLUE = "glue"
    STITCH = "stitch"
    RIVET = "rivet"
    SCREW = "screw"
    LACE = "lace"
    MEND = "mend"
    OWN = "own"
    FORM_DRY = "curve by hand"
    FIT = "fit"
    INSPECT = "inspect"
    PACK = "pack"


STEP_RANK = {kind: rank for rank, kind in enumerate(StepKind)}
"""Where a kind usually stands; used only to choose among orders that all hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drying:
    """What dries in a step, and how far: what a room can be asked for its minutes.

    Attributes:
        treatment: id of what made it wet.
        body: the thickest of the step's parts: when that is dry, all of them are.
        stage: where the step ends; for ``case``, when the leather is ready to shape.
        thin: the thinnest of them, which is too dry first; ``None``: all are alike.
    """

    treatment: str
    body: Body
    stage: Stage
    thin: Body | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of a build.

    Attributes:
        id: ``build/piece/side/kind/subjects``; the same for ever, never a number in a list.
        title: what to do, with the part or joint names in it.
        parts: sided part ids it touches.
        joints: sided joint ids it sets (or dry-fits).
        tray: id of the group it is worked with (all cuts of a piece; a seam); one key ticks it.
        minutes: hands-on minutes for a step a person does; else waiting minutes, of a usual day in
            this room. What sets a joint is derived with those of the flat bench; the chosen order
            gives it its own.
        attended: a person does it; ``False`` where time alone does.
        after: the id of the wet step that ``dry``, ``cure``, ``drip`` and ``watch`` belong to.
        serves: for ``case``, the id of the step the leather is damped for.
        batch_key: what may share a bath: same treatment, colour and coat.
        cautions: the usual cautions; labels, local codes and licensed practice rule.
        fastener: catalogue id, for steps that set one.
        drying: what dries, where the air of the hour says how long: for ``dry``, ``cure`` and
            ``case``. Dripping and the wait behind an own step no air changes.
        every_min: for ``watch``, once in so many minutes.
    """

    id: str
    kind: StepKind
    piece: str
    side: Side
    title: str
    tray: str
    parts: tuple[str, ...]
    joints: tuple[str, ...] = ()
    minutes: int
    attended: bool = True
    after: str | None = None
    serves: str | None = None
    treatment: str | None = None
    coat: int = 0
    batch_key: str | None = None
    tool: str = ""
    fastener: str | None = None
    detail: str = ""
    cautions: tuple[str, ...] = ()
    drying: Drying | None = None
    every_min: int = 0


SETS_JOINT = frozenset(
    (StepKind.RIVET, StepKind.SCREW, StepKind.GLUE, StepKind.STITCH, StepKind.LACE)
)
"""Kinds that set a joint for good, or until it is unscrewed or untied."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """All steps of a build in the pattern's order, with look-ups that cost no search."""

    steps: tuple[Step, ...]
    _by_id: dict[str, Step] = field(init=False, repr=False, compare=False)
    _by_part: dict[str, list[Step]] = field(init=False, repr=False, compare=False)
    _setting: dict[str, Step] = field(init=False, repr=False, compare=False)
    _drying: dict[str, Step] = field(init=False, repr=False, compare=False)
    _follows: dict[str, list[Step]] = field(init=False, repr=False, compare=False)
    _casing: dict[str, Step] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Index the steps once."""
        by_part: dict[str, list[Step]] = {}
        for step in self.steps:
            for part in step.parts:
                by_part.setdefault(part, []).append(step)
        setting = {j: s for s in self.steps if s.kind in SETS_JOINT for j in s.joints}
        drying = {s.after: s for s in self.steps if s.after and s.kind is StepKind.DRY}
        follows: dict[str, list[Step]] = {}
        for step in self.steps:
            if step.after is not None:
                follows.setdefault(step.after, []).append(step)
        object.__setattr__(self, "_by_id", {s.id: s for s in self.steps})
        object.__setattr__(self, "_by_part", by_part)
        object.__setattr__(self, "_setting", setting)
        object.__setattr__(self, "_drying", drying)
        object.__setattr__(self, "_follows", follows)
        casing = {s.serves: s for s in self.steps if s.serves is not None}
        object.__setattr__(self, "_casing", casing)

    def step(self, step_id: str) -> Step:
        """Return a step by id; KeyError where there is none."""
        return self._by_id[step_id]

    def has(self, step_id: str) -> bool:
        """Tell whether there is a step with this id."""
        return step_id in self._by_id

    def sets(self, step: Step) -> tuple[str, ...]:
        """Return the sided joints that a step sets for good, not only tries, in the order it names them."""
        return tuple(joint for joint in step.joints if self._sets(joint, step))

    def _sets(self, joint: str, step: Step) -> bool:
        # By id: the same step may be held with the minutes of the flat bench.
        setting = self._setting.get(joint)
        return setting is not None and setting.id == step.id

    def of_kind(self, *kinds: StepKind) -> tuple[Step, ...]:
        """Return the steps of these kinds, in order."""
        return tuple(s for s in self.steps if s.kind in kinds)

    def touching(self, part_id: str, *kinds: StepKind) -> tuple[Step, ...]:
        """Return the steps that touch a sided part; of these kinds, where any are named."""
        found = self._by_part.get(part_id, [])
        return tuple(s for s in found if not kinds or s.kind in kinds)

    def setting(self, joint_id: str) -> Step | None:
        """Return the step that sets a joint, or ``None``."""
        return self._setting.get(joint_id)

    def casing_for(self, step_id: str) -> Step | None:
        """Return the casing that serves a step, or ``None``."""
        return self._casing.get(step_id)

    def drying_of(self, step_id: str) -> Step | None:
        """Return the drying that follows a wet step, or ``None``."""
        return self._drying.get(step_id)

    def following(self, step_id: str) -> tuple[Step, ...]:
        """Return what begins by itself when a wet step ends: its drying, dripping and cure."""
        return tuple(s for s in self._follows.get(step_id, ()) if not s.attended)
