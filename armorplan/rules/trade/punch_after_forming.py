"""Holes through two layers that slide when bent are punched in the outer one afterwards."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.joining import Form, Joint, Route
from armorplan.pattern.parts import Part
from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_rivet
from armorplan.rules.sliding import Slide, slides
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(
    code="punch-after-forming",
    force=Force.SPOIL,
    source="circle geometry: two layers d apart, bent by an angle, differ by d × angle",
)


def _derive(facts: Facts) -> Iterator[Relation]:
    told = set()
    for slide in slides(facts):
        if not slide.way.parts_holes:
            continue
        for shaped, punch in _waits(facts, slide):
            if (shaped.id, punch.id) in told:
                continue
            told.add((shaped.id, punch.id))
            total_mm = slide.layers.total_mm
            yield _GROUND.before(
                facts.end_of(shaped).id,
                punch.id,
                _text(facts, slide),
                about=(slide.outer, slide.inner),
                numbers=()
                if total_mm is None
                else (Quantity(name="slip", value=total_mm, unit="mm"),),
            )


def _text(facts: Facts, slide: Slide) -> str:
    outer, inner = facts.name(slide.outer), facts.name(slide.inner)
    total_mm = slide.layers.total_mm
    extent = "" if total_mm is None else f" by up to {total_mm:.1f} mm"
    return (
        f"Bent over {inner}, {outer} slides on it{extent}, and holes punched flat no longer meet: "
        f"give both their last shape first, then mark the holes of {outer} through those of {inner}."
    )


def _waits(facts: Facts, slide: Slide) -> Iterator[tuple[Step, Step]]:
    """Yield what shapes or hardens either layer, with the punching of the outer one.

    Wax goes on after the dye, and changes no shape. Of what is curved by hand only the bend that
    the layers slide in counts: the end of a strap may be folded later.
    """
    for punch in facts.work.touching(slide.outer, StepKind.PUNCH):
        for part in (slide.outer, slide.inner):
            for step in facts.work.touching(part, StepKind.FORM, StepKind.HARDEN):
                if not (step.kind is StepKind.HARDEN and facts.is_wax(step)):
                    yield step, punch
        for step in slide.shaping:
            if step.kind is StepKind.FORM_DRY:
                yield step, punch


def _layer(name: str, *places: float) -> Part:
    return sketch_part(name, holes={f"{name}_{x:g}": (x, 20.0) for x in places})


def _rivets(*places: float) -> tuple[Joint, ...]:
    return tuple(sketch_rivet(f"r_{x:g}", f"upper_{x:g}", f"lower_{x:g}") for x in places)


_TIGHT: Form = replace(sketch_form("bow", "upper", "lower", route=Route.DRY), radius_mm=30.0)

RULE = Rule(
    code=_GROUND.code,
    name="Holes through two bent layers after forming",
    why="Bend a book and its pages slide: the outer layer of a bend has the longer way. Two plates "
    "of 3.2 mm bent round by 120 degrees come 6.7 mm apart from the first rivet to the last, and "
    "holes that were punched flat do not meet any more. So the inner plate is punched flat, and both "
    "are shaped, dried and hardened; then the outer one is laid over the inner one, marked through "
    "its holes, and punched. Layers bent dry by hand give a little, so that up to a tenth of their "
    "spacing they are punched flat. Where a slot takes up the slip, where it is less than the play of "
    "a hole, or where the outer row is drawn longer by it, holes can be punched flat too.",
    mend="Lengthen the hole that misses into a slot under a washer or a larger cap, if it misses by "
    "a few millimetres. Otherwise plug it with a glued disc and punch it where it belongs.",
    force=_GROUND.force,
    source=_GROUND.source,
    derive=_derive,
    examples=(
        Example(
            title="Two plates bent together and riveted at both ends",
            pattern=sketch(
                _layer("upper", 10.0, 70.0),
                _layer("lower", 10.0, 70.0),
                joints=_rivets(10.0, 70.0),
                forms=(sketch_form("bow", "upper", "lower"),),
            ),
            expects=frozenset({("dry/bow.form", "punch/upper")}),
        ),
        Example(
            title="Two plates bent one by one, the inner one hardened: the outer one waits for both",
            pattern=sketch(
                _layer("upper", 10.0, 70.0),
                _layer("lower", 10.0, 70.0),
                joints=_rivets(10.0, 70.0),
                forms=(
                    sketch_form("over", "upper"),
                    replace(
                        sketch_form("under", "lower", route=Route.HARDENED), hardening="hot_water"
                    ),
                ),
            ),
            expects=frozenset(
                {
                    ("dry/over.form", "punch/upper"),
                    ("dry/under.form", "punch/upper"),
                    ("dry/under.harden", "punch/upper"),
                }
            ),
        ),
        Example(
            title="A tight cuff curved by hand: 12 % from rivet to rivet",
            pattern=sketch(
                _layer("upper", 10.0, 70.0),
                _layer("lower", 10.0, 70.0),
                joints=_rivets(10.0, 70.0),
                forms=(_TIGHT,),
            ),
            expects=frozenset({("curve-by-hand/bow", "punch/upper")}),
        ),
        Example(
            title="Two plates bent together and riveted at one place only",
            pattern=sketch(
                _layer("upper", 10.0),
                _layer("lower", 10.0),
                joints=_rivets(10.0),
                forms=(sketch_form("bow", "upper", "lower"),),
            ),
        ),
        Example(
            title="A bent plate riveted twice to one that stays flat",
            pattern=sketch(
                _layer("upper", 10.0, 70.0),
                _layer("lower", 10.0, 70.0),
                joints=_rivets(10.0, 70.0),
                forms=(sketch_form("bow", "upper"),),
            ),
        ),
    ),
)
