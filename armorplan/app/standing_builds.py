"""The builds in hand of a workshop as they stand, for a command that plans them and keeps nothing."""

from datetime import datetime
from functools import partial

from armorplan.app.build_origins import build_origin
from armorplan.app.kin_builds import KinBuilds
from armorplan.app.moment import BenchMoment
from armorplan.app.ordered_builds import BuildToPlan
from armorplan.app.other_builds import KinLedger, OtherBuilds
from armorplan.app.plan_history import in_hand_of
from armorplan.kernel.clock import Clock
from armorplan.kernel.findings import Finding, Severity
from armorplan.workshop.shop import Shop


def standing_builds(
    workshop: KinLedger, shop: Shop, clock: Clock, *, origin_at: datetime
) -> tuple[tuple[BuildToPlan, ...], tuple[Finding, ...]]:
    """Return all builds in hand that are not done, and of those that cannot be planned why.

    Raises:
        WorkshopError: the workshop file cannot be read.
    """
    kin, found, told = KinBuilds(), list[BuildToPlan](), list[Finding]()
    others = OtherBuilds("", workshop)
    for each in others.beside:
        derived = kin.derived(each.build, others.record(each.build), shop)
        if derived is None:
            told.append(_not_planned(each.build, each.name, kin.trouble(each.build)))
            continue
        moment = BenchMoment(derived, each.ledger, clock, None)
        if not moment.is_done:
            in_hand = in_hand_of(moment, each.order, each.name, origin_at)
            origin = build_origin(each.order, partial(others.record, each.build))
            found.append(BuildToPlan(in_hand=in_hand, derived=moment.derived, origin=origin))
    return tuple(found), tuple(told)


def _not_planned(build: str, name: str, why: str) -> Finding:
    return Finding(
        code="build-not-planned",
        severity=Severity.ERROR,
        text=f"{name} ({build}): {why}",
        remedy="Lay it aside in the window, or begin it anew from its pattern.",
        about=(build,),
    )
