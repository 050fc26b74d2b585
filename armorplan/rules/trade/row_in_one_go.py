"""The joints of a seam are set along the row, in one go."""

from collections.abc import Iterator
from itertools import pairwise

from armorplan.pattern.joining import Seam
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.reach_sketches import sketch_cone
from armorplan.rules.reaching import along_row
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.model import Step

_GROUND = Ground(code="row-in-one-go", force=Force.USUAL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for seam in facts.assembly.seams:
        along = along_row(facts, seam)
        row = [step for joint in along if (step := facts.work.setting(joint))]
        for first, then in pairwise(row):
            yield _GROUND.before(
                first.id,
                then.id,
                f"Set along the row, '{seam.seam.name}' is pulled out of line nowhere, and no fullness "
                "is left in its middle.",
                about=(*first.joints, *then.joints),
            )
        if len({_way(facts, step) for step in row}) == 1:
            yield from _in_one_go(row, f"'{seam.seam.name}'")
    for alike in _alike(facts):
        yield from _in_one_go(alike, f"what joins {facts.names(alike[0].parts)}")


def _in_one_go(row: list[Step], what: str) -> Iterator[Relation]:
    if len(row) > 1:
        yield _GROUND.together(
            frozenset(step.id for step in row),
            f"One tool, one length of post and one place on the anvil: {what} is set in one go.",
            about=tuple(joint for step in row for joint in step.joints),
        )


def _way(facts: Facts, step: Step) -> tuple[str, ...]:
    """Return where and how a joint is set; what is marked on the wearer is set when it is marked."""
    joint = facts.assembly.joint(step.joints[0]).joint
    return step.piece, step.kind, f"{joint.placed_on_wearer}"


def _alike(facts: Facts) -> Iterator[list[Step]]:
    """Yield the joints outside the seams that join the same parts in the same way."""
    found: dict[tuple[str, ...], list[Step]] = {}
    for joint, step in facts.joint_steps():
        if facts.assembly.seam_of(joint.id) is None:
            found.setdefault((*_way(facts, step), *joint.parts), []).append(step)
    yield from found.values()


_UPPER = sketch_part("upper", holes={"u1": (10.0, 10.0), "u2": (40.0, 10.0), "u3": (70.0, 10.0)})
_LOWER = sketch_part("lower", holes={"l1": (10.0, 10.0), "l2": (40.0, 10.0), "l3": (70.0, 10.0)})
_ROW = tuple(sketch_rivet(f"r{n}", f"u{n}", f"l{n}") for n in (1, 2, 3))

RULE = Rule(
    code=_GROUND.code,
    name="A row in one go, along the row",
    why="A row is set from one end to the other, with one tool and one length of post, while the "
    "layers still lie on each other as they were pinned. Begun at both ends, it may leave a bulge in "
    "the middle; broken off for other work, its layers shift. It is begun at the end that the pattern "
    "lists first, or at the other where a tool gets to all of it more easily from there. Joints of the same parts that the "
    "pattern calls no seam are set in one go too, in any order.",
    mend="Put pins back into the holes that are open, pull the layers flat, and go on along the row.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A row of three rivets",
            pattern=sketch(
                _UPPER,
                _LOWER,
                joints=_ROW,
                seams=(Seam(id="row", name="Front row", joints=("r1", "r2", "r3")),),
            ),
            expects=frozenset(
                {
                    ("rivet/r1", "rivet/r2"),
                    ("rivet/r2", "rivet/r3"),
                    ("rivet/r1 | rivet/r2 | rivet/r3", ""),
                }
            ),
        ),
        Example(
            title="Two rivets of the same parts that are no seam",
            pattern=sketch(_UPPER, _LOWER, joints=_ROW[:2]),
            expects=frozenset({("rivet/r1 | rivet/r2", "")}),
        ),
        Example(
            title="The row of a cone 300 mm deep, listed from the rim: it is set from the tip",
            pattern=sketch_cone(deep_mm=300.0, angle_deg=75.0, spots_mm=(280.0, 155.0, 30.0)),
            expects=frozenset(
                {
                    ("rivet/row_2", "rivet/row_1"),
                    ("rivet/row_1", "rivet/row_0"),
                    ("rivet/row_0 | rivet/row_1 | rivet/row_2", ""),
                }
            ),
        ),
        Example(title="A single rivet", pattern=sketch(_UPPER, _LOWER, joints=_ROW[:1])),
    ),
)
