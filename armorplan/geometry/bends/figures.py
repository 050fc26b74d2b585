"""The numbers of layers that slide in a bend, each with the way it was come by."""

from collections.abc import Iterator
from math import degrees

from armorplan.geometry.bends.numbers import tenths
from armorplan.geometry.bends.slides import LayerSlide, Spacing
from armorplan.geometry.sources import CIRCLE, MEASURED
from armorplan.kernel.figures import Figure
from armorplan.kernel.units import NEAR_MM, near
from armorplan.pattern.parts import Part
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constant, Constants

_SAME_MM = 0.05
"""Told to a tenth, slides nearer to each other than this read alike."""


def slide_figures(pattern: Pattern, slide: LayerSlide, constants: Constants) -> Iterator[Figure]:
    """Yield the numbers of a slide with the way each was come by."""
    yield Figure(
        name="distance of the middles d",
        value=slide.apart_mm,
        unit="mm",
        formula=_apart_formula(pattern, slide),
        source="thicknesses as written",
    )
    yield from _between(slide, constants)
    yield from _in_all(pattern, slide, constants)


def _worst(slide: LayerSlide) -> Spacing | None:
    """Return the spacing that has to give the largest share of itself."""
    return max(
        (s for s in slide.spacings if s.slide_mm is not None),
        key=lambda s: (s.slide_mm or 0.0) / s.spacing_mm,
        default=None,
    )


def _between(slide: LayerSlide, constants: Constants) -> Iterator[Figure]:
    worst = _worst(slide)
    if worst is None or worst.slide_mm is None or slide.slide_pct is None:
        return
    flat, damp = constants.flat_slide, constants.damp_slide
    yield Figure(
        name="slide per spacing",
        value=slide.slide_pct,
        unit="%",
        formula=f"{_pct_formula(slide, worst.spacing_mm, worst.slide_mm)}; up to {flat.value:g} % is "
        f"riveted flat, up to {damp.value:g} % bent damp",
        source=f"{CIRCLE}; limits: {_sources(flat, damp)}",
    )
    least_mm = min(each.slide_mm for each in slide.spacings if each.slide_mm is not None)
    less = worst.slide_mm - least_mm > _SAME_MM
    yield Figure(
        name="slide from one fastener to the next",
        value=worst.slide_mm,
        unit="mm",
        formula=f"{slide.slide_pct:.2f} % of {worst.spacing_mm:.1f} mm = {worst.slide_mm:.2f} mm"
        f"{f'; the least is {least_mm:.2f} mm' * less}",
        source=CIRCLE,
    )


def _sources(*limits: Constant) -> str:
    return "; ".join(dict.fromkeys(limit.source for limit in limits))


def _in_all(pattern: Pattern, slide: LayerSlide, constants: Constants) -> Iterator[Figure]:
    misfit = constants.misfit
    if slide.total_mm is not None and not slide.along:
        yield Figure(
            name="slide in all",
            value=slide.total_mm,
            unit="mm",
            formula=f"{_total_formula(slide, pattern.part(slide.inner))}; {misfit.value:g} mm is made up by punch and leather",
            source=f"{CIRCLE}; {misfit.name}: {misfit.source}",
        )
        yield Figure(
            name="holes at the ends are out by, the middle in its place",
            value=slide.total_mm / 2,
            unit="mm",
            formula=f"half of {slide.total_mm:.2f} mm = {slide.total_mm / 2:.2f} mm",
            source=CIRCLE,
        )
    if slide.wider:
        yield Figure(
            name="the outer row is longer by",
            value=slide.wider_mm,
            unit="mm",
            formula=MEASURED,
            source=MEASURED,
        )


def _apart_formula(pattern: Pattern, slide: LayerSlide) -> str:
    thick = [pattern.part(part).thickness_mm for part in (slide.outer, slide.inner)]
    washers_mm = slide.apart_mm - sum(thick) / 2
    washers = f" + {washers_mm:.1f} of washers" if washers_mm > NEAR_MM else ""
    return f"({thick[0]:.2f} + {thick[1]:.2f}) / 2{washers} = {slide.apart_mm:.2f} mm"


def _pct_formula(slide: LayerSlide, spacing_mm: float, slide_mm: float) -> str:
    d, radius = slide.apart_mm, slide.radius_mm or 0.0
    if radius and near(slide_mm, spacing_mm * d / radius):
        return f"d / R = {d:.2f} / {tenths(radius)} = {100 * d / radius:.1f} %"
    return (
        f"d · angle / spacing = {slide_mm:.2f} / {spacing_mm:.1f} = "
        f"{100 * slide_mm / spacing_mm:.1f} % (not all of the spacing is bent)"
    )


def _total_formula(slide: LayerSlide, inner: Part) -> str:
    turned_deg = _turned_deg(slide)
    d, radius, total = slide.apart_mm, slide.radius_mm, slide.total_mm
    row_mm = slide.places_mm[-1] - slide.places_mm[0]
    if radius and total is not None and near(total, d * row_mm / radius):
        middle_mm = radius + inner.thickness_mm / 2
        return (
            f"d · row / R = {d:.2f} · {row_mm:.1f} / {tenths(radius)} = {total:.2f} mm by the inner "
            f"radius; by the middle of {inner.name}, {tenths(middle_mm)} mm, it is "
            f"{d * row_mm / middle_mm:.2f} mm"
        )
    return (
        f"d · angle = {slide.apart_mm:.2f} · π · {turned_deg:.1f} / 180 = {slide.total_mm:.2f} mm"
    )


def _turned_deg(slide: LayerSlide) -> float:
    return degrees((slide.total_mm or 0.0) / slide.apart_mm) if slide.apart_mm else 0.0
