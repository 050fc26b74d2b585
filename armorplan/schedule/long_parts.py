"""Parts that go into no tray and on no line, however much room is left there."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import sqrt
from types import MappingProxyType

from armorplan.kernel.findings import Finding, Place, Severity
from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.dips import baths_for
from armorplan.schedule.hanging import LINE, Hanging
from armorplan.schedule.room_taken import RoomTaken
from armorplan.steps.model import Step
from armorplan.workshop.places import DipBath

Sides = tuple[float, float]
_NOWHERE: Mapping[str, Place] = MappingProxyType({})


def long_part_findings(
    builds: Iterable[BuildInHand], *, places: Mapping[str, Place] = _NOWHERE
) -> tuple[Finding, ...]:
    """Return one finding for each bath and for the racks of what is too long for it, by the longest.

    Args:
        builds: those in hand, of one shop.
        places: where baths and racks are written (``files.shop_file.ShopFile.places``).
    """
    longest: dict[str, _TooLong] = {}
    for build in builds:
        for each in (*_into_baths(build), *_on_lines(build)):
            known = longest.get(each.place)
            if known is None or each.long_mm > known.long_mm:
                longest[each.place] = each
    return tuple(_finding(each, places) for each in longest.values())


def goes_in(part: Sides, tray: Sides) -> bool:
    """Tell whether a rectangle lies flat in another, turned as it may be; longer sides first.

    Carver, 'Solution to Problem E 1225', American Mathematical Monthly 64 (1957); the reference
    and the inequality are from memory, the tests turn rectangles to see that it holds.
    """
    (p, q), (a, b) = part, tray
    if p <= a and q <= b:
        return True
    if p <= a or q > b:
        return False
    across = p * p + q * q - a * a
    return b >= (2 * p * q * a + (p * p - q * q) * sqrt(across)) / (p * p + q * q)


@dataclass(frozen=True, slots=True, kw_only=True)
class _TooLong:
    """A part that does not go in; ``place`` is as of ``places``, ``there`` what it has to go into."""

    step: Step
    part: str
    long_mm: float
    short_mm: float
    place: str
    there: str
    remedy: str


def _into_baths(build: BuildInHand) -> Iterator[_TooLong]:
    for step in build.work.steps:
        told = [(bath, bath.sides_mm) for bath in baths_for(build.workplace.shop, step)]
        trays = [(bath, sides) for bath, sides in told if sides is not None]
        if not trays or len(trays) < len(told):
            continue
        for part, sides in _sizes(build, step):
            if not any(goes_in(sides, tray) for _, tray in trays):
                yield _no_tray(step, part, sides, max(trays, key=lambda each: each[1]))


def _no_tray(step: Step, part: str, sides: Sides, largest: tuple[DipBath, Sides]) -> _TooLong:
    bath, (long, short) = largest
    return _TooLong(
        step=step,
        part=part,
        long_mm=sides[0],
        short_mm=sides[1],
        place=f"baths.{bath.id}",
        there=f"{bath.name} is {long:.0f} × {short:.0f} mm inside",
        remedy="Use a longer tray, wipe the coat on, or draw a soft strap through end by end: "
        "the plan takes it as dipped.",
    )


def _on_lines(build: BuildInHand) -> Iterator[_TooLong]:
    shop = build.workplace.shop
    hanging = Hanging(shop=shop, room=RoomTaken(assembly=build.assembly))
    line = max((rack.line_mm for rack in shop.racks), default=0.0)
    for step in build.work.steps:
        taken = hanging.taken(step) if build.work.drying_of(step.id) else None
        if taken is None or taken[0].what != LINE:
            continue
        for part, (long, short) in _sizes(build, step):
            if short > line:
                yield _TooLong(
                    step=step,
                    part=part,
                    long_mm=long,
                    short_mm=short,
                    place="racks",
                    there=f"the longest line has {line:.0f} mm",
                    remedy="Give it a longer line, or a shelf to lie on.",
                )


def _sizes(build: BuildInHand, step: Step) -> Iterator[tuple[str, Sides]]:
    room = RoomTaken(assembly=build.assembly)
    for part in step.parts:
        sides = room.sizes_mm(part)
        if sides is not None and build.assembly is not None:
            yield build.assembly.part(part).part.name, sides


def _finding(each: _TooLong, places: Mapping[str, Place]) -> Finding:
    size = f"{each.long_mm:.0f} × {each.short_mm:.0f} mm"
    return Finding(
        code="part-too-long",
        severity=Severity.WARNING,
        text=f"'{each.step.title}': {each.part} is {size} and does not go in; {each.there}.",
        remedy=each.remedy,
        about=(each.step.id,),
        place=places.get(each.place),
    )
