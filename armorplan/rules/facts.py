"""What rules look at: the assembly, its steps, and the shelf, with the look-ups rules share."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from armorplan.assembly.model import Assembly, Side, SidedHardware, SidedJoint
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.pattern.joining import FormKind, Motion
from armorplan.pattern.parts import PartKind
from armorplan.pattern.wearing import CheckTime
from armorplan.steps.hardware import STUD
from armorplan.steps.model import SETS_JOINT, Step, StepKind, Work
from armorplan.steps.naming import names, part_name, piece_name, plain_subject
from armorplan.steps.windows import window_of
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Shelf

COATS = (StepKind.DYE, StepKind.OIL, StepKind.FINISH)
PAPER = (StepKind.MEASURE, StepKind.MOCK_UP, StepKind.LAY_OUT)
"""What is done before there is leather to handle."""

GIVES_WAY = {
    StepKind.RIVET: "slides under the hammer",
    StepKind.STITCH: "slides under the needle",
    StepKind.FORM_DRY: "lets go where it is bent",
    StepKind.SCREW: "gives way to the hand",
    StepKind.LACE: "gives way to the hand",
}
"""What wet glue does at a kind of step that handles its layers."""

FITTINGS = (PartKind.STRAP, PartKind.KEEPER, PartKind.TRIM)
"""What sits on a plate and is no plate itself."""
_TRIALS = {
    CheckTime.MOCK_UP: StepKind.MOCK_UP,
    CheckTime.DRY_FIT: StepKind.DRY_FIT,
    CheckTime.FIT: StepKind.FIT,
}


def shared(step: Step, parts: Iterable[str]) -> tuple[str, ...]:
    """Return the parts a step touches that are among these."""
    among = frozenset(parts)
    return tuple(part for part in step.parts if part in among)


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """All a rule may know of one build."""

    assembly: Assembly
    work: Work
    shelf: Shelf
    room: Room

    def window_min(self, first: Step, then: Step) -> tuple[int, int | None] | None:
        """Return the earliest and latest minute after ``first`` at which ``then`` may begin.

        Of a usual day in this room; no latest where there is none, or it does not dry there.
        ``None``: the air leaves no window between the two.
        """
        window = window_of(self.work, self.shelf, first.id, then.id)
        entry = self.shelf.treatment(window.treatment) if window else None
        if window is None or entry is None:
            return None
        room = drying_room(self.room)

        def usual_min(stage: Stage | None) -> int | None:
            if stage is None:
                return None
            return room.usual(entry, window.body_at(stage)).likely_min(stage)

        opens, closes = usual_min(window.opens) or 0, usual_min(window.closes)
        # Thick and thin may have their usual start at different hours of a day.
        return opens, None if closes is None else max(opens, closes)

    def watch_over(self, coat: Step) -> Step | None:
        """Return the watch over a dipped coat; left and right may have one for both."""
        return next(
            (
                watch
                for watch in self.work.of_kind(StepKind.WATCH)
                if watch.batch_key == coat.batch_key and set(coat.parts) <= set(watch.parts)
            ),
            None,
        )

    def name(self, part_id: str) -> str:
        """Return a sided part's name in words."""
        return part_name(self.assembly, part_id)

    def names(self, part_ids: tuple[str, ...]) -> str:
        """Return part names in words; a long list as so many parts of its piece."""
        words = names(self.assembly, part_ids)
        if not words.endswith(" parts"):
            return words
        found = [self.assembly.part(part) for part in part_ids]
        owners = dict.fromkeys((sided.part.piece, sided.side) for sided in found)
        called = [piece_name(self.assembly, piece, side) for piece, side in owners]
        return f"{words} of {' and '.join(called)}"

    def joint_steps(self) -> Iterator[tuple[SidedJoint, Step]]:
        """Yield each joint with the step that sets it."""
        for step in self.work.of_kind(*SETS_JOINT):
            yield self.assembly.joint(step.joints[0]), step

    def steps_setting(self, joints: tuple[str, ...]) -> frozenset[str]:
        """Return ids of the steps that set these joints."""
        found = (self.work.setting(joint) for joint in joints)
        return frozenset(step.id for step in found if step)

    def in_harness(self, step: Step) -> bool:
        """Tell whether a step is done on a harness as a whole, not on one of its pieces."""
        return any(harness.id == step.piece for harness in self.assembly.pattern.harnesses)

    def trial_of(self, check: Step) -> Step | None:
        """Return the trial at which a check is made; the last fit where there is no dry fit."""
        subject = plain_subject(check)
        when = next(c.when for c in self.assembly.pattern.fit_checks if c.id == subject)
        for kind in (_TRIALS[when], StepKind.FIT):
            for trial in self.work.of_kind(kind):
                if trial.piece == check.piece and shared(trial, check.parts):
                    return trial
        return None

    def is_stud(self, hardware: SidedHardware) -> bool:
        """Tell whether hardware is a stud, which no fold holds."""
        entry = self.shelf.hardware_entry(hardware.hardware.use)
        return entry is not None and entry.kind == STUD

    def dry_folds(self, part_id: str) -> tuple[Step, ...]:
        """Return the steps that fold a part by hand."""
        forms = (f for f in self.assembly.forms if f.form.kind is FormKind.FOLD)
        steps = (self.step_for(StepKind.FORM_DRY, f.id) for f in forms if part_id in f.parts)
        return tuple(step for step in steps if step)

    def opens_again(self, setting: Step) -> bool:
        """Tell whether a step sets a joint that opens again: a screw, a lace."""
        return not self.assembly.joint(setting.joints[0]).joint.kind.is_permanent

    def plates_under_fittings(self, joint: SidedJoint) -> frozenset[str]:
        """Return the plates a joint fixes a strap, keeper or trim to; none for any other joint."""
        fittings = {p for p in joint.parts if self.assembly.part(p).part.kind in FITTINGS}
        if not fittings or joint.joint.motion is not Motion.FIXED:
            return frozenset()
        return frozenset(joint.parts) - fittings

    def hides(self, parts: tuple[str, ...], joint_id: str) -> bool:
        """Tell whether one of these parts lies over the head of a joint."""
        return any(c.joint == joint_id and c.cover in parts for c in self.assembly.covers)

    def is_wax(self, harden: Step) -> bool:
        """Tell whether a hardening goes on after the dye."""
        entry = self.shelf.treatment(harden.treatment or "")
        return entry is not None and entry.after_dye

    def end_of(self, step: Step) -> Step:
        """Return what ends a step: its drying, where it has one."""
        return self.work.drying_of(step.id) or step

    def handles_glued(self, glue: Step) -> Iterator[Step]:
        """Yield what hammers, stitches, bends or handles a part of a glued face, as listed."""
        for step in self.work.of_kind(*GIVES_WAY):
            if shared(step, glue.parts):
                yield step

    def first_coats(self, *kinds: StepKind) -> tuple[Step, ...]:
        """Return the steps of these kinds, of treatments only the first coat."""
        return tuple(step for step in self.work.of_kind(*kinds) if step.coat <= 1)

    def last_coats(self, *kinds: StepKind) -> tuple[Step, ...]:
        """Return the steps of these kinds, of treatments only the last coat."""
        found = self.work.of_kind(*kinds)
        last = {step.tray: step.coat for step in found if step.coat}
        return tuple(step for step in found if step.coat == last.get(step.tray, 0))

    def step_for(self, kind: StepKind, subject: str) -> Step | None:
        """Return the step of a kind for a sided joint, thread, form or buckle, or ``None``."""
        steps = self.work.of_kind(kind)
        return next((step for step in steps if step.id.endswith(f"/{subject}")), None)

    def pairs(self, *kinds: StepKind) -> Iterator[tuple[Step, Step]]:
        """Yield the steps of these kinds that are done on the left and on the right alike."""
        found: dict[tuple[str, StepKind, str], list[Step]] = {}
        for step in self.work.of_kind(*kinds):
            if step.side is not Side.SINGLE:
                found.setdefault((step.piece, step.kind, plain_subject(step)), []).append(step)
        for alike in found.values():
            if len(alike) > 1:
                yield alike[0], alike[1]

    def wet_before_handling(self) -> Iterator[tuple[Step, Step]]:
        """Yield each wet step that handling waits for, with its drying.

        A coat is followed by the next one, and cleaning by the dye; what has to wait for an own
        step only its maker knows.
        """
        last = {step.id for step in self.last_coats(*COATS)}
        for wet, dry in self.wet_ends():
            followed = wet.kind in COATS and wet.id not in last
            if not followed and wet.kind not in (StepKind.CLEAN, StepKind.OWN):
                yield wet, dry

    def begins_with(self) -> Iterator[tuple[Step, Step]]:
        """Yield each wet step with what time alone does from its end: drip, dry, cure, own waits."""
        for wet in self.work.steps:
            for begun in self.work.following(wet.id):
                yield wet, begun

    def wet_ends(self) -> Iterator[tuple[Step, Step]]:
        """Yield each wet step with its drying, in the order they stand; own waits too."""
        for dry in self.work.of_kind(StepKind.DRY):
            if dry.after is not None:
                yield self.work.step(dry.after), dry
