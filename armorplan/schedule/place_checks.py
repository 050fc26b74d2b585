"""Baths and racks that are too small for what a build puts there, and treatments nobody knows."""

from collections.abc import Iterable, Iterator, Mapping
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
    told: dict[tuple[str, str], Finding] = {}
    for build in found:
        for finding in (*_too_small_baths(build, places), *_too_short_racks(build, places)):
            told.setdefault((finding.code, finding.text), finding)
    unknown = _unknown_treatments(found[0], places) if found else ()
    return (*told.values(), *unknown)


def _too_small_baths(build: BuildInHand, places: Mapping[str, Place]) -> Iterator[Finding]:
    shop = build.workplace.shop
    room = RoomTaken(assembly=build.assembly)
    for step in build.work.steps:
        baths = baths_for(shop, step)
        wanted = room.bath_dm2(step.parts) if baths else 0
        if baths and all(floor_dm2(bath) < wanted for bath in baths):
            largest = max(baths, key=floor_dm2)
            yield _finding(
                "bath-too-small",
                f"'{step.title}' wants {wanted} dm² side by side; {largest.name} holds "
                f"{floor_dm2(largest)} dm².",
                "It is planned alone in the bath, in several goes; a larger tray takes it at once.",
                (step, places.get(f"baths.{largest.id}")),
            )


def _too_short_racks(build: BuildInHand, places: Mapping[str, Place]) -> Iterator[Finding]:
    hanging = Hanging(shop=build.workplace.shop, room=RoomTaken(assembly=build.assembly))
    for step in build.work.steps:
        taken = hanging.taken(step) if build.work.drying_of(step.id) else None
        if taken and taken[1] > taken[0].total:
            room, wanted = taken
            unit, what = ("mm", "line") if room.what == LINE else ("dm²", "shelf")
            yield _finding(
                "rack-too-small",
                f"'{step.title}' wants {wanted} {unit} of {what}; there are {room.total} {unit}.",
                "It is planned to take all of it, hung closer; another line gives it air.",
                (step, places.get("racks")),
            )


def _finding(code: str, text: str, remedy: str, told: tuple[Step, Place | None]) -> Finding:
    step, place = told
    return Finding(
        code=code,
        severity=Severity.WARNING,
        text=text,
        remedy=remedy,
        about=(step.id,),
        place=place,
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
