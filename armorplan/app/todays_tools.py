"""A build gone on with today's tools: a reach that was learned at the bench counts from now on.

A build keeps the shelf it was started with. So a new one is started of the same pattern, with the
same shelf but for the tools, and takes over ticks and timers; the former one stays as it is. It is
made ready first, which takes its time, and kept only when it is laid on the bench: what is ticked
meanwhile goes over, and no build is left in the workshop that nobody opened.
"""

from dataclasses import dataclass, replace
from pathlib import Path

from armorplan.app.carrying import Difference, difference_findings, upgraded
from armorplan.app.derived import Derived, derive_build
from armorplan.app.opening import Builds, Opened, read_checked, resume_build
from armorplan.app.snapshots import relations_text, shelf_from, shelf_text
from armorplan.files.source import from_texts
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import ArmorplanError
from armorplan.ledger.builds import BuildRecord, next_build_id
from armorplan.ledger.events import Event
from armorplan.workshop.pricing import with_prices
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop


def with_tools(shelf: Shelf, today: Shelf) -> Shelf:
    """Return a shelf with the tools of another: what they can do is a fact of the bench."""
    return replace(shelf, tools=today.tools)


@dataclass(frozen=True, slots=True, kw_only=True)
class GoingOn:
    """A build made ready with today's tools; nothing of it is in the workshop yet.

    Attributes:
        former: the id of the build that it goes on from.
        old: what follows from that one; ``None`` where an older program kept it.
        record: the build as it will be kept.
        events: the former one's entries that were looked at.
        taken, told: what it takes over of them, and what differs.
    """

    former: str
    old: Derived | None
    record: BuildRecord
    derived: Derived
    events: tuple[Event, ...]
    taken: tuple[Event, ...]
    told: Difference


def going_on_with(
    build: BuildRecord, today: Shelf, workshop: Builds, shop: Shop, *, clock: Clock
) -> GoingOn:
    """Make ready a build of the same pattern with today's tools; takes as long as opening one.

    Raises:
        UnreadableError: the pattern kept with the build cannot be read with today's tools.
        WorkshopError: the workshop file cannot be read.
    """
    slug = build.id.rpartition("-")[0]
    shelf = with_tools(shelf_from(build.constants_json), today)
    pattern = read_checked(from_texts(slug, dict(build.pattern_files)), shelf)
    build_id = next_build_id(pattern.slug, (known.id for known in workshop.builds()))
    derived = derive_build(pattern, with_prices(shelf, today), shop, build=build_id)
    events = workshop.events(build.id)
    old = _resumed(build, shop)
    taken, told = _carried(events, old, derived, builds=(build.id, build_id))
    record = replace(
        build,
        id=build_id,
        created_at=clock.now(),
        constants_json=shelf_text(shelf),
        relations_json=relations_text(derived.relations),
    )
    return GoingOn(
        former=build.id,
        old=old,
        record=record,
        derived=derived,
        events=events,
        taken=taken,
        told=told,
    )


def gone_on(ready: GoingOn, workshop: Builds) -> Opened:
    """Start a build that was made ready; it takes over the ticks and timers of this very moment.

    Raises:
        WorkshopError: the workshop file cannot be read or written.
    """
    build, derived = ready.record, ready.derived
    taken, told = ready.taken, ready.told
    events = workshop.events(ready.former)
    if events != ready.events:
        taken, told = _carried(events, ready.old, derived, builds=(ready.former, build.id))
    workshop.add_build(build, taken, former=ready.former)
    differs = difference_findings(told, "The tools were changed")
    derived = replace(derived, findings=(*derived.findings, *differs))
    folder = Path(build.folder) if build.folder else None
    return Opened(build=build, derived=derived, folder=folder, difference=told)


def _resumed(build: BuildRecord, shop: Shop) -> Derived | None:
    try:
        return resume_build(build, shop).derived
    except ArmorplanError:  # kept by an older program in a form that this one cannot compare
        return None


def _carried(
    events: tuple[Event, ...], old: Derived | None, new: Derived, *, builds: tuple[str, str]
) -> tuple[tuple[Event, ...], Difference]:
    """Return what goes over from the first of two builds to the second, and what differs."""
    former, build = builds
    if old is None:
        return (), Difference(former=former, build=build)
    return upgraded(events, old, new, former=former, build=build)
