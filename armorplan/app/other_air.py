"""A build that stands at the bench, reckoned anew in another air: off the window's thread."""

from collections.abc import Callable, Iterable
from dataclasses import replace

from armorplan.app.chart_rows import chart_of
from armorplan.app.derived import Derived, derive_build
from armorplan.app.in_room import in_room
from armorplan.app.moment import BenchMoment
from armorplan.app.shown_plan import ShownPlan
from armorplan.kernel.clock import Clock
from armorplan.kernel.findings import Finding
from armorplan.ledger.events import Event
from armorplan.ledger.state import derive
from armorplan.relations.model import Relation
from armorplan.steps.airing import air_findings
from armorplan.workshop.air import Room

Settle = Callable[[], None]
"""The quick second half of a change, called in the window's thread."""


def in_air(derived: Derived, room: Room, kept: tuple[Relation, ...]) -> Derived:
    """Return a build as it follows from its pattern in another air, minutes, words and all.

    Its shelf, its hands and what was told of its files stay those it was opened with.

    Args:
        derived: as it stands.
        room: with the other air.
        kept: the relations it was started with.
    """
    # The shelf has the hands in it already.
    shop = replace(derived.shop, room=room, hands=())
    build = derived.assembly.build
    anew = derive_build(derived.pattern, derived.shelf, shop, build=build, kept=kept)
    if anew.order != derived.order:
        # What stands at the bench is not turned round for a change of air.
        anew = in_room(derived, room)
    return replace(
        anew,
        shop=replace(derived.shop, room=room),
        findings=tuple(_findings(derived, room)),
    )


def _findings(derived: Derived, room: Room) -> Iterable[Finding]:
    """Return what was found, with what this air does to the work instead of what the former did."""
    work, shelf = derived.flat_work, derived.shelf
    former = air_findings(work, shelf, derived.shop.room)
    return (
        *air_findings(work, shelf, room),
        *(finding for finding in derived.findings if finding not in former),
    )


def look_ahead(
    derived: Derived, events: tuple[Event, ...], clock: Clock, plan: ShownPlan | None
) -> BenchMoment:
    """Return the build's moment with all reckoned that the window is about to ask for."""
    moment = BenchMoment(derived, derive(events), clock, plan)
    _ = moment.timers
    chart_of(derived, moment.states, moment.spans, clock.now())
    return moment
