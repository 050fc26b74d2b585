"""The diagram of the parts as rows: real outlines, each side where it can be seen."""

from collections.abc import Callable
from itertools import pairwise

from armorplan.app.derived import Derived
from armorplan.app.rows import BenchState, Diagram, DiagramHole, DiagramJoint, DiagramPart
from armorplan.assembly.model import Side, SidedPart
from armorplan.pattern.parts import Point, Ring
from armorplan.pattern.pattern import Pattern
from armorplan.steps.naming import part_name

_GAP_MM = 40.0
"""Between the left and the right side, so that they read as two."""


def _turner(pattern: Pattern) -> Callable[[Side], Callable[[Point], Point]]:
    """Return how a point of the drawing is shown on each side.

    The drawing shows the left; the right is its mirror image beside it. The mirror is about the
    middle of the whole drawing, so the outer sides of both lie outward.
    """
    xs = [x for part in pattern.parts for x, _ in part.outline]
    low, high = min(xs, default=0.0), max(xs, default=0.0)

    def turn(side: Side) -> Callable[[Point], Point]:
        if side is Side.RIGHT:
            return lambda p: (2 * high - low + _GAP_MM + (low - p[0]), p[1])
        return lambda p: p

    return turn


def _layers(derived: Derived) -> dict[str, int]:
    """Return a drawing order in which every outer layer comes after what lies under it.

    The longest chain of layers under a part, found by passing the stacks as often as there are
    parts at the most: a ring of overlaps (each petal over the next) then simply stops.
    """
    layer = {part.id: 0 for part in derived.assembly.parts}
    stacks = [[p for p, _ in joint.stack] for joint in derived.assembly.joints]
    for _ in layer:
        moved = False
        for stack in stacks:
            for outer, inner in pairwise(stack):
                if outer != inner and layer[inner] + 1 > layer[outer] < len(layer):
                    layer[outer] = layer[inner] + 1
                    moved = True
        if not moved:
            break
    return layer


def _middle(ring: Ring) -> Point:
    from shapely import Polygon

    point = Polygon(ring).representative_point()
    return (point.x, point.y)


def diagram_of(derived: Derived, state_of: Callable[[str], BenchState]) -> Diagram:
    """Return the rows of the diagram; ``state_of`` tells the state of a step."""
    assembly = derived.assembly
    turn, layers = _turner(derived.pattern), _layers(derived)
    joint_at = {place: joint.id for joint in assembly.joints for place in joint.stack}

    def part_row(sided: SidedPart) -> DiagramPart:
        place = turn(sided.side)
        outline = tuple(place(p) for p in sided.part.outline)
        return DiagramPart(
            id=sided.id,
            name=part_name(assembly, sided.id),
            kind=sided.part.kind,
            piece=sided.part.piece,
            outline=outline,
            slots=tuple(tuple(place(p) for p in slot.outline) for slot in sided.part.slots),
            label_at=_middle(outline),
            layer=layers[sided.id],
        )

    holes = tuple(
        DiagramHole(
            id=sided.side.tag(hole.id),
            part=sided.id,
            joint=joint_at.get((sided.id, hole.id)),
            centre=turn(sided.side)(hole.centre),
            diameter_mm=hole.diameter_mm,
        )
        for sided in assembly.parts
        for hole in sided.part.holes
    )
    return Diagram(
        parts=tuple(part_row(sided) for sided in assembly.parts),
        holes=holes,
        joints=tuple(_joint_rows(derived, state_of)),
    )


def _joint_rows(derived: Derived, state_of: Callable[[str], BenchState]) -> list[DiagramJoint]:
    rows = []
    for joint in derived.assembly.joints:
        fastener = derived.shelf.fastener(joint.joint.fastener)
        step = derived.work.setting(joint.id)
        hole_mm = derived.pattern.hole(joint.joint.stack[0]).diameter_mm
        rows.append(
            DiagramJoint(
                id=joint.id,
                kind=joint.joint.kind,
                fastener=fastener.name if fastener else joint.joint.fastener,
                head_mm=fastener.head_mm if fastener else hole_mm,
                stack=tuple(part_name(derived.assembly, part) for part, _ in joint.stack),
                parts=joint.parts,
                step=step.id if step else None,
                state=state_of(step.id) if step else BenchState.WAITING,
            )
        )
    return rows
