"""Leather to buy: area inside the outlines over the yield of a hide, its mass, its largest part."""

from collections.abc import Iterable
from math import ceil

from armorplan.assembly.model import Assembly
from armorplan.geometry.areas import outline_dm2, rectangle_mm
from armorplan.kernel.units import MM2_PER_DM2, mm2_to_square_feet
from armorplan.needs.measures import priced
from armorplan.needs.model import LeatherNeed
from armorplan.pattern.parts import Material, Part
from armorplan.workshop.shelf import USUAL_YIELD_PCT, Leather, Shelf

DENSITY_G_PER_CM3 = (0.85, 0.95, 1.05)
"""Least, middle, most of vegetable-tanned leather (from memory; ISO 2420 is the method to test)."""
FOOT_30_DM2 = 9.0
"""A 'foot' of 30 × 30 cm; a square foot is 9.29 dm², 3.2 % more (9 dm² is 3.1 % less)."""
SIDE_FT2 = 23.0
"""Middle of 20 to 26 ft² (trade page; from memory)."""
DOUBLE_SHOULDER_FT2 = (8.0, 15.0)
_MM2_G_PER_CM3 = 1e-3


def hide_words(buy_ft2: float) -> str:
    """Return about how much of a hide an area is, in words of the trade."""
    for most, words in (
        (0.12, "an offcut"),
        (0.375, "about a quarter of a side"),
        (0.625, "about half a side"),
        (0.875, "about three quarters of a side"),
        (1.125, "about one side"),
    ):
        if buy_ft2 / SIDE_FT2 <= most:
            least, largest = DOUBLE_SHOULDER_FT2
            return f"{words} or a double shoulder" if least < buy_ft2 <= largest else words
    return f"about {round(buy_ft2 / SIDE_FT2 * 2) / 2:g} sides"


def leather_needs(assembly: Assembly, shelf: Shelf) -> tuple[LeatherNeed, ...]:
    """Return the leather of a build, one row for each leather and thickness as it is sold."""
    materials = {material.id: material for material in assembly.pattern.materials}
    groups: dict[tuple[str, float | None, float], list[Part]] = {}
    for sided in assembly.parts:
        material = materials[sided.part.material]
        key = (material.leather, material.least_mm, material.thickness_mm)
        groups.setdefault(key, []).append(sided.part)
    return tuple(
        _need(materials[parts[0].material], parts, shelf.leather(leather))
        for (leather, _, _), parts in groups.items()
    )


def _need(material: Material, parts: list[Part], leather: Leather | None) -> LeatherNeed:
    net_dm2 = sum(outline_dm2(part) * part.count for part in parts)
    yield_pct = leather.yield_pct if leather else USUAL_YIELD_PCT
    buy_dm2 = net_dm2 / (yield_pct / 100)
    buy_ft2 = mm2_to_square_feet(buy_dm2 * MM2_PER_DM2)
    largest, largest_mm = _largest(parts)
    least_mm = material.thickness_mm if material.least_mm is None else material.least_mm
    light, _, heavy = DENSITY_G_PER_CM3
    net_mm2 = net_dm2 * MM2_PER_DM2
    return LeatherNeed(
        leather=material.leather,
        name=leather.name if leather else material.leather,
        least_mm=material.least_mm,
        thickness_mm=material.thickness_mm,
        parts=sum(part.count for part in parts),
        net_dm2=net_dm2,
        yield_pct=yield_pct,
        buy_dm2=buy_dm2,
        buy_ft2=buy_ft2,
        feet_30=ceil(buy_dm2 / FOOT_30_DM2),
        mass_g=(
            net_mm2 * least_mm * light * _MM2_G_PER_CM3,
            net_mm2 * material.thickness_mm * heavy * _MM2_G_PER_CM3,
        ),
        largest=largest,
        largest_mm=largest_mm,
        hide=hide_words(buy_ft2),
        cost=priced(buy_dm2, leather.price_per_dm2 if leather else None),
    )


def _largest(parts: Iterable[Part]) -> tuple[str, tuple[float, float]]:
    each_once = {part.id: part for part in parts}.values()
    boxes = [(rectangle_mm(part.outline), part.name) for part in each_once]
    box, name = max(boxes, key=lambda found: found[0])
    return name, box
