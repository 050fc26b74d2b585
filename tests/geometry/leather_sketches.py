"""Small patterns in leather for the geometry's tests: plates with holes, joined in stacks."""

from armorplan.pattern.joining import Joint, JointKind, Seam, Treatment
from armorplan.pattern.parts import Hole, Material, Part, PartKind, Piece, Point, Slot
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Fastener, Leather, Shelf

CAP = Fastener(
    id="cap",
    name="Cap rivet",
    kind="rivet",
    head_mm=9.0,
    hole_mm=3.5,
    lengths_mm=(6.0, 8.0, 10.0, 12.0),
    over_stack_mm=(0.0, 3.0),
    source="example",
)
POST = Fastener(
    id="post",
    name="Screw post",
    kind="screw",
    head_mm=10.0,
    hole_mm=5.0,
    lengths_mm=(6.0, 8.0),
    over_stack_mm=(-0.5, 0.0),
    source="example",
)
LEATHER = Leather(id="cop", name="cops", usual_mm=(3.1, 4.0), source="example")


def shelf() -> Shelf:
    return Shelf(leathers=(LEATHER,), fasteners=(CAP, POST), treatments=(), durations=())


def box(width_mm: float, height_mm: float, at: Point = (0.0, 0.0)) -> tuple[Point, ...]:
    x, y = at
    return ((x, y), (x + width_mm, y), (x + width_mm, y + height_mm), (x, y + height_mm))


def part(
    part_id: str,
    outline: tuple[Point, ...],
    holes: dict[str, Point],
    *,
    kind: PartKind = PartKind.PLATE,
    diameter_mm: float = 3.5,
    slots: tuple[Slot, ...] = (),
) -> Part:
    return Part(
        id=part_id,
        name=part_id.replace("_", " "),
        piece="piece",
        kind=kind,
        outline=outline,
        material="hide",
        thickness_mm=3.2,
        holes=tuple(
            Hole(id=h, part=part_id, centre=spot, diameter_mm=diameter_mm)
            for h, spot in holes.items()
        ),
        slots=slots,
    )


def rivet(joint_id: str, *stack: str, fastener: str = "cap") -> Joint:
    return Joint(id=joint_id, kind=JointKind.RIVET, stack=stack, fastener=fastener)


def pattern(
    *parts: Part,
    joints: tuple[Joint, ...] = (),
    seams: tuple[Seam, ...] = (),
    treatments: tuple[Treatment, ...] = (),
    material: Material = Material(id="hide", leather="cop", thickness_mm=3.2),  # noqa: B008
) -> Pattern:
    return Pattern(
        uuid="00000000-0000-0000-0000-000000000000",
        slug="sketch",
        name="sketch",
        version=1,
        content_hash="",
        pieces=(Piece(id="piece", name="piece"),),
        materials=(material,),
        parts=parts,
        joints=joints,
        seams=seams,
        treatments=treatments,
    )
