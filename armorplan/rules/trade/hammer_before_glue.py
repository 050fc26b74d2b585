"""What is hammered or bent beside a glued face is done before the glue is wet."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.kernel.units import span_words
from armorplan.pattern.joining import JointKind, Motion
from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Before, BeforeAll, Force, Relation
from armorplan.rules.facts import GIVES_WAY, Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.overruling import overruled
from armorplan.rules.sketches import sketch, sketch_glue, sketch_part, sketch_rivet
from armorplan.rules.trade import lining_before_closed
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(code="hammer-before-glue", force=Force.USUAL)


def _derive(facts: Facts) -> Iterator[Relation]:
    lined = _before_closing(facts)
    for glue in facts.work.of_kind(StepKind.GLUE):
        dry = facts.work.drying_of(glue.id)
        if dry is None:
            continue
        for step in facts.handles_glued(glue):
            through_all = bool(step.joints) and set(glue.parts) <= set(step.parts)
            if through_all or (dry.id, step.id) in lined:
                continue
            if not (step.joints and facts.opens_again(step)):
                yield _first_hammer(facts, step, glue, dry)
            elif facts.assembly.joint(step.joints[0]).joint.motion is not Motion.FIXED:
                yield _hung_later(facts, glue, dry, step)


def _before_closing(facts: Facts) -> frozenset[tuple[str, str]]:
    """Return the dryings of linings with what closes over them, unless the maker lines later."""
    relations, _ = overruled(tuple(lining_before_closed.RULE.derive(facts)), facts)
    found: set[tuple[str, str]] = set()
    for relation in relations:
        if relation.reason.overruled:
            continue
        match relation:
            case Before(first=first, then=then):
                found.add((first, then))
            case BeforeAll(first=first, of=of):
                found.update((first, then) for then in of)
            case _:
                pass
    return frozenset(found)


def _wet(facts: Facts, glue: Step, dry: Step, step: Step) -> str:
    return (
        f"The glue between {facts.names(glue.parts)} {GIVES_WAY[step.kind]} until it has set "
        f"{span_words(dry.minutes)}"
    )


def _first_hammer(facts: Facts, step: Step, glue: Step, dry: Step) -> Before:
    text = f"{_wet(facts, glue, dry, step)}: this is done before it is spread."
    return _GROUND.before(step.id, glue.id, text, about=glue.parts)


def _hung_later(facts: Facts, glue: Step, dry: Step, pivot: Step) -> Before:
    text = f"{_wet(facts, glue, dry, pivot)}: what swings on it is hung then."
    return _GROUND.before(dry.id, pivot.id, text, about=glue.parts)


_PLATE = sketch_part("plate", holes={"p": (10.0, 10.0), "q": (70.0, 10.0)})
_STRAP = sketch_part("strap", kind=PartKind.STRAP, holes={"s": (8.0, 20.0)})
_LINING = sketch_part("lining", kind=PartKind.LINING)
_ON = sketch_rivet("on", "s", "p")
_LINED = sketch_glue("g", "plate", "lining")
_PIVOT = replace(sketch_rivet("pivot", "p", "l"), kind=JointKind.SCREW, motion=Motion.TURNING)

RULE = Rule(
    code=_GROUND.code,
    name="Hammer and bend before gluing",
    why="Wet glue slides under every blow and opens where its layers are bent, and hours go by until it "
    "has set. What is riveted, stitched or bent on the same parts is therefore done before the glue "
    "is spread, and a lining covers its burrs. What is hung on it with pivot screws is hung when it has "
    "set; a screw that holds fast needs no blow and may come before or after. Where a lining has to go in before the part is closed, the closing waits until its glue has set.",
    mend="Press the layers together again and clamp them, and leave the rest until the glue has set. "
    "What slid is pulled apart while it is fresh, and glued anew.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A strap on a plate whose lining covers the burr",
            pattern=sketch(_PLATE, _STRAP, _LINING, joints=(_ON, _LINED)),
            expects=frozenset({("rivet/on", "glue/g")}),
        ),
        Example(
            title="A lame that is screwed to the lined plate and swings on it",
            pattern=sketch(
                _PLATE,
                sketch_part("lame", holes={"l": (10.0, 10.0)}),
                _LINING,
                joints=(_PIVOT, _LINED),
            ),
            expects=frozenset({("dry/g.glue", "screw/pivot")}),
        ),
        Example(
            title="A lined plate that is riveted to itself waits for the lining",
            pattern=sketch(_PLATE, _LINING, joints=(sketch_rivet("row_1", "p", "q"), _LINED)),
        ),
        Example(
            title="A strap on a plate without glue", pattern=sketch(_PLATE, _STRAP, joints=(_ON,))
        ),
    ),
)
