"""What was far off, by the titles of its steps instead of their ids, and what a look was for."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Protocol

from armorplan.app.learned_rows import DampedRow, LearnedRows
from armorplan.app.lessons import LOOKS
from armorplan.app.opening import resume_build
from armorplan.kernel.errors import ArmorplanError
from armorplan.ledger.builds import BuildRecord
from armorplan.ledger.events import Event
from armorplan.ledger.looks import look_from
from armorplan.workshop.shop import Shop


class BuildsAndLooks(Protocol):
    """What a workshop file is to whoever names what was seen in it."""

    def builds(self) -> tuple[BuildRecord, ...]:
        """Return every build."""
        ...

    def look_events(self) -> tuple[Event, ...]:
        """Return the looks of all builds."""
        ...


def titled(rows: LearnedRows, workshop: BuildsAndLooks, shop: Shop) -> LearnedRows:
    """Return the same rows with titles for what was far off, where its build can still be read."""
    steps = {row.step for each in rows.dryings for row in each.damped}
    steps |= {row.step for each in rows.hands for row in each.damped}
    if not steps:
        return rows
    titles = dict(_titles(steps, workshop.builds(), shop))
    stages = _stages(workshop.look_events())
    return LearnedRows(
        dryings=tuple(
            replace(each, damped=tuple(_damped(row, titles, stages) for row in each.damped))
            for each in rows.dryings
        ),
        hands=tuple(
            replace(each, damped=tuple(_damped(row, titles, {}) for row in each.damped))
            for each in rows.hands
        ),
    )


def _damped(row: DampedRow, titles: Mapping[str, str], stages: Mapping[str, str]) -> DampedRow:
    return replace(row, title=titles.get(row.step, ""), looked_for=stages.get(row.step, ""))


def _titles(
    steps: set[str], builds: Iterable[BuildRecord], shop: Shop
) -> Iterator[tuple[str, str]]:
    """Yield the titles of steps; a build that cannot be read any more leaves its ids untold."""
    for build in builds:
        mine = {step for step in steps if step.startswith(f"{build.id}/")}
        if not mine:
            continue
        try:
            work = resume_build(build, shop).derived.work
        except ArmorplanError:
            continue
        yield from (
            (step.id, f"{step.title}, {build.name}") for step in work.steps if step.id in mine
        )


def _stages(events: Iterable[Event]) -> dict[str, str]:
    """Return by step what it was looked at for: dry to the touch, to handle or cured."""
    looks = ((event.step, look_from(event.text)) for event in events if event.kind in LOOKS)
    return {step: look.stage for step, look in looks if look is not None}
