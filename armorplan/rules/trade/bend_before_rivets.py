"""Layers that slide too far when they are bent are bent before they are riveted."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.geometry.bends.slides import LayerSlide
from armorplan.geometry.bends.ways import Way
from armorplan.pattern.joining import Form, Joint, Route
from armorplan.pattern.parts import Part
from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_rivet
from armorplan.rules.sliding import Slide, slides
from armorplan.steps.model import StepKind

_GROUND = Ground(
    code="bend-before-rivets",
    force=Force.SPOIL,
    source="circle geometry: two layers d apart at radius R slide by d / R of their spacing; the "
    f"limit: {COMMON_PRACTICE}",
)
_BENT_FIRST = (Way.FIRST, Way.MADE_BENT)


def _derive(facts: Facts) -> Iterator[Relation]:
    for slide in slides(facts):
        if slide.way not in _BENT_FIRST:
            continue
        text, numbers = _text(facts, slide), _numbers(slide.layers)
        for curve in slide.shaping:
            for joint in slide.joints:
                step = facts.work.setting(joint)
                if step is not None and curve.kind is StepKind.FORM_DRY:
                    about = (slide.outer, slide.inner, joint)
                    yield _GROUND.before(curve.id, step.id, text, about=about, numbers=numbers)


def _text(facts: Facts, slide: Slide) -> str:
    outer, inner = facts.name(slide.outer), facts.name(slide.inner)
    layers = slide.layers
    if slide.way is Way.MADE_BENT:
        return (
            f"The row of {outer} is longer than that of {inner} by {layers.wider_mm:.1f} mm, as the "
            "bend asks for: their holes meet only once both are bent."
        )
    limit = facts.shelf.constants.damp_slide
    return (
        f"Held flat on {inner} by these fasteners, {outer} cannot slide on it in the bend: it would "
        f"have to give {layers.slide_pct:.0f} % from one to the next, and {limit.value:g} % is the "
        "most it gives before it buckles or tears at its holes."
    )


def _numbers(layers: LayerSlide) -> tuple[Quantity, ...]:
    pct, total_mm = layers.slide_pct or 0.0, layers.total_mm or 0.0
    return (
        Quantity(name="slide per spacing", value=pct, unit="%"),
        Quantity(name="slide in all", value=total_mm, unit="mm"),
    )


def _layer(name: str, *places: float) -> Part:
    return sketch_part(name, holes={f"{name}_{at}": (x, 20.0) for at, x in enumerate(places)})


def _rivets(count: int) -> tuple[Joint, ...]:
    return tuple(sketch_rivet(f"r{at}", f"upper_{at}", f"lower_{at}") for at in range(count))


def _cuff(radius_mm: float, **more: object) -> Form:
    form = sketch_form("bow", "upper", "lower", route=Route.DRY)
    return replace(form, radius_mm=radius_mm, **more)  # type: ignore[arg-type]


_ENDS = (10.0, 70.0)
_BOTH = frozenset({("curve-by-hand/bow", "rivet/r0"), ("curve-by-hand/bow", "rivet/r1")})

RULE = Rule(
    code=_GROUND.code,
    name="Bend first where the layers slide too far",
    why="Bend a book and its pages slide. Two layers riveted to each other cannot: between two "
    "rivets the outer one has further to go, by the distance of their middles over the radius. A "
    "wide plate asks for a twentieth, and leather gives that; a tight cuff asks for more than a tenth, "
    "and the outer layer tears at its holes or the inner one buckles. So each layer is bent, and the "
    "outer one is punched over the inner one, or its row is drawn longer by the slide.",
    mend="Drill out every other rivet across the bend, bend it, and punch the outer layer anew where "
    "its holes no longer meet; cover what shows with a larger cap.",
    force=_GROUND.force,
    source=_GROUND.source,
    derive=_derive,
    examples=(
        Example(
            title="A tight cuff of two layers: 3.6 mm over a radius of 30 mm is 12 %",
            pattern=sketch(
                _layer("upper", *_ENDS),
                _layer("lower", *_ENDS),
                joints=_rivets(2),
                forms=(_cuff(30.0),),
            ),
            expects=_BOTH,
        ),
        Example(
            title="A wider cuff whose outer row is drawn longer by the slide",
            pattern=sketch(
                _layer("upper", 8.5, 71.5),
                _layer("lower", *_ENDS),
                joints=_rivets(2),
                forms=(_cuff(72.0),),
            ),
            expects=_BOTH,
        ),
        Example(
            title="A trim with a longer row, curved by hand over a plate that was shaped damp",
            pattern=sketch(
                _layer("upper", 8.5, 71.5),
                _layer("lower", *_ENDS),
                joints=_rivets(2),
                forms=(
                    replace(sketch_form("bow", "upper", route=Route.DRY), radius_mm=72.0),
                    replace(sketch_form("shell", "lower", route=Route.DAMP), radius_mm=72.0),
                ),
            ),
            expects=_BOTH,
        ),
        Example(
            title="A wide plate: 3.6 mm over a radius of 95 mm is 4 %",
            pattern=sketch(
                _layer("upper", *_ENDS),
                _layer("lower", *_ENDS),
                joints=_rivets(2),
                forms=(_cuff(95.0),),
            ),
        ),
        Example(
            title="A tight cuff whose row lies along the bend",
            pattern=sketch(
                _layer("upper", *_ENDS),
                _layer("lower", *_ENDS),
                joints=_rivets(2),
                forms=(_cuff(30.0, axis=((0.0, 20.0), (80.0, 20.0))),),
            ),
        ),
    ),
)
