"""The tables of a pattern that say how it is joined: joints, seams, threads."""

from collections.abc import Collection
from dataclasses import dataclass

from armorplan.files.faults import brief, listed
from armorplan.files.limits import AREA, LENGTH, THICKNESS_OR_NONE
from armorplan.files.option_rows import exclude_each_other, read_only_with
from armorplan.files.references import Names, check_once, check_ref, ref, refs
from armorplan.files.tables import Table
from armorplan.files.values import (
    choice,
    flag,
    maybe_choice,
    maybe_number,
    maybe_text,
    number,
    text,
    texts,
)
from armorplan.pattern.joining import Joint, JointKind, Motion, Seam, Thread
from armorplan.pattern.parts import MadeOn, Part, PartKind
from armorplan.workshop.shelf import Shelf, TreatmentKind

_MM2_PER_CM2 = 100.0
_OVER_SURFACE = (JointKind.GLUE, JointKind.STITCH)
_COMPARED = 50
"""Joints that a joint is held against at one hole; no sound pattern has more of them there."""
_SERVES = {"thread": "stitch", "lace": "lace"}
_FASTENERS = {JointKind.STITCH: "thread"}
"""What a fastener is called where not as its joint."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JointRow:
    """A joint with its table, so that faults of its stack can be told at their line."""

    table: Table
    joint: Joint


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadRow:
    """A thread with its table."""

    table: Table
    thread: Thread


def read_joints(
    top: Table, parts: Collection[str], *, shelf: Shelf, choices: Names
) -> tuple[JointRow, ...]:
    """Return the joints, in the order they are written; whether their holes exist comes later."""
    found: list[JointRow] = []
    part_names = Names(what="part", ids=parts)
    for key, row in top.table("joints").rows():
        kind = choice(row, "kind", JointKind)
        joint = Joint(
            id=key,
            kind=kind or JointKind.RIVET,
            stack=_stack(row, kind),
            layers=_layers(row, part_names),
            fastener=_fastener(row, kind, shelf),
            motion=_motion(row, kind),
            placed_on_wearer=flag(row, "placed_on_wearer", default=False),
            made_on=maybe_choice(row, "made_on", MadeOn) or MadeOn.BOTH,
            washer_mm=number(row, "washer_mm", THICKNESS_OR_NONE, default=0.0),
            post_mm=maybe_number(row, "post_mm", LENGTH),
            length_mm=maybe_number(row, "length_mm", LENGTH),
            area_mm2=_area_mm2(row),
            notes=maybe_text(row, "notes") or "",
            only_with=read_only_with(row, choices),
        )
        _check_measures(row, kind)
        row.finish()
        found.append(JointRow(table=row, joint=joint))
    _check_holes_once(found)
    return tuple(found)


def _stack(row: Table, kind: JointKind | None) -> tuple[str, ...]:
    """Return the holes it passes; surfaces that are glued or stitched name layers instead."""
    over_surface = row.has("layers") and kind in {*_OVER_SURFACE, None}
    stack = texts(row, "stack", required=not row.has("layers"))
    if row.has("stack") and row.has("layers"):
        row.fault(
            "layers",
            "stack-and-layers",
            "Both stack and layers are written.",
            mend="Keep stack where it passes single holes, layers where it holds whole surfaces.",
        )
    elif row.has("layers") and not over_surface:
        row.fault(
            "layers",
            "layers-of-holes",
            f"A {kind} passes holes, and layers are written.",
            mend="Name its holes as stack; only glue and stitches hold layers.",
        )
    _check_layers(row, "stack", stack, what="hole")
    check_once(row, "stack", stack)
    return stack


def _layers(row: Table, parts: Names) -> tuple[str, ...]:
    """Return the parts it joins; one part twice is ordinary: an end folded on itself."""
    layers = texts(row, "layers")
    if row.has("layers") and not layers and isinstance(row.raw("layers"), list):
        fault = f"{row.name_of('layers')} is an empty list."
        row.fault("layers", "empty-list", fault, mend="Name two parts or more.")
    for part in dict.fromkeys(layers):
        check_ref(row, "layers", value=part, names=parts)
    _check_layers(row, "layers", layers, what="part")
    return layers


def _check_layers(row: Table, key: str, named: tuple[str, ...], *, what: str) -> None:
    if len(named) == 1:
        row.fault(
            key,
            "one-layer",
            f'The {key} names one {what}, "{brief(named[0])}"; a joint holds two or more.',
            mend=f"Name the {what}s of all its layers, the outermost first.",
        )


def _motion(row: Table, kind: JointKind | None) -> Motion:
    turning = flag(row, "turning", default=False)
    motion = maybe_choice(row, "motion", Motion)
    if row.has("turning") and row.has("motion"):
        row.fault(
            "turning",
            "two-motions",
            "Both motion and the older turning are written.",
            mend="Keep motion alone.",
        )
    if motion is Motion.SLIDING and kind not in {JointKind.RIVET, JointKind.SCREW, None}:
        row.wrong("motion", "sliding", wanted=f'"fixed", since {kind} cannot slide in a slot')
    return motion or (Motion.TURNING if turning else Motion.FIXED)


def _area_mm2(row: Table) -> float | None:
    area_cm2 = maybe_number(row, "area_cm2", AREA)
    return None if area_cm2 is None else area_cm2 * _MM2_PER_CM2


def _check_measures(row: Table, kind: JointKind | None) -> None:
    if kind not in {JointKind.RIVET, JointKind.SCREW, None}:
        row.idle("post_mm", because=f"a {kind} has no post")
    if kind not in {JointKind.STITCH, JointKind.LACE, None}:
        row.idle("length_mm", because=f"a {kind} is no row of stitches")
    if kind not in {JointKind.GLUE, None}:
        row.idle("area_cm2", because=f"a {kind} has no glued area")


def _fastener(row: Table, kind: JointKind | None, shelf: Shelf) -> str:
    """Return the fastener's id; glue, stitches and laces may leave it out."""
    if kind not in {JointKind.RIVET, JointKind.SCREW} and not row.has("fastener"):
        return ""
    known = {e.id: e.kind for e in shelf.fasteners}
    known |= {e.id: "glue" for e in shelf.treatments if e.kind is TreatmentKind.GLUE}
    known |= {e.id: _SERVES.get(e.kind, e.kind) for e in shelf.supplies}
    fitting = [key for key, serves in known.items() if kind is None or serves == kind.value]
    fastener = text(row, "fastener")
    if fastener in known and fastener not in fitting:
        near = listed(row.faults.nearest_first(fastener, fitting))
        row.fault(
            "fastener",
            "wrong-fastener",
            f'"{fastener}" serves a {known[fastener]}, but the joint is a {kind}.',
            mend=f"Name one of: {near}." if fitting else "Name another kind.",
        )
    elif fastener:
        what = "fastener" if kind is None else _FASTENERS.get(kind, kind.value)
        names = Names(what=what, where="on the shelf", ids=fitting)
        check_ref(row, "fastener", value=fastener, names=names)
    return fastener


def _check_holes_once(rows: list[JointRow]) -> None:
    """Tell holes that two joints lay claim to; a strap end on a row is one joint of three."""
    claimed: dict[str, list[Joint]] = {}
    for row in rows:
        for hole in dict.fromkeys(row.joint.stack):
            others = claimed.setdefault(hole, [])
            other = next((o for o in others[:_COMPARED] if _can_meet(o, row.joint)), None)
            others.append(row.joint)
            if other is not None:
                row.table.fault(
                    "stack",
                    "hole-in-two-joints",
                    f'The hole "{brief(hole)}" is already in the stack of "{other.id}".',
                    mend="One fastener fills a hole: put all its layers into one stack.",
                    about=(row.joint.id, other.id),
                )


def _can_meet(one: Joint, other: Joint) -> bool:
    """Tell whether both joints can be on one side of one build.

    On unlike sides the hole is drawn once and made twice; of a part made once it is told later.
    """
    unlike = {one.made_on, other.made_on} == {MadeOn.LEFT, MadeOn.RIGHT}
    excluded = exclude_each_other(one.only_with, other.only_with)
    return one.id != other.id and not unlike and not excluded


def read_seams(top: Table, joints: Names) -> tuple[Seam, ...]:
    """Return the seams, in the order they are written."""
    found: list[Seam] = []
    claimed: dict[str, str] = {}
    for key, row in top.table("seams").rows():
        seam = Seam(
            id=key,
            name=text(row, "name"),
            joints=refs(row, "joints", joints, required=True),
            notes=maybe_text(row, "notes") or "",
        )
        for joint in seam.joints:
            other = claimed.setdefault(joint, key)
            if other != key:
                row.fault(
                    "joints",
                    "joint-in-two-seams",
                    f'The joint "{joint}" is already in the seam "{other}".',
                    mend="Keep it in one of the two: it is set once.",
                )
        row.finish()
        found.append(seam)
    return tuple(found)


def read_threads(
    top: Table, parts: Collection[str], *, joints: Names, choices: Names
) -> tuple[ThreadRow, ...]:
    """Return the threads; whether their slots exist comes later."""
    found: list[ThreadRow] = []
    part_names = Names(what="part", ids=parts)
    for key, row in top.table("threads").rows():
        through = texts(row, "through", required=True)
        check_once(row, "through", through)
        thread = Thread(
            id=key,
            part=ref(row, "part", part_names),
            through=through,
            closed_by=refs(row, "closed_by", joints),
            made_on=maybe_choice(row, "made_on", MadeOn) or MadeOn.BOTH,
            notes=maybe_text(row, "notes") or "",
            only_with=read_only_with(row, choices),
        )
        row.finish()
        found.append(ThreadRow(table=row, thread=thread))
    return tuple(found)


def slots_of(row: ThreadRow, parts: dict[str, Part], outlines: dict[str, str]) -> list[str]:
    """Return the names in ``through`` that have to be slots; parts that cannot be are told.

    Args:
        row: the thread.
        parts: all parts by id.
        outlines: the part of every outline that is a part's.
    """
    slots: list[str] = []
    for name in row.thread.through:
        part = parts.get(name) or parts.get(outlines.get(name, ""))
        if part is None:
            slots.append(name)
        elif name not in parts or part.kind is not PartKind.KEEPER:
            row.table.fault(
                "through",
                "not-a-keeper",
                f'"{name}" is the {part.kind.value} "{part.id}", neither a slot nor a keeper.',
                mend="Name a slot in it, or the id of a part of kind keeper.",
            )
    return slots
