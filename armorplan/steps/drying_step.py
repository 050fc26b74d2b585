"""What time alone does after a wet step: drip, dry, cure; and the watch over a dipped coat."""

from dataclasses import replace

from armorplan.assembly.model import Side
from armorplan.drying.room import DryingRoom, drying_room
from armorplan.drying.spans import Stage
from armorplan.drying.stages import stage_minutes
from armorplan.steps.model import Drying, Step, StepKind
from armorplan.steps.naming import names, piece_name
from armorplan.steps.scene import Group
from armorplan.workshop.shelf import TreatmentEntry

DRIED_AS = {
    StepKind.TOOL: "tooled",
    StepKind.FORM: "damp-formed",
    StepKind.HARDEN: "hardened",
}
"""What leather is called that dries in a new shape or state."""


def _wet_words(step: Step) -> str:
    """Return what a wet step is called in the steps that follow it."""
    return f"'{step.title.split(':')[0]}'"


def _title(group: Group, step: Step) -> str:
    if step.kind in DRIED_AS:
        return f"Dry the {DRIED_AS[step.kind]} {names(group.scene.assembly, step.parts)}"
    return f"Drying after {_wet_words(step)}"


def after_id(group: Group, kind: StepKind, step: Step) -> str:
    """Return the id of what follows a wet step: its own kind, the wet step's subject and kind."""
    subject = step.id.rsplit("/", 2)
    return group.id(kind, f"{subject[-1]}.{subject[-2]}")


def usual_min(room: DryingRoom, entry: TreatmentEntry, drying: Drying) -> int:
    """Return the minutes of a drying on a usual day in a room; in air too damp the catalogue's.

    That the air is too damp is told as a finding (``steps.airing``), not hidden here.
    """
    minutes = room.usual(entry, drying.body).likely_min(drying.stage)
    return stage_minutes(entry)[drying.stage] if minutes is None else minutes


def _by_itself(
    group: Group, kind: StepKind, step: Step, title: str, *, minutes: int, tray: str
) -> Step:
    """Return what time alone does from the end of a step on, trayed by its kind and by ``tray``."""
    return Step(
        id=after_id(group, kind, step),
        kind=kind,
        piece=group.piece,
        side=group.side,
        title=title,
        tray=group.tray(f"{kind}:{tray}"),
        parts=step.parts,
        minutes=minutes,
        attended=False,
        after=step.id,
    )


def drying_step(
    group: Group,
    step: Step,
    entry: TreatmentEntry,
    *,
    stage: Stage = Stage.HANDLE,
    dipped: bool = False,
) -> Step:
    """Return the drying of a wet step, dyed, cased or glued, until a stage."""
    drying = _drying(group, step.parts, entry, stage, dipped=dipped)
    minutes = usual_min(drying_room(group.scene.room), entry, drying)
    tray = step.kind if step.kind in DRIED_AS else entry.id
    return replace(
        _by_itself(group, StepKind.DRY, step, _title(group, step), minutes=minutes, tray=tray),
        treatment=entry.id,
        detail=_times_of(entry),
        cautions=entry.cautions,
        drying=drying,
    )


def _times_of(entry: TreatmentEntry) -> str:
    return f"Times of {entry.name} at 23 °C and 50 %, carried to this shop's air."


def _drying(
    group: Group,
    parts: tuple[str, ...],
    entry: TreatmentEntry,
    stage: Stage,
    *,
    dipped: bool = False,
) -> Drying:
    body = group.scene.body_of(parts, dipped=dipped)
    thin = group.scene.thin_of(parts, dipped=dipped)
    return Drying(treatment=entry.id, body=body, stage=stage, thin=thin)


def case_drying(group: Group, parts: tuple[str, ...], entry: TreatmentEntry) -> Drying | None:
    """Return what dries after casing until it is ready to shape; ``None``: at any time."""
    return None if entry.window_min is None else _drying(group, parts, entry, Stage.OPENS)


def curing_step(
    group: Group, step: Step, entry: TreatmentEntry, *, dipped: bool = False
) -> Step | None:
    """Return the cure of a last coat or a glue, where it is longer than its drying and counts."""
    if not entry.cure_min or entry.cure_min <= entry.handle_min or not entry.cure_before:
        return None
    drying = _drying(group, step.parts, entry, Stage.CURE, dipped=dipped)
    minutes, title = (
        usual_min(drying_room(group.scene.room), entry, drying),
        f"Cure after {_wet_words(step)}",
    )
    return replace(
        _by_itself(group, StepKind.CURE, step, title, minutes=minutes, tray=entry.id),
        treatment=entry.id,
        coat=step.coat,
        detail=f"Dry to handle long before, it goes on hardening. {_times_of(entry)}",
        drying=drying,
    )


def dripping_step(group: Group, step: Step, entry: TreatmentEntry) -> Step | None:
    """Return the dripping of a dipped coat, where the treatment says how long it drips."""
    if not entry.drip_min:
        return None
    title = f"Let drip after {_wet_words(step)}"
    return replace(
        _by_itself(group, StepKind.DRIP, step, title, minutes=entry.drip_min, tray=entry.id),
        treatment=entry.id,
        coat=step.coat,
        batch_key=step.batch_key,
        detail="Hung over the tray by a corner, so that it runs off at one place.",
    )


def watching_step(
    group: Group, step: Step, entry: TreatmentEntry, parts: tuple[str, ...]
) -> Step | None:
    """Return the watch over a dipped coat, on all that was dipped with it, or ``None``."""
    scene, kind = group.scene, StepKind.WATCH
    if not entry.watch_for_min or not entry.watch_every_min:
        return None
    every = f"{entry.watch_every_min} min for {entry.watch_for_min} min"
    who = names(scene.assembly, parts)
    if who.endswith(" parts"):
        sides = {scene.assembly.part(part).side for part in parts}
        side = group.side if sides == {group.side} else Side.SINGLE
        who = f"{who} of {piece_name(scene.assembly, group.piece, side)}"
    made = group.hand_step(
        kind,
        after_id(group, kind, step).rsplit("/", 1)[-1],
        f"Turn and wipe {who} every {every}",
        parts=parts,
        minutes=scene.rounded(kind, entry.watch_for_min),
        tray=f"{kind}:{entry.id}",
        detail="Turn each piece and take runs and drops off with a lint-free cloth, or they dry as "
        "streaks.",
    )
    return replace(
        made,
        after=step.id,
        treatment=entry.id,
        coat=step.coat,
        batch_key=step.batch_key,
        every_min=entry.watch_every_min,
        cautions=tuple(dict.fromkeys((*made.cautions, *entry.cautions))),
    )


def waiting_step(group: Group, step: Step, minutes: int) -> Step:
    """Return the wait behind a step of the maker's own, in minutes that no air changes."""
    title, tray = f"Wait after '{step.title}'", StepKind.OWN
    return replace(
        _by_itself(group, StepKind.DRY, step, title, minutes=minutes, tray=tray),
        detail="As long as the pattern says.",
        cautions=step.cautions,
    )
