"""What is fixed on a plate goes on before the plate is hung on its pivots."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.joining import Motion
from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet

_GROUND = Ground(code="straps-before-lames", force=Force.USUAL)


def _derive(facts: Facts) -> Iterator[Relation]:
    joints = list(facts.joint_steps())
    pivots = [(j, step) for j, step in joints if j.joint.motion is not Motion.FIXED]
    for joint, first in joints:
        plates = facts.plates_under_fittings(joint)
        for pivot, then in pivots:
            mine = plates.intersection(pivot.parts)
            if mine and first.piece == then.piece and not facts.hides(joint.parts, pivot.id):
                name = facts.names(tuple(sorted(mine)))
                yield _GROUND.before(
                    facts.end_of(first).id,
                    then.id,
                    f"{name} by itself lies steady on the anvil; on its pivots the lames swing in the "
                    "way of the hammer.",
                    about=(*joint.parts, pivot.id),
                )


_COP = sketch_part("cop", kind=PartKind.COP, holes={"c1": (10.0, 10.0), "c2": (60.0, 10.0)})
_LAME = sketch_part("lame", kind=PartKind.LAME, holes={"l": (30.0, 10.0)})
_STRAP = sketch_part("strap", kind=PartKind.STRAP, holes={"s": (8.0, 20.0)})
_ON = sketch_rivet("on", "s", "c2")
_PIVOT = replace(sketch_rivet("pivot", "l", "c1"), motion=Motion.TURNING)

RULE = Rule(
    code=_GROUND.code,
    name="Straps and trims before the lames are hung",
    why="A single plate lies steady on the anvil. With its lames hung on, they swing, hide the inside "
    "and get hit. So straps, keepers and trims are fastened to a plate first, and the lames are hung "
    "afterwards.",
    mend="Fold the lames back and tie them there, put leather between them and the anvil, and set it.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A cop with a strap and a lame that turns on it",
            pattern=sketch(_COP, _LAME, _STRAP, joints=(_PIVOT, _ON)),
            expects=frozenset({("rivet/on", "rivet/pivot")}),
        ),
        Example(
            title="A cop with a strap only",
            pattern=sketch(_COP, _STRAP, joints=(_ON,)),
        ),
    ),
)
