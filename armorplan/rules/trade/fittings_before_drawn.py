"""What sits on a plate is fastened while the plate lies open, before its seams draw it round."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.joining import FormKind, Route, Seam
from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, SLOWER, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_rivet

_GROUND = Ground(code="fittings-before-drawn", force=Force.EASIER)


def _derive(facts: Facts) -> Iterator[Relation]:
    drawing = {seam for form in facts.assembly.forms for seam in form.seams}
    seams = [seam for seam in facts.assembly.seams if seam.id in drawing]
    drawn = {joint for seam in seams for joint in seam.joints}
    for joint, first in facts.joint_steps():
        plates = facts.plates_under_fittings(joint) if joint.id not in drawn else frozenset[str]()
        for other in sorted(drawn) if plates else ():
            then = facts.work.setting(other)
            mine = plates.intersection(facts.assembly.joint(other).parts)
            if then is None or not mine or facts.hides(joint.parts, other):
                continue
            yield _GROUND.before(
                facts.end_of(first).id,
                then.id,
                f"{facts.names(tuple(sorted(mine)))} still lies open on the anvil; once the seam "
                "draws it round, this is set from inside the hollow.",
                about=(*joint.parts, other),
                price_min=SLOWER * first.minutes,
            )


_PETAL = sketch_part("petal", kind=PartKind.COP, holes={"p1": (10.0, 10.0), "p2": (60.0, 10.0)})
_OTHER = sketch_part("other", kind=PartKind.COP, holes={"o": (10.0, 10.0)})
_STRAP = sketch_part("strap", kind=PartKind.STRAP, holes={"s": (8.0, 20.0)})
_JOINTS = (sketch_rivet("row_1", "p1", "o"), sketch_rivet("on", "s", "p2"))
_ROW = Seam(id="row", name="Row", joints=("row_1",))
_CUP = replace(
    sketch_form("cup", "petal", "other", route=Route.BY_SEAM),
    kind=FormKind.CLOSURE,
    seams=("row",),
)

RULE = Rule(
    code=_GROUND.code,
    name="Fittings before the seams draw it round",
    why="As long as petals or plates lie open, the anvil stands square under every rivet of a strap, "
    "tab, keeper or boss. The seams then draw them into a cup, and inside a cup there is room only "
    "for a small anvil and a short blow.",
    mend="Use a bar anvil that reaches into the hollow, or a rivet that is set by pressing, and have "
    "someone hold the piece.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A strap on a petal that a row of rivets draws into a cup",
            pattern=sketch(_PETAL, _OTHER, _STRAP, joints=_JOINTS, seams=(_ROW,), forms=(_CUP,)),
            expects=frozenset({("rivet/on", "rivet/row_1")}),
        ),
        Example(
            title="A strap on a plate whose seam leaves it flat",
            pattern=sketch(_PETAL, _OTHER, _STRAP, joints=_JOINTS, seams=(_ROW,)),
        ),
    ),
)
