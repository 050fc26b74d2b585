"""Curving by hand comes after the finish, and after the flat rivets where that is easier."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.assembly.model import SidedJoint
from armorplan.geometry.bends.ways import Way
from armorplan.pattern.joining import Joint, Route
from armorplan.pattern.parts import Part
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, SLOWER, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_rivet
from armorplan.rules.sliding import Slide, slides
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(code="flat-rivets-before-curve", force=Force.EASIER)
_BENDS_RIVETED = (Way.FLAT, Way.UNTOLD)


def _derive(facts: Facts) -> Iterator[Relation]:
    layers = {
        (step.id, joint): slide
        for slide in slides(facts)
        for step in slide.shaping
        for joint in slide.joints
    }
    for curve in facts.work.of_kind(StepKind.FORM_DRY):
        for joint, step in _between(facts, curve.parts):
            slide = layers.get((curve.id, joint.id))
            if slide is None or slide.way in _BENDS_RIVETED:
                yield _GROUND.before(
                    step.id,
                    curve.id,
                    f"On the flat bench the anvil lies square under {facts.names(joint.parts)}; "
                    f"once curved, the rivet is set on a slope{_gives(slide)}.",
                    about=(*joint.parts, joint.id),
                    price_min=SLOWER * step.minutes,
                )


def _between(facts: Facts, parts: tuple[str, ...]) -> Iterator[tuple[SidedJoint, Step]]:
    """Yield the rivets that hold these parts to each other and to nothing else, with their steps."""
    joints = {joint.id: joint for part in parts for joint in facts.assembly.joints_of(part)}
    for joint in joints.values():
        step = facts.work.setting(joint.id)
        if step is None or step.kind is not StepKind.RIVET:
            continue
        if not joint.closes_on_itself and set(joint.parts) <= set(parts):
            yield joint, step


def _gives(slide: Slide | None) -> str:
    """Say that the layers give what the bend asks for, where the pattern tells how much that is."""
    if slide is None or slide.way is not Way.FLAT:
        return ""
    if slide.layers.along:
        return ". Its row lies along the bend, where nothing slides"
    pct = slide.layers.slide_pct
    asked = "" if pct is None else f" by {pct:.1f} % of their spacing"
    return f". Bent afterwards, the layers slide{asked}, which they can"


_UPPER = sketch_part("upper", holes={"u": (10.0, 10.0)})
_LOWER = sketch_part("lower", holes={"l": (10.0, 10.0)})


def _layer(name: str) -> Part:
    return sketch_part(name, holes={f"{name}_{x:g}": (x, 20.0) for x in (10.0, 70.0)})


def _row() -> tuple[Joint, ...]:
    return tuple(sketch_rivet(f"r_{x}", f"upper_{x}", f"lower_{x}") for x in (10, 70))


_CURVED = sketch_form("bow", "upper", "lower", route=Route.DRY)

RULE = Rule(
    code=_GROUND.code,
    name="Rivet flat, then curve",
    why="A rivet is set fastest and straightest on a flat bench. Where the layers can still be "
    "bent together afterwards, set it flat first. Nothing forbids the other order. Layers riveted at "
    "several places across a tight bend cannot slide as they have to: up to about 5 % of the spacing "
    "they give, and beyond 10 % they are bent first.",
    mend="Set it over a curved anvil or the end of a round bar, with the head square to the blow, "
    "and have someone hold the piece.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="Two layers curved by hand together",
            pattern=sketch(
                _UPPER,
                _LOWER,
                joints=(sketch_rivet("r", "u", "l"),),
                forms=(sketch_form("bow", "upper", "lower", route=Route.DRY),),
            ),
            expects=frozenset({("rivet/r", "curve-by-hand/bow")}),
        ),
        Example(
            title="A row across a wide bend: 3.6 mm over a radius of 95 mm is 4 %",
            pattern=sketch(
                _layer("upper"),
                _layer("lower"),
                joints=_row(),
                forms=(replace(_CURVED, radius_mm=95.0),),
            ),
            expects=frozenset({(f"rivet/r_{x}", "curve-by-hand/bow") for x in (10, 70)}),
        ),
        Example(
            title="A row across a bend that asks for 8 %",
            pattern=sketch(_layer("upper"), _layer("lower"), joints=_row(), forms=(_CURVED,)),
        ),
        Example(
            title="A joint to a part that is not curved along with it",
            pattern=sketch(
                _UPPER,
                _LOWER,
                joints=(sketch_rivet("r", "u", "l"),),
                forms=(sketch_form("bow", "upper", route=Route.DRY),),
            ),
        ),
    ),
)
