"""Baths and racks that are too small for what a build puts there, and treatments nobody knows."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from armorplan.kernel.findings import Finding, Place, Severity
from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.dips import baths_for, floor_dm2
from armorplan.schedule.hanging import LINE, Hanging
from armorplan.schedule.room_taken import RoomTaken
from armorplan.steps.model import Step
from armorplan.workshop.shop import Shop

_NOWHERE: Mapping[str, Place] = MappingProxyType({})


def place_findings(
    builds: Iterable[BuildInHand], *, places: Mapping[str, Place] = _NOWHERE
) -> tuple[Finding, ...]:
    """Return what lies too full; the plan goes on, and says so here.

    Args:
        builds: those in hand, of one shop.
        places: where baths and racks are written (``files.shop_file.ShopFile.places``).
    """
    found = tuple(builds)
    full: dict[str, list[_TooFull]] = {}
    for build in found:
        for each in (*_too_small_baths(build), *_too_short_racks(build)):
            full.setdefault(each.place, []).append(each)
    unknown = _unknown_treatments(found[0], places) if found else ()
    return (*(_finding(each, places) for each in full.values()), *unknown)


@dataclass(frozen=True, slots=True, kw_only=True)
class _TooFull:
    """A step that wants more room than there is.

    Attributes:
        place: where the bath or the racks are written, as ``table.id`` or ``table``.
        wants: the room it wants, in words that follow 'wants'.
        there: the room there is, in a clause.
    """

    step: Step
    code: str
    place: str
    wanted: int
    wants: str
    there: str
    remedy: str


def _too_small_baths(build: BuildInHand) -> Iterator[_TooFull]:
    room, shop = RoomTaken(assembly=build.assembly), build.workplace.shop
    for step in build.work.steps:
        baths = baths_for(shop, step)
        wanted = room.bath_dm2(step.parts) if baths else 0
        if baths and all(floor_dm2(bath) < wanted for bath in baths):
            largest = max(baths, key=floor_dm2)
            yield _TooFull(
                step=step,
                code="bath-too-small",
                place=f"baths.{largest.id}",
                wanted=wanted,
                wants=f"{wanted} dm² side by side",
                there=f"{largest.name} holds {floor_dm2(largest)} dm²",
                remedy="It is planned alone there, in several goes; more room takes it at once.",
            )


def _too_short_racks(build: BuildInHand) -> Iterator[_TooFull]:
    hanging = Hanging(shop=build.workplace.shop, room=RoomTaken(assembly=build.assembly))
    for step in build.work.steps:
        taken = hanging.taken(step) if build.work.drying_of(step.id) else None
        if taken and taken[1] > taken[0].total:
            room, wanted = taken
            unit, what = ("mm", "line") if room.what == LINE else ("dm²", "shelf")
            yield _TooFull(
                step=step,
                code="rack-too-small",
                place="racks",
                wanted=wanted,
                wants=f"{wanted} {unit} of {what}",
                there=f"there are {room.total} {unit}",
                remedy="It is planned to take all of it, hung closer; more of it gives it air.",
            )


def _finding(full: list[_TooFull], places: Mapping[str, Place]) -> Finding:
    """Return one finding of all steps that a place is too small for, told by the largest."""
    most = max(full, key=lambda each: each.wanted)
    others = len({each.step.title for each in full}) - 1
    more = f", and {others} more like it want too much" if others else ""
    return Finding(
        code=most.code,
        severity=Severity.WARNING,
        text=f"'{most.step.title}' wants {most.wants}{more}; {most.there}.",
        remedy=most.remedy,
        about=tuple(dict.fromkeys(each.step.id for each in full)),
        place=places.get(most.place),
    )


def _unknown_treatments(build: BuildInHand, places: Mapping[str, Place]) -> Iterator[Finding]:
    shelf, shop = build.workplace.shelf, build.workplace.shop
    for bath, treatment in _named(shop):
        if shelf.treatment(treatment) is None:
            yield Finding(
                code="unknown-treatment",
                severity=Severity.WARNING,
                text=f'No catalogue has the treatment "{treatment}" that {bath} is for.',
                remedy="Write it as treatments.toml does, such as alcohol_dye.",
                about=(treatment,),
                place=places.get(f"baths.{bath}"),
            )


def _named(shop: Shop) -> Iterator[tuple[str, str]]:
    for bath in shop.baths:
        for treatment in dict.fromkeys((*bath.takes, bath.holds.partition("|")[0])):
            if treatment:
                yield bath.id, treatment
