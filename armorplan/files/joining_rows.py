"""The tables of a pattern that say how it is joined, shaped and treated."""

from collections.abc import Collection
from dataclasses import dataclass

from armorplan.files.faults import brief
from armorplan.files.references import Names, check_once, ref, refs
from armorplan.files.tables import Table
from armorplan.files.values import (
    ABOVE_ZERO,
    choice,
    flag,
    maybe_number,
    maybe_text,
    text,
    texts,
    whole,
)
from armorplan.pattern.joining import (
    Form,
    FormKind,
    Joint,
    JointKind,
    Motion,
    Route,
    Seam,
    Thread,
    Treatment,
)
from armorplan.pattern.parts import Part, PartKind
from armorplan.workshop.shelf import Shelf, TreatmentKind

_LEAST_LAYERS = 2
_COATS = frozenset({TreatmentKind.DYE, TreatmentKind.OIL, TreatmentKind.FINISH})


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


def read_joints(top: Table, shelf: Shelf) -> tuple[JointRow, ...]:
    """Return the joints, in the order they are written; whether their holes exist comes later."""
    found: list[JointRow] = []
    for key, row in top.table("joints").rows():
        kind = choice(row, "kind", JointKind)
        joint = Joint(
            id=key,
            kind=kind or JointKind.RIVET,
            stack=_stack(row),
            fastener=_fastener(row, kind, shelf),
            motion=Motion.TURNING if flag(row, "turning", default=False) else Motion.FIXED,
            placed_on_wearer=flag(row, "placed_on_wearer", default=False),
        )
        row.finish()
        found.append(JointRow(table=row, joint=joint))
    _check_holes_once(found)
    return tuple(found)


def _stack(row: Table) -> tuple[str, ...]:
    stack = texts(row, "stack", required=True)
    if len(stack) == 1:
        row.fault(
            "stack",
            "one-layer",
            f'The stack names one hole, "{brief(stack[0])}"; a joint holds two or more.',
            mend="Name the holes of all its layers, the outermost first.",
        )
    check_once(row, "stack", stack)
    return stack


def _fastener(row: Table, kind: JointKind | None, shelf: Shelf) -> str:
    """Return the fastener's id; glue and stitches may leave it out."""
    if kind not in {JointKind.RIVET, JointKind.SCREW} and not row.has("fastener"):
        return ""
    known = {e.id: e.kind for e in shelf.fasteners}
    known |= {e.id: "glue" for e in shelf.treatments if e.kind is TreatmentKind.GLUE}
    fastener = ref(row, "fastener", Names(what="fastener on the shelf", ids=known))
    if kind is not None and known.get(fastener, kind.value) != kind.value:
        fitting = sorted(key for key, serves in known.items() if serves == kind.value)
        row.fault(
            "fastener",
            "wrong-fastener",
            f'"{fastener}" serves a {known[fastener]}, but the joint is a {kind.value}.',
            mend=f"Name one of: {', '.join(fitting[:5])}." if fitting else "Name another kind.",
        )
    return fastener


def _check_holes_once(rows: list[JointRow]) -> None:
    """Tell holes that two joints lay claim to; a strap end on a row is one joint of three."""
    claimed: dict[str, str] = {}
    for row in rows:
        for hole in dict.fromkeys(row.joint.stack):
            other = claimed.setdefault(hole, row.joint.id)
            if other != row.joint.id:
                row.table.fault(
                    "stack",
                    "hole-in-two-joints",
                    f'The hole "{brief(hole)}" is already in the stack of "{other}".',
                    mend="One fastener fills a hole: put all its layers into one stack.",
                    about=(row.joint.id, other),
                )


def read_seams(top: Table, joints: Collection[str]) -> tuple[Seam, ...]:
    """Return the seams, in the order they are written."""
    names = Names(what="joint", ids=joints)
    found: list[Seam] = []
    claimed: dict[str, str] = {}
    for key, row in top.table("seams").rows():
        seam = Seam(
            id=key, name=text(row, "name"), joints=refs(row, "joints", names, required=True)
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
    top: Table, parts: Collection[str], joints: Collection[str]
) -> tuple[ThreadRow, ...]:
    """Return the threads; whether their slots exist comes later."""
    found: list[ThreadRow] = []
    for key, row in top.table("threads").rows():
        through = texts(row, "through", required=True)
        check_once(row, "through", through)
        thread = Thread(
            id=key,
            part=ref(row, "part", Names(what="part", ids=parts)),
            through=through,
            closed_by=refs(row, "closed_by", Names(what="joint", ids=joints)),
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


def read_forms(top: Table, parts: Collection[str], seams: Collection[str]) -> tuple[Form, ...]:
    """Return the forms, in the order they are written."""
    found: list[Form] = []
    for key, row in top.table("forms").rows():
        form = Form(
            id=key,
            kind=choice(row, "kind", FormKind) or FormKind.BEND,
            parts=refs(row, "parts", Names(what="part", ids=parts), required=True),
            route=choice(row, "route", Route) or Route.DAMP,
            radius_mm=maybe_number(row, "radius_mm", ABOVE_ZERO),
            angle_deg=maybe_number(row, "angle_deg"),
            seams=refs(row, "seams", Names(what="seam", ids=seams)),
        )
        if form.route is Route.BY_SEAM and not row.has("seams"):
            row.missing("seams", wanted='["…"], the seams that draw it')
        row.finish()
        found.append(form)
    return tuple(found)


def read_treatments(top: Table, parts: dict[str, Part], shelf: Shelf) -> tuple[Treatment, ...]:
    """Return the treatments; ``pieces`` stands for all their parts."""
    coats = {e.id for e in shelf.treatments if e.kind in _COATS}
    uses = Names(what="dye, oil or finish on the shelf", ids=coats)
    found: list[Treatment] = []
    for key, row in top.table("treatments").rows():
        treatment = Treatment(
            id=key,
            use=ref(row, "use", uses),
            parts=_treated(row, parts),
            colour=maybe_text(row, "colour") or None,
            coats=whole(row, "coats", least=1, default=1),
        )
        row.finish()
        found.append(treatment)
    return tuple(found)


def _treated(row: Table, parts: dict[str, Part]) -> tuple[str, ...]:
    pieces = {part.piece for part in parts.values()}
    named = refs(row, "parts", Names(what="part", ids=parts))
    of_pieces = refs(row, "pieces", Names(what="piece with parts", ids=pieces))
    if row.has("parts") and row.has("pieces"):
        row.fault(
            "pieces",
            "parts-and-pieces",
            "Both parts and pieces are written.",
            mend="Keep one of them.",
        )
    elif not named and not of_pieces and row.raw("parts") in (None, []):
        row.missing("parts", wanted='["…"], or pieces = ["…"]')
    return named or tuple(key for key, part in parts.items() if part.piece in of_pieces)
