"""Around tonight in words: what runs by now, what moved, what stays."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from armorplan.app.moved_words import ends_words, moved_phrase
from armorplan.kernel.units import HOUR_MIN
from armorplan.schedule.naming import Naming, called
from armorplan.schedule.problem import Plan, Problem
from armorplan.schedule.rearranging import Rearranged

_MOST_TOLD = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedRow:
    """A step that was moved. ``before_at``: ``None`` where it could not stay in any case."""

    id: str
    title: str
    before_at: datetime | None
    start_at: datetime


def moved_rows(
    problem: Problem, at_hand: Plan, found: Rearranged, *, shift_min: int = 0
) -> Iterator[MovedRow]:
    """Yield what was moved, in order of the new starts; see ``tonight_words``."""
    stood = {p.id: p.start_min + shift_min for p in at_hand.placed}
    starts = {p.id: p.start_min for p in found.plan.placed}
    for name in sorted(found.moved, key=lambda i: (starts[i], i)):
        before = stood.get(name)
        yield MovedRow(
            id=name,
            title=called(problem, name),
            before_at=None if before is None else _at(problem, before),
            start_at=_at(problem, starts[name]),
        )


def _at(problem: Problem, minute: int) -> datetime:
    return problem.origin_at + timedelta(minutes=minute)


def tonight_words(
    problem: Problem, at_hand: Plan, found: Rearranged, naming: Naming, *, shift_min: int = 0
) -> str:
    """Say what was laid anew around what runs now, and what moved.

    Args:
        problem: as things stand; minute 0 is now.
        at_hand: the plan before.
        found: what came of it.
        naming: names and local time.
        shift_min: added to minutes of ``at_hand``.
    """
    running = running_words(problem, naming)
    if not found.plan.placed:
        why = found.plan.conflict or "No plan was found."
        return f"{running} {why}"
    kept = f"{found.kept} step{'' if found.kept == 1 else 's'} stay where they were"
    if not found.moved:
        return f"{running} Nothing has to move: {kept}."
    far = _far(at_hand, found, shift_min)
    told = [name for name in found.moved if name in far] or list(found.moved)
    moved = "; ".join(
        moved_phrase(problem, at_hand, found.plan, name, naming, shift_min)
        for name in told[:_MOST_TOLD]
    )
    more = len(found.moved) - _MOST_TOLD
    also = f"; and {more} more" if more > 0 else ""
    ends = ends_words(at_hand, found.plan, shift_min)
    count = f"{len(found.moved)} step{'' if len(found.moved) == 1 else 's'}"
    count += f" ({len(far)} of them by an hour or more)" if 0 < len(far) < len(found.moved) else ""
    reach = f", none beyond the next {found.reach_h} hours" if found.reach_h else ""
    head = f"{running} {count} moved{reach}; {kept}."
    return f"{head} {ends} Moved: {moved}{also}."


def _far(at_hand: Plan, found: Rearranged, shift_min: int) -> frozenset[str]:
    """Return what was moved by an hour or more."""
    stood = {p.id: p.start_min + shift_min for p in at_hand.placed}
    starts = {p.id: p.start_min for p in found.plan.placed}
    return frozenset(
        name for name in found.moved if abs(starts[name] - stood.get(name, 0)) >= HOUR_MIN
    )


def running_words(problem: Problem, naming: Naming) -> str:
    """Say what time alone is at by now, and until when."""
    now = [
        (a.fixed_end_min, called(problem, a.id))
        for a in problem.activities
        if a.fixed_start_min is not None and a.fixed_end_min is not None
        if a.fixed_start_min <= 0 < a.fixed_end_min and not a.people
    ]
    if not now:
        return "Nothing is drying by now."
    told = [f"{name} until {naming.moment(problem, end)}" for end, name in sorted(now)]
    more = f" and {len(told) - _MOST_TOLD} more" if len(told) > _MOST_TOLD else ""
    return f"Drying now: {', '.join(told[:_MOST_TOLD])}{more}."
