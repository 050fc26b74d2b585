"""Bends: what each asks of its layers and leather, and what the part measures flat and bent."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.geometry.bends.axes import Axes, bend_axes
from armorplan.geometry.bends.drawn import bend_marks, part_picture, slide_picture
from armorplan.geometry.bends.ends import ends_figures, ends_of
from armorplan.geometry.bends.figures import slide_figures
from armorplan.geometry.bends.formed import Bent, bent
from armorplan.geometry.bends.kinds import BENT_KINDS
from armorplan.geometry.bends.layers import Lifts, lifted, lifts
from armorplan.geometry.bends.lines import crosses
from armorplan.geometry.bends.numbers import tenths
from armorplan.geometry.bends.parts import part_figures, part_findings, part_text, part_verdict
from armorplan.geometry.bends.slides import LayerSlide, layer_slides
from armorplan.geometry.bends.ways import way_of
from armorplan.geometry.bends.words import slide_findings, slide_text, slide_verdict
from armorplan.geometry.lames.links import links
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.findings import Finding, Severity, gravest
from armorplan.pattern.joining import Form, Motion
from armorplan.pattern.parts import Part
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constant
from armorplan.workshop.shelf import Shelf


def bend_measures(pattern: Pattern, shelf: Shelf) -> Iterator[Measure]:
    """Yield each two layers that slide in a bend, and each part that is bent, folded or dished."""
    axes, by = bend_axes(pattern), lifts(pattern)
    for slide in _slides(pattern):
        yield _of_layers(pattern, shelf, (axes, by), slide)
    for form in pattern.forms:
        if form.radius_mm is None and form.kind not in BENT_KINDS:
            continue
        for part in form.parts:
            shaped = lifted(form, part, by), pattern.part(part)
            yield _of_part(pattern, shelf, axes, shaped)


def _slides(pattern: Pattern) -> Iterator[LayerSlide]:
    """Yield the layers that slide; lames that turn on their pivots are told of as lames."""
    slides = layer_slides(pattern)
    turning = {joint.id for joint in pattern.joints if joint.motion is Motion.TURNING}
    lames = links(pattern) if turning else {}
    for slide in slides:
        one, other = sorted((slide.outer, slide.inner))
        if (one, other) not in lames or not turning.issuperset(slide.joints):
            yield slide


def neutral_for(pattern: Pattern, shelf: Shelf, part: Part) -> Constant:
    """Return where a part's leather keeps its length: by its own test strip, or as usual."""
    material = next((m for m in pattern.materials if m.id == part.material), None)
    leather = shelf.leather(material.leather) if material else None
    usual = shelf.constants.neutral
    if leather is None or leather.neutral is None:
        return usual
    return Constant(
        value=leather.neutral,
        unit=usual.unit,
        name=usual.name,
        source=f"{leather.name}: {leather.source}",
    )


def _bent(
    pattern: Pattern, shelf: Shelf, axes: Axes, shaped: tuple[Form, Part]
) -> tuple[Part, Bent]:
    form, part = shaped
    neutral = neutral_for(pattern, shelf, part).value
    return part, bent(form, part, neutral, axes.get((form.id, part.id)))


def _of_layers(
    pattern: Pattern, shelf: Shelf, lying: tuple[Axes, Lifts], slide: LayerSlide
) -> Measure:
    axes, by = lying
    way = way_of(slide, shelf.constants)
    found = tuple(slide_findings(pattern, slide, way, shelf.constants))
    severity = gravest(finding.severity for finding in found)
    forms = {form.id: form for form in pattern.forms if form.id in slide.forms}
    shaped = ((slide.forms[0], slide.outer), (slide.forms[-1], slide.inner))
    over, under = (
        _bent(pattern, shelf, axes, (lifted(forms[form], part, by), pattern.part(part)))
        for form, part in shaped
    )
    verdict = slide_verdict(slide, way, shelf.constants)
    return Measure(
        id=f"bends:{'+'.join(slide.forms)}:{slide.outer}:{slide.inner}",
        topic=Topic.BENDS,
        title=f"{over[0].name} on {under[0].name}, {_words(_as_told(slide, forms[slide.forms[0]]))}",
        verdict=verdict,
        text=" ".join(
            (slide_text(pattern, slide, way, shelf.constants), *(f.remedy for f in found))
        ),
        figures=(
            *slide_figures(pattern, slide, shelf.constants),
            *(() if (ends := ends_of(pattern, slide, way)) is None else ends_figures(ends)),
        ),
        findings=found,
        marks=tuple(
            mark
            for part, each in (over, under)
            for mark in bend_marks(part, each, verdict, severity)
        ),
        about=(*slide.forms, slide.outer, slide.inner, *slide.joints),
        picture=slide_picture(pattern, slide, over, under),
    )


def _of_part(pattern: Pattern, shelf: Shelf, axes: Axes, shaped: tuple[Form, Part]) -> Measure:
    form, part = shaped
    neutral = neutral_for(pattern, shelf, part)
    _, found = _bent(pattern, shelf, axes, shaped)
    told = (
        *part_findings(form, part, found, shelf.constants),
        *_outside(pattern, form, part),
    )
    severity = gravest(finding.severity for finding in told)
    verdict = part_verdict(form, part, found, told)
    return Measure(
        id=f"bends:{form.id}:{part.id}",
        topic=Topic.BENDS,
        title=f"{part.name}, {_words(form)}{_over(pattern, form)}",
        verdict=verdict,
        text=" ".join(part_text(form, part, found, told)),
        figures=tuple(part_figures(form, part, found, neutral, shelf.constants)),
        findings=told,
        marks=tuple(bend_marks(part, found, verdict, severity)),
        about=(form.id, part.id),
        picture=part_picture(part, found) if form.kind in BENT_KINDS else None,
    )


def _outside(pattern: Pattern, form: Form, part: Part) -> Iterator[Finding]:
    """Yield an axis that lies over none of the parts of its form, told once at the first of them."""
    parts = [pattern.part(each) for each in form.parts]
    if form.axis is None or part.id != form.parts[0] or any(crosses(form.axis, p) for p in parts):
        return
    names = " nor ".join(each.name for each in parts)
    yield Finding(
        code="bend-outside-part",
        severity=Severity.WARNING,
        text=f"The axis of '{form.id}' lies {'outside' if len(parts) == 1 else 'over neither'} "
        f"{names}: where it bends is not known.",
        remedy="Draw the axis across the part that it bends.",
        about=(form.id, *form.parts),
    )


def _over(pattern: Pattern, lifted_: Form) -> str:
    """Say why a layer is bent to more than its form says: others of that bend lie under it."""
    form = next(each for each in pattern.forms if each.id == lifted_.id)
    if form.radius_mm is None or form.radius_mm == lifted_.radius_mm:
        return ""
    return f" ({tenths(form.radius_mm)} mm and what lies under it)"


def _as_told(slide: LayerSlide, form: Form) -> Form:
    """Return the form of an outer layer with the radius and angle that its slide is reckoned with."""
    return replace(form, radius_mm=slide.radius_mm, angle_deg=slide.angle_deg)


def _words(form: Form) -> str:
    kind = {"bend": "bent", "fold": "folded", "dish": "dished"}.get(form.kind, "drawn")
    radius = f" to {tenths(form.radius_mm)} mm" if form.radius_mm is not None else ""
    angle = f", {tenths(form.angle_deg)}°" if form.angle_deg is not None else ""
    return f"{kind}{radius}{angle}"
