"""Small patterns for the rules' examples: squares of leather with a few holes in them."""

from collections.abc import Mapping
from dataclasses import replace

from armorplan.pattern.joining import (
    Applying,
    Form,
    FormKind,
    Joint,
    JointKind,
    Route,
    Seam,
    Thread,
    Treatment,
)
from armorplan.pattern.options import Choice, Option
from armorplan.pattern.parts import Hole, Material, Part, PartKind, Piece, Point, Slot
from armorplan.pattern.pattern import Pattern

_SIZE_MM = (80.0, 40.0)
_HOLE_MM = 3.5


def sketch_part(  # noqa: PLR0913 - every value is a field of the part it makes
    part_id: str,
    *,
    kind: PartKind = PartKind.PLATE,
    holes: Mapping[str, Point] | None = None,
    slots: tuple[str, ...] = (),
    bevelled: bool = False,
    tooling: str | None = None,
    hides: tuple[str, ...] = (),
) -> Part:
    """Return an 80 × 40 mm part; its holes are named and placed in mm from a corner."""
    width, height = _SIZE_MM
    return Part(
        id=part_id,
        name=part_id.replace("_", " ").capitalize(),
        piece="piece",
        kind=kind,
        outline=((0.0, 0.0), (width, 0.0), (width, height), (0.0, height)),
        material="shell",
        thickness_mm=3.6,
        holes=tuple(
            Hole(id=name, part=part_id, centre=centre, diameter_mm=_HOLE_MM)
            for name, centre in (holes or {}).items()
        ),
        slots=tuple(
            Slot(
                id=name,
                part=part_id,
                outline=((30.0, 10.0), (34.0, 10.0), (34.0, 30.0), (30.0, 30.0)),
                length_mm=20.0,
                width_mm=4.0,
            )
            for name in slots
        ),
        bevelled=bevelled,
        tooling=tooling,
        hides=hides,
    )


def sketch_rivet(joint_id: str, *stack: str, placed_on_wearer: bool = False) -> Joint:
    """Return a rivet through these holes, outermost first."""
    return Joint(
        id=joint_id,
        kind=JointKind.RIVET,
        stack=stack,
        fastener="double_cap_9",
        placed_on_wearer=placed_on_wearer,
    )


def sketch_glue(joint_id: str, *layers: str) -> Joint:
    """Return these parts glued on each other, the outermost first."""
    return Joint(id=joint_id, kind=JointKind.GLUE, layers=layers, fastener="cement")


def sketch_treatment(use: str, *parts: str, coats: int = 1) -> Treatment:
    """Return a treatment of these parts with what the shelf calls ``use``."""
    return Treatment(id=use, use=use, parts=parts, coats=coats)


def sketch_bath(use: str, *parts: str, coats: int = 1) -> Treatment:
    """Return these parts dipped in what the shelf calls ``use``."""
    return replace(sketch_treatment(use, *parts, coats=coats), applying=Applying.DIP)


def sketch_form(form_id: str, *parts: str, route: Route = Route.DAMP) -> Form:
    """Return a bend of these parts."""
    return Form(
        id=form_id, kind=FormKind.BEND, parts=parts, route=route, radius_mm=45.0, angle_deg=120.0
    )


def sketch(
    *parts: Part,
    joints: tuple[Joint, ...] = (),
    seams: tuple[Seam, ...] = (),
    threads: tuple[Thread, ...] = (),
    forms: tuple[Form, ...] = (),
    treatments: tuple[Treatment, ...] = (),
    mirrored: bool = False,
) -> Pattern:
    """Return a pattern of one piece, ``piece``, with these parts."""
    return Pattern(
        uuid="00000000-0000-4000-8000-000000000000",
        slug="sketch",
        name="Sketch",
        version=1,
        content_hash="",
        pieces=(Piece(id="piece", name="Piece", mirrored=mirrored),),
        materials=(Material(id="shell", leather="shell", thickness_mm=3.6),),
        parts=parts,
        joints=joints,
        seams=seams,
        threads=threads,
        forms=forms,
        treatments=treatments,
    )


def by_machine(pattern: Pattern) -> Pattern:
    """Return a pattern whose parts a machine cuts."""
    choice = Choice(id="machine", name="By machine", by_machine=True)
    option = Option(id="cutting", name="Cutting", choices=(choice,), chosen=choice.id)
    return replace(pattern, options=(option,))
