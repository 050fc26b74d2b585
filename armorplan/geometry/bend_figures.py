"""The numbers of layers that slide in a bend, each with the way it was come by."""

from collections.abc import Iterator
from math import degrees

from armorplan.geometry.bends import LayerSlide, Spacing
from armorplan.kernel.figures import Figure
from armorplan.kernel.units import NEAR_MM, near
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

CIRCLE = "circle geometry"
DRAWN = "measured on the drawing"
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
    yield from _between(slide)
    yield from _in_all(slide)
    limits = (constants.flat_slide, constants.damp_slide, constants.misfit, constants.oval)
    for limit in limits:
        yield Figure(
            name=limit.name,
            value=limit.value,
            unit=limit.unit,
            formula="a number of the bench: constants.toml",
            source=limit.source,
        )


def _worst(slide: LayerSlide) -> Spacing | None:
    """Return the spacing that has to give the largest share of itself."""
    return max(
        (s for s in slide.spacings if s.slide_mm is not None),
        key=lambda s: (s.slide_mm or 0.0) / s.spacing_mm,
        default=None,
    )


def _between(slide: LayerSlide) -> Iterator[Figure]:
    worst = _worst(slide)
    if worst is None or worst.slide_mm is None or slide.slide_pct is None:
        return
    yield Figure(
        name="slide per spacing",
        value=slide.slide_pct,
        unit="%",
        formula=_pct_formula(slide, worst.spacing_mm, worst.slide_mm),
        source=CIRCLE,
    )
    for spacing_mm, slide_mm in _ends(slide):
        yield Figure(
            name="slide from one fastener to the next",
            value=slide_mm,
            unit="mm",
            formula=f"{100 * slide_mm / spacing_mm:.2f} % of {spacing_mm:.1f} mm = {slide_mm:.2f} mm",
            source=CIRCLE,
        )


def _ends(slide: LayerSlide) -> list[tuple[float, float]]:
    """Return the least and the most slide between neighbours, or the one that all have."""
    found = sorted((s.slide_mm, s.spacing_mm) for s in slide.spacings if s.slide_mm)
    ends = found[:1] + found[-1:]
    if len(ends) > 1 and near(ends[0][0], ends[1][0], within_mm=_SAME_MM):
        ends = ends[:1]
    return [(spacing_mm, slide_mm) for slide_mm, spacing_mm in ends]


def _in_all(slide: LayerSlide) -> Iterator[Figure]:
    if slide.total_mm is not None and not slide.along:
        yield Figure(
            name="slide in all",
            value=slide.total_mm,
            unit="mm",
            formula=_total_formula(slide),
            source=CIRCLE,
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
            formula=DRAWN,
            source=DRAWN,
        )


def _apart_formula(pattern: Pattern, slide: LayerSlide) -> str:
    thick = [pattern.part(part).thickness_mm for part in (slide.outer, slide.inner)]
    washers_mm = slide.apart_mm - sum(thick) / 2
    washers = f" + {washers_mm:.1f} of washers" if washers_mm > NEAR_MM else ""
    return f"({thick[0]:g} + {thick[1]:g}) / 2{washers} = {slide.apart_mm:.2f} mm"


def _pct_formula(slide: LayerSlide, spacing_mm: float, slide_mm: float) -> str:
    d, radius = slide.apart_mm, slide.radius_mm or 0.0
    if radius and near(slide_mm, spacing_mm * d / radius):
        return f"d / R = {d:.2f} / {radius:g} = {100 * d / radius:.1f} %"
    return (
        f"d · angle / spacing = {slide_mm:.2f} / {spacing_mm:.1f} = "
        f"{100 * slide_mm / spacing_mm:.1f} % (not all of the spacing is bent)"
    )


def _total_formula(slide: LayerSlide) -> str:
    turned_deg = _turned_deg(slide)
    return (
        f"d · angle = {slide.apart_mm:.2f} · π · {turned_deg:.1f} / 180 = {slide.total_mm:.2f} mm"
    )


def _turned_deg(slide: LayerSlide) -> float:
    return degrees((slide.total_mm or 0.0) / slide.apart_mm) if slide.apart_mm else 0.0
