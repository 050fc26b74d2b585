"""Where two bent layers slide on each other, side by side, with the work that shapes and joins them."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from armorplan.assembly.model import SidedForm, SidedJoint
from armorplan.geometry.bends.slides import LayerSlide, layer_slides
from armorplan.geometry.bends.ways import Way, way_of
from armorplan.rules.facts import Facts
from armorplan.steps.model import Step, StepKind

_SHAPING = (StepKind.FORM, StepKind.FORM_DRY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slide:
    """An outer layer that slides on an inner one, on one side.

    Attributes:
        outer, inner: ids of the sided parts.
        joints: ids of the sided joints through both.
        shaping: the steps that bend them: one, or one for each layer.
        layers: what the shapes tell of it.
        way: how they are bent and fastened.
    """

    outer: str
    inner: str
    joints: tuple[str, ...]
    shaping: tuple[Step, ...]
    layers: LayerSlide
    way: Way


def slides(facts: Facts) -> Iterator[Slide]:
    """Yield layers joined at two places or more that are bent."""
    found = layer_slides(facts.assembly.pattern)
    if not found:
        return
    sided: dict[str, list[SidedJoint]] = {}
    for joint in facts.assembly.joints:
        sided.setdefault(joint.joint.id, []).append(joint)
    for layers in found:
        way = way_of(layers, facts.shelf.constants)
        forms = [form for form in facts.assembly.forms if form.form.id in layers.forms]
        for pair, joints in _pairs(facts, layers, sided).items():
            yield Slide(
                outer=pair[0],
                inner=pair[1],
                joints=tuple(joints),
                shaping=tuple(_shaping(facts, forms, pair)),
                layers=layers,
                way=way,
            )


def _pairs(
    facts: Facts, layers: LayerSlide, sided: dict[str, list[SidedJoint]]
) -> dict[tuple[str, str], list[str]]:
    """Return the sided joints through both layers, by the sided ids of outer and inner."""
    found: dict[tuple[str, str], list[str]] = {}
    for joint in (each for plain in layers.joints for each in sided.get(plain, ())):
        for (outer, _), (inner, _) in pairwise(joint.stack):
            plain = tuple(facts.assembly.part(part).part.id for part in (outer, inner))
            if plain == (layers.outer, layers.inner):
                found.setdefault((outer, inner), []).append(joint.id)
    return found


def _shaping(facts: Facts, forms: list[SidedForm], pair: tuple[str, str]) -> Iterator[Step]:
    for form in forms:
        if set(pair) & set(form.parts):
            steps = (facts.step_for(kind, form.id) for kind in _SHAPING)
            yield from (step for step in steps if step)
