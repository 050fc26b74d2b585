"""Random legal patterns with every feature of the format that makes steps."""

from dataclasses import replace

from hypothesis import assume
from hypothesis import strategies as st

from armorplan.pattern.choosing import settled
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
from armorplan.pattern.options import Choice, Option
from armorplan.pattern.own_work import OwnStep
from armorplan.pattern.parts import Harness, MadeOn, Part, PartKind, Piece
from armorplan.pattern.pattern import Pattern
from armorplan.pattern.sides import mixed_entries
from armorplan.pattern.wearing import CheckTime, FitCheck, HardwareUse, Suspension
from armorplan.rules.sketches import sketch, sketch_part

FASTENER = {JointKind.RIVET: "double_cap_9", JointKind.GLUE: "cement"}
PIECES = ("piece", "other")
SPOTS = st.tuples(st.sampled_from((8.0, 20.0, 60.0, 72.0)), st.sampled_from((8.0, 32.0)))


@st.composite
def patterns(draw) -> Pattern:
    """Draw a pattern as a build has it: its options are decided."""
    pieces = [Piece(id=name, name=name.title(), mirrored=draw(st.booleans())) for name in PIECES]
    parts = draw(_parts())
    joints = draw(_joints(parts, pieces))
    ids = [part.id for part in parts]
    one, few = st.sampled_from(ids), st.lists(st.sampled_from(ids), min_size=1, max_size=3)
    some = few.map(lambda found: tuple(dict.fromkeys(found)))
    plain = sketch(
        *parts,
        joints=joints,
        threads=draw(_threads(parts, joints)),
        forms=draw(_forms(parts, joints)),
        treatments=draw(_treatments(some)),
    )
    options, parts = draw(_options(draw(_with_cover(plain))))
    pattern = replace(
        plain,
        parts=parts,
        pieces=tuple(pieces),
        seams=draw(_seams(joints)),
        harnesses=(Harness(id="arm", name="Arm", pieces=PIECES),) if draw(st.booleans()) else (),
        hardware=draw(_hardware(ids, joints)),
        suspensions=tuple(
            Suspension(id="hang", piece="piece", part=part, hangs_from="the belt")
            for part in draw(st.lists(one, max_size=1))
        ),
        fit_checks=draw(_checks()),
        own_steps=draw(_own_steps()),
        options=options,
    )
    assume(not mixed_entries(pattern))
    return settled(pattern)


@st.composite
def _parts(draw) -> tuple[Part, ...]:
    parts = []
    for n in range(draw(st.integers(1, 5))):
        holes = draw(st.lists(SPOTS, max_size=4, unique=True))
        part = sketch_part(
            f"p{n}",
            kind=draw(st.sampled_from(PartKind)),
            holes={f"h{n}_{at}": spot for at, spot in enumerate(holes)},
            slots=(f"s{n}",) if draw(st.booleans()) else (),
            bevelled=draw(st.booleans()),
            tooling=draw(st.sampled_from((None, "lantern"))),
        )
        parts.append(
            replace(
                part,
                piece=draw(st.sampled_from(PIECES)),
                grain_out=draw(st.booleans()),
                skived=draw(st.booleans()),
                burnished=draw(st.booleans()),
                copied=draw(st.booleans()),
                made_on=draw(
                    st.sampled_from((MadeOn.BOTH, MadeOn.BOTH, MadeOn.BOTH, MadeOn.RIGHT))
                ),
            )
        )
    return tuple(parts)


@st.composite
def _with_cover(draw, plain: Pattern) -> tuple[Part, ...]:
    """Draw whether the first part is said to hide a joint that it does not pass."""
    first = plain.parts[0]
    hidden = [j.id for j in plain.joints if first.id not in plain.stack_parts(j.id)]
    if not hidden or not draw(st.booleans()):
        return plain.parts
    return (replace(first, hides=(draw(st.sampled_from(hidden)),)), *plain.parts[1:])


@st.composite
def _joints(draw, parts: tuple[Part, ...], pieces: list[Piece]) -> tuple[Joint, ...]:
    mirrored = {piece.id: piece.mirrored for piece in pieces}
    piece_of = {part.id: part.piece for part in parts}
    owner = {hole.id: part.id for part in parts for hole in part.holes}
    holes = draw(st.permutations(sorted(owner)))
    joints: list[Joint] = []
    while draw(st.booleans()) and len(joints) < 8:
        count = draw(st.integers(2, 3))
        kind = draw(st.sampled_from(JointKind))
        surface = kind in (JointKind.GLUE, JointKind.STITCH) and draw(st.booleans())
        if surface:
            joined = tuple(
                draw(st.lists(st.sampled_from(sorted(piece_of)), min_size=2, max_size=3))
            )
        elif len(holes) >= count:
            stack, holes = tuple(holes[:count]), holes[count:]
            joined = tuple(owner[hole] for hole in stack)
        else:
            break
        mixed = len({mirrored[piece_of[part]] for part in joined}) > 1
        joints.append(
            Joint(
                id=f"j{len(joints)}",
                kind=kind,
                stack=() if surface else stack,
                layers=joined if surface else (),
                fastener=FASTENER.get(kind, ""),
                motion=draw(st.sampled_from((Motion.FIXED, Motion.FIXED, Motion.TURNING))),
                placed_on_wearer=not surface and draw(st.booleans()),
                made_on=MadeOn.LEFT if mixed else MadeOn.BOTH,
            )
        )
    return tuple(joints)


@st.composite
def _seams(draw, joints: tuple[Joint, ...]) -> tuple[Seam, ...]:
    """Draw one row of the first joints, as many as are made on the same sides."""
    row = joints[: draw(st.integers(1, 3))]
    alike = tuple(joint.id for joint in row if joint.made_on is row[0].made_on)
    return (Seam(id="row", name="Row", joints=alike),) if row else ()


@st.composite
def _threads(draw, parts: tuple[Part, ...], joints: tuple[Joint, ...]) -> tuple[Thread, ...]:
    ways = [slot.id for part in parts for slot in part.slots]
    ways += [part.id for part in parts if part.kind is PartKind.KEEPER]
    threads = []
    for n in range(draw(st.integers(0, 2)) if ways else 0):
        part = draw(st.sampled_from([part.id for part in parts]))
        through = draw(st.sampled_from(ways))
        closing = st.lists(st.sampled_from([j.id for j in joints]), max_size=1)
        if through != part:
            closed_by = tuple(draw(closing)) if joints else ()
            threads.append(Thread(id=f"t{n}", part=part, through=(through,), closed_by=closed_by))
    return tuple(threads)


@st.composite
def _forms(draw, parts: tuple[Part, ...], joints: tuple[Joint, ...]) -> tuple[Form, ...]:
    forms = []
    for n in range(draw(st.integers(0, 3))):
        piece = draw(st.sampled_from([part.piece for part in parts]))
        here = [part.id for part in parts if part.piece == piece]
        route = draw(st.sampled_from(Route))
        by_seam = route is Route.BY_SEAM
        if by_seam and not joints:
            continue
        forms.append(
            Form(
                id=f"f{n}",
                kind=draw(st.sampled_from(FormKind)),
                parts=tuple(draw(st.lists(st.sampled_from(here), min_size=1, unique=True))),
                route=route,
                seams=("row",) if by_seam else (),
                radius_mm=draw(st.sampled_from((None, 12.0, 45.0, 95.0))),
                angle_deg=draw(st.sampled_from((None, 120.0))),
                axis=draw(st.sampled_from((None, ((40.0, 0.0), (40.0, 40.0))))),
                hardening=draw(st.sampled_from((None, "hot_water", "wax"))),
            )
        )
    return tuple(forms)


@st.composite
def _treatments(draw, some) -> tuple[Treatment, ...]:
    drawn = st.tuples(st.sampled_from(("dye", "oil", "finish")), some, st.integers(1, 2))
    uses = draw(st.lists(drawn, max_size=3))
    return tuple(
        Treatment(id=f"u{n}", use=use, parts=on, coats=coats)
        for n, (use, on, coats) in enumerate(uses)
    )


@st.composite
def _hardware(draw, ids: list[str], joints: tuple[Joint, ...]) -> tuple[HardwareUse, ...]:
    held_by = st.lists(st.sampled_from([j.id for j in joints]), max_size=2, unique=True)
    return tuple(
        HardwareUse(
            id=f"b{n}", use="buckle", part=part, held_by=tuple(draw(held_by)) if joints else ()
        )
        for n, part in enumerate(draw(st.lists(st.sampled_from(ids), max_size=2)))
    )


@st.composite
def _checks(draw) -> tuple[FitCheck, ...]:
    drawn = st.tuples(st.sampled_from(CheckTime), st.sampled_from((*PIECES, "arm")))
    return tuple(
        FitCheck(id=f"c{n}", name="it bends", piece=piece, when=when)
        for n, (when, piece) in enumerate(draw(st.lists(drawn, max_size=3)))
    )


@st.composite
def _own_steps(draw) -> tuple[OwnStep, ...]:
    drawn = st.tuples(st.sampled_from((*PIECES, "arm")), st.sampled_from((0, 60)))
    return tuple(
        OwnStep(id=f"o{n}", name="Paint it", piece=piece, wait_min=wait)
        for n, (piece, wait) in enumerate(draw(st.lists(drawn, max_size=2)))
    )


@st.composite
def _options(draw, parts: tuple[Part, ...]) -> tuple[tuple[Option, ...], tuple[Part, ...]]:
    """Draw whether the last part, and all tooling, are a matter of choice."""
    if len(parts) == 1 or not draw(st.booleans()):
        return (), parts
    choices = (Choice(id="full", name="Full"), Choice(id="plain", name="Plain", tooling=False))
    chosen = draw(st.sampled_from([choice.id for choice in choices]))
    option = Option(id="look", name="Look", choices=choices, chosen=chosen)
    return (option,), (*parts[:-1], replace(parts[-1], only_with=("look.full",)))
