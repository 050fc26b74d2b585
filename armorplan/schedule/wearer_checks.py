"""Builds that are fitted on somebody, where nothing says on whom."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from armorplan.kernel.findings import Finding, Place, Severity
from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.shop_checks import place_of
from armorplan.steps.model import Step
from armorplan.workshop.shop import Shop

_NOWHERE: Mapping[str, Place] = MappingProxyType({})


def wearer_findings(
    builds: Iterable[BuildInHand], *, places: Mapping[str, Place] = _NOWHERE
) -> tuple[Finding, ...]:
    """Return builds that name no wearer in a shop of several: their fits wait for nobody.

    Args:
        builds: those in hand, of one shop.
        places: where builds are written (``files.shop_file.ShopFile.places``).
    """
    return tuple(
        _finding(build, steps, places)
        for build in builds
        if not build.wearer
        and len(build.workplace.shop.wearers) > 1
        and (steps := _fitted(build, build.workplace.shop))
    )


def _fitted(build: BuildInHand, shop: Shop) -> list[Step]:
    kinds = {kind for wearer in shop.wearers for kind in wearer.comes_for}
    done = build.history.done
    return [s for s in build.work.steps if s.kind in kinds and s.id not in done]


def _finding(build: BuildInHand, steps: list[Step], places: Mapping[str, Place]) -> Finding:
    shop = build.workplace.shop
    names = ", ".join(wearer.name for wearer in shop.wearers)
    count = "1 step is" if len(steps) == 1 else f"{len(steps)} steps are"
    return Finding(
        code="no-wearer-named",
        severity=Severity.WARNING,
        text=f"{build.title} names no wearer, and the shop has {len(shop.wearers)} ({names}): "
        f"{count} planned with nobody there to try it on, the first is '{steps[0].title}'.",
        remedy=f'Write who wears it, such as wearer = "{shop.wearers[0].id}".',
        about=(build.id, *(step.id for step in steps)),
        place=place_of(places, build.id),
    )
