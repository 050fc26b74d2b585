"""A lining goes in while its plate still lies open."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.assembly.model import SidedJoint
from armorplan.pattern.joining import FormKind, JointKind, Route, Seam
from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Force, Relation
from armorplan.rules.closing import closing_joints, closing_rings
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_glue, sketch_part, sketch_rivet
from armorplan.steps.model import Step

_GROUND = Ground(code="lining-before-closed", force=Force.USUAL)
_FLAT = (JointKind.GLUE, JointKind.STITCH)


def _derive(facts: Facts) -> Iterator[Relation]:
    for flat, step in facts.joint_steps():
        linings = [p for p in flat.parts if facts.assembly.part(p).part.kind is PartKind.LINING]
        if flat.joint.kind in _FLAT and linings:
            yield from _lined(facts, flat, step, tuple(linings))


def _lined(
    facts: Facts, flat: SidedJoint, step: Step, linings: tuple[str, ...]
) -> Iterator[Relation]:
    """Yield what closes the parts that a lining is put in, each after the lining."""
    first = facts.end_of(step).id
    for part in flat.parts:
        if part in linings:
            continue
        text = (
            f"While {facts.name(part)} lies open, a lining can be pressed down without a bubble to "
            "its very edge; once it is closed no hand gets in."
        )
        for joint in closing_joints(facts.assembly, part):
            then = facts.work.setting(joint.id)
            if then and then.id != step.id and not facts.hides(linings, joint.id):
                yield _GROUND.before(first, then.id, text, about=(*flat.parts, joint.id))
        for ring in closing_rings(facts.assembly, part):
            if closing := facts.steps_setting(ring) - {step.id}:
                yield _GROUND.before_all(first, closing, text, about=(*flat.parts, *sorted(ring)))


_PLATE = sketch_part("plate", holes={"p": (10.0, 10.0), "q": (70.0, 10.0)})
_SIDE = sketch_part("side", holes={"s": (30.0, 10.0), "t": (70.0, 10.0)})
_BACK = sketch_part("back", holes={"b": (10.0, 10.0), "d": (70.0, 10.0)})
_LINING = sketch_part("lining", kind=PartKind.LINING)
_LINED = sketch_glue("g", "plate", "lining")
_ON_SIDE = sketch_rivet("on_side", "p", "s")
_SHUT = replace(
    sketch_form("cup", "plate", "side", route=Route.BY_SEAM), kind=FormKind.CLOSURE, seams=("row",)
)

RULE = Rule(
    code=_GROUND.code,
    name="Line a plate while it is open",
    why="A lining is glued or stitched over its whole face. On an open plate it is rolled on from one "
    "end, with no bubble, and clamped. Inside a closed cop or tube neither hand nor clamp reaches. "
    "What counts as closed: a joint that fastens a part to itself, a seam that the pattern names in "
    "a form of kind closure, and the last joint of a ring of plates, or of two plates joined by two "
    "seams. A pivot, and a rivet that only hangs one plate on the next, closes nothing. "
    "What the lining is to cover, such as the burrs of straps, is set before it.",
    mend="Work in from the nearest opening with a bone folder, a strip at a time; or take out the last "
    "few rivets of a seam, line it, and set them again.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A lined plate that is riveted to itself",
            pattern=sketch(_PLATE, _LINING, joints=(sketch_rivet("row_1", "p", "q"), _LINED)),
            expects=frozenset({("dry/g.glue", "rivet/row_1")}),
        ),
        Example(
            title="A lined plate that a seam draws into a cup",
            pattern=sketch(
                _PLATE,
                _SIDE,
                _LINING,
                joints=(_ON_SIDE, _LINED),
                seams=(Seam(id="row", name="Row", joints=("on_side",)),),
                forms=(_SHUT,),
            ),
            expects=frozenset({("dry/g.glue", "rivet/on_side")}),
        ),
        Example(
            title="A lined plate in a ring of three, open until the last of its rivets",
            pattern=sketch(
                _PLATE,
                _SIDE,
                _BACK,
                _LINING,
                joints=(
                    _ON_SIDE,
                    sketch_rivet("behind", "t", "b"),
                    sketch_rivet("round", "d", "q"),
                    _LINED,
                ),
            ),
            expects=frozenset({("dry/g.glue", "rivet/behind | rivet/on_side | rivet/round")}),
        ),
        Example(
            title="A lined plate riveted to its neighbour lies as open as before",
            pattern=sketch(_PLATE, _SIDE, _LINING, joints=(_ON_SIDE, _LINED)),
        ),
        Example(
            title="A plate without a lining",
            pattern=sketch(_PLATE, joints=(sketch_rivet("row_1", "p", "q"),)),
        ),
    ),
)
