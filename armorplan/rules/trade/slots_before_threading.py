"""A slot is cut before anything goes through it."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.joining import Thread
from armorplan.pattern.parts import PartKind
from armorplan.pattern.wearing import HardwareUse
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(
    code="slots-before-threading", force=Force.CANNOT, source="follows from the step itself"
)


def _derive(facts: Facts) -> Iterator[Relation]:
    for thread in facts.assembly.threads:
        step = facts.step_for(StepKind.THREAD, thread.id)
        for host in thread.hosts if step else ():
            yield from _slots(facts, host, step, f"{facts.name(thread.part)} goes through")
    for hardware in facts.assembly.hardware:
        step = facts.step_for(StepKind.MOUNT, hardware.id)
        if step is not None:
            yield from _slots(facts, hardware.part, step, "The tongue of the buckle goes through")


def _slots(facts: Facts, part: str, step: Step | None, what: str) -> Iterator[Relation]:
    if step is None or not facts.assembly.part(part).part.slots:
        return
    for punch in facts.work.touching(part, StepKind.PUNCH):
        yield _GROUND.before(
            punch.id,
            step.id,
            f"{what} a slot of {facts.name(part)}: it has to be cut first.",
            about=(part,),
        )


_STRAP = sketch_part("strap", kind=PartKind.STRAP)

RULE = Rule(
    code=_GROUND.code,
    name="Cut a slot before it is used",
    why="A strap or keeper goes through a slot, and the tongue of a buckle through its own. The slot "
    "is cut with the other holes, while the part is flat.",
    mend="It cannot happen. If a slot turns out too short when the strap is at hand, lengthen it by "
    "a punched hole at its end, so that it does not tear on.",
    force=_GROUND.force,
    source=_GROUND.source,
    derive=_derive,
    examples=(
        Example(
            title="A strap through the slot of a plate",
            pattern=sketch(
                sketch_part("plate", slots=("way",)),
                _STRAP,
                threads=(Thread(id="t", part="strap", through=("way",)),),
            ),
            expects=frozenset({("punch/plate", "thread/t")}),
        ),
        Example(
            title="A buckle whose tongue has a slot in the strap",
            pattern=replace(
                sketch(sketch_part("strap", kind=PartKind.STRAP, slots=("tongue",))),
                hardware=(HardwareUse(id="buckle", use="buckle", part="strap"),),
            ),
            expects=frozenset({("punch/strap", "put-on/buckle")}),
        ),
        Example(
            title="A strap through a keeper, which has no slot",
            pattern=sketch(
                _STRAP,
                sketch_part("keeper", kind=PartKind.KEEPER),
                threads=(Thread(id="t", part="strap", through=("keeper",)),),
            ),
        ),
    ),
)
