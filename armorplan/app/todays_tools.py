"""A build gone on with today's tools: a reach that was learned at the bench counts from now on.

A build keeps the shelf it was started with. So a new one is started of the same pattern, with the
same shelf but for the tools, and takes over ticks and timers; the former one stays as it is.
"""

from dataclasses import replace
from pathlib import Path

from armorplan.app.carrying import difference_findings
from armorplan.app.derived import derive_build
from armorplan.app.opening import Builds, Opened, carried_over, read_checked
from armorplan.app.snapshots import relations_text, shelf_from, shelf_text
from armorplan.files.source import from_texts
from armorplan.kernel.clock import Clock
from armorplan.ledger.builds import BuildRecord, next_build_id
from armorplan.workshop.pricing import with_prices
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop


def with_tools(shelf: Shelf, today: Shelf) -> Shelf:
    """Return a shelf with the tools of another: what they can do is a fact of the bench."""
    return replace(shelf, tools=today.tools)


def gone_on_with(
    build: BuildRecord, today: Shelf, workshop: Builds, shop: Shop, *, clock: Clock
) -> Opened:
    """Start a build of the same pattern with today's tools, which takes over ticks and timers.

    Raises:
        UnreadableError: the pattern kept with the build cannot be read with today's tools.
        WorkshopError: the workshop file cannot be read or written.
    """
    slug = build.id.rpartition("-")[0]
    shelf = with_tools(shelf_from(build.constants_json), today)
    pattern = read_checked(from_texts(slug, dict(build.pattern_files)), shelf)
    build_id = next_build_id(pattern.slug, (known.id for known in workshop.builds()))
    derived = derive_build(pattern, with_prices(shelf, today), shop, build=build_id)
    events, told = carried_over(build, derived, workshop, shop, build=build_id)
    started = replace(
        build,
        id=build_id,
        created_at=clock.now(),
        constants_json=shelf_text(shelf),
        relations_json=relations_text(derived.relations),
    )
    workshop.add_build(started, events)
    if told is not None:
        differs = difference_findings(told, "The tools were changed")
        derived = replace(derived, findings=(*derived.findings, *differs))
    folder = Path(build.folder) if build.folder else None
    return Opened(build=started, derived=derived, folder=folder, difference=told)
