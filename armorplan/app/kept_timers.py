"""Timers of a build as text in the workshop, so that other builds' timers stay in sight and ring.

They are kept with one moment by both clocks. Read again in the same run of the machine, instants that
count from within it move by as much as the wall clock was set since, so that they stay right without
anything else of that build. Of what began in an earlier run only the wall clock is left.
"""

import json
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from armorplan.app.bells import Bell
from armorplan.app.rows import TimerRow
from armorplan.app.snapshots import UNFIT, json_converter, plain
from armorplan.ledger.present import LEAST_JUMP, moment_in_present_wall
from armorplan.ledger.records import Moment

_SAME_WITHIN = 2 * LEAST_JUMP
_NOT = timedelta()


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptBuildTimers:
    """The timers of one build as they stood at a moment, with the build's name."""

    title: str
    moment: Moment
    rows: tuple[TimerRow, ...]


def kept_text(kept: KeptBuildTimers) -> str:
    """Return timers as JSON."""
    return json.dumps(plain(kept), ensure_ascii=False)


def kept_from(text: str) -> KeptBuildTimers | None:
    """Return timers from their JSON; ``None`` where it is of another form.

    They follow from the ledger of their build, which writes them anew as soon as it is opened.
    """
    try:
        return json_converter().structure(json.loads(text), KeptBuildTimers)
    except UNFIT:
        return None


def in_sight(build: str, kept: KeptBuildTimers, now: Moment) -> tuple[TimerRow, ...]:
    """Return another build's timers by the clocks of now."""
    moved = moment_in_present_wall(kept.moment, now).at - kept.moment.at
    return tuple(
        replace(
            _moved(row, moved if row.boot_id == now.boot_id else _NOT, kept.title),
            build=build,
            build_title=kept.title,
        )
        for row in kept.rows
    )


def _moved(row: TimerRow, by: timedelta, build_title: str) -> TimerRow:
    def shifted(at: datetime | None) -> datetime | None:
        return None if at is None else at + by

    return replace(
        row,
        as_of=row.as_of + by,
        running_since=shifted(row.running_since),
        due_at=shifted(row.due_at),
        surely_at=shifted(row.surely_at),
        bells=tuple(
            replace(b, at=b.at + by, about_at=b.about_at + by, build_title=build_title)
            for b in row.bells
        ),
    )


def are_alike(some: Iterable[TimerRow], others: Iterable[TimerRow]) -> bool:
    """Tell whether two readings of timers say the same; instants differ with each by a hair."""
    one, other = _by_id(some), _by_id(others)
    return one.keys() == other.keys() and all(_is_alike(one[key], other[key]) for key in one)


def _by_id(rows: Iterable[TimerRow]) -> dict[str, TimerRow]:
    return {row.id: row for row in rows}


def _is_alike(row: TimerRow, other: TimerRow) -> bool:
    if (row.title, row.running_since is None) != (other.title, other.running_since is None):
        return False
    if len(row.bells) != len(other.bells):
        return False
    return all(map(_ring_alike, row.bells, other.bells))


def _ring_alike(bell: Bell, other: Bell) -> bool:
    same = (bell.id, bell.meaning) == (other.id, other.meaning)
    return same and abs(bell.at - other.at) < _SAME_WITHIN
