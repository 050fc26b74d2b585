"""A buckle or ring goes on before the fold that holds it is shut."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.parts import PartKind
from armorplan.pattern.wearing import HardwareUse
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.model import StepKind

_GROUND = Ground(code="hardware-before-shut", force=Force.CANNOT, source="follows from the shapes")


def _derive(facts: Facts) -> Iterator[Relation]:
    for hardware in facts.assembly.hardware:
        mount = facts.step_for(StepKind.MOUNT, hardware.id)
        held = facts.steps_setting(hardware.held_by)
        if mount is not None and held:
            yield _GROUND.before_all(
                mount.id,
                held,
                f"It sits in {facts.name(hardware.part)} before the last fastener that holds it there."
                if facts.is_stud(hardware)
                else f"Its bar has to lie in the fold of {facts.name(hardware.part)} before the last "
                "fastener shuts the fold: a closed loop takes no buckle or ring.",
                about=(hardware.part, *hardware.held_by),
            )


_STRAP = sketch_part("strap", kind=PartKind.STRAP, holes={"s1": (8.0, 20.0), "s2": (40.0, 20.0)})
_FOLDED = sketch(_STRAP, joints=(sketch_rivet("loop", "s1", "s2"),))
_BUCKLE = HardwareUse(id="buckle", use="buckle", part="strap", held_by=("loop",))

RULE = Rule(
    code=_GROUND.code,
    name="Buckle on before its fold is shut",
    why="A strap is folded round the bar of a buckle or ring and held by a fastener through both "
    "layers. Once that is set, the loop is closed and nothing gets into it any more.",
    mend="Take out the fastener that is easier to set again, put the buckle in, and look which way "
    "its tongue points before you set a new one.",
    force=_GROUND.force,
    source=_GROUND.source,
    derive=_derive,
    examples=(
        Example(
            title="A strap riveted round a buckle",
            pattern=replace(_FOLDED, hardware=(_BUCKLE,)),
            expects=frozenset({("put-on/buckle", "rivet/loop")}),
        ),
        Example(title="A strap folded round nothing", pattern=_FOLDED),
    ),
)
