"""Steps of a plan that follow one another as one line: a row of rivets is one thing at the bench."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import timedelta

from armorplan.sheets.week_table import PlanLine, WeekTable, by_start

_NEAR = timedelta(minutes=5)
"""What goes on after a shorter break is the same stretch of work."""
_MOST_TOLD = 40


def folded(table: WeekTable) -> WeekTable:
    """Return a plan with steps of one kind, at one piece, by the same hands, as one line.

    What has to be begun within a window, and what dries, keeps a line of its own. A folded line is
    named after the work and not after its steps: in another plan, the first stretch of riveting
    a piece is still the first.
    """
    hands = [line for line in table.lines if line.who]
    kept = [line for line in table.lines if not line.who]
    for person in sorted({line.who for line in hands}):
        mine = by_start(line for line in hands if line.who == person)
        kept += [_as_one(group) for group in _groups(mine)]
    return replace(table, lines=_numbered(by_start(kept)))


def _groups(lines: Iterable[PlanLine]) -> list[list[PlanLine]]:
    groups: list[list[PlanLine]] = []
    for line in lines:
        if groups and _goes_on(groups[-1][-1], line):
            groups[-1].append(line)
        else:
            groups.append([line])
    return groups


def _goes_on(one: PlanLine, other: PlanLine) -> bool:
    alike = (one.also, one.build, one.bath, _work_of(one)) == (
        other.also,
        other.build,
        other.bath,
        _work_of(other),
    )
    has_window = one.begin_by_at is not None or other.begin_by_at is not None
    return alike and not has_window and other.start_at - one.end_at <= _NEAR


def _work_of(line: PlanLine) -> str:
    """Return build, piece, side and kind of a line's step."""
    return line.id.rpartition("/")[0] or line.id


def _as_one(group: list[PlanLine]) -> PlanLine:
    first, last = group[0], group[-1]
    if len(group) == 1:
        return first
    titles = [line.title for line in group]
    more = [f"and {len(titles) - _MOST_TOLD} more"] if len(titles) > _MOST_TOLD else []
    return replace(
        first,
        title=f"{first.title}, and {len(group) - 1} more",
        end_at=max(line.end_at for line in group),
        note="\n".join([*titles[:_MOST_TOLD], *more, *([last.note] if last.note else [])]),
    )


def _numbered(lines: tuple[PlanLine, ...]) -> tuple[PlanLine, ...]:
    """Return lines by hand, without windows, named after their work and counted along the plan."""
    counts: dict[str, int] = {}
    found = []
    for line in lines:
        if line.who and line.begin_by_at is None:
            work = _work_of(line)
            counts[work] = counts.get(work, 0) + 1
            stretch = f"stretch {counts[work]}"
            known = (line.known_as or line.id).rpartition("/")[0]
            found.append(replace(line, id=f"{work}/{stretch}", known_as=f"{known}/{stretch}"))
        else:
            found.append(line)
    return tuple(found)
