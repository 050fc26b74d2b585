"""When steps of a build stand in the plan, in the words of its bench sheet."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import groupby
from zoneinfo import ZoneInfo

from armorplan.sheets.bench_sheet_model import SheetRow, SheetTable
from armorplan.sheets.week_table import PlanLine, WeekTable
from armorplan.steps.model import Step

_ONE_STRETCH, _MOST_TITLES = timedelta(minutes=20), 3
"""Work that goes on after a shorter break is one stretch; so many of its steps are named."""
_DASH = "\N{EN DASH}"


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetTimes:
    """The plan's lines of one build, by what of a step's id follows the build's.

    A sheet without dates has none.
    """

    lines: dict[str, tuple[PlanLine, ...]]
    zone: ZoneInfo

    def of(self, step: Step) -> tuple[PlanLine, ...]:
        """Return the sittings of a step, in order; empty where it is not planned."""
        return self.lines.get(_own(step.id), ())

    def span(self, steps: Sequence[Step]) -> str:
        """Return from when to when steps are worked at; empty where none is planned."""
        found = [line for step in steps for line in self.of(step)]
        if not found:
            return ""
        start, end = min(line.start_at for line in found), max(line.end_at for line in found)
        return self.between(start, end)

    def starts(self, steps: Sequence[Step], first: Step) -> str:
        """Return when steps begin, with the day where it is not that of the first of their run."""
        days = {line.start_at.astimezone(self.zone).date() for line in self.of(first)[:1]}
        begun = [
            line.start_at.astimezone(self.zone) for step in steps for line in self.of(step)[:1]
        ]
        told = (f"{at:%H:%M}" if at.date() in days else f"{at:%a %H:%M}" for at in begun)
        return " / ".join(dict.fromkeys(told))

    def between(self, start_at: datetime, end_at: datetime) -> str:
        """Return two instants as local times, the day told once where it is the same."""
        start, end = start_at.astimezone(self.zone), end_at.astimezone(self.zone)
        till = f"{end:%H:%M}" if start.date() == end.date() else _short(end)
        return f"{_short(start)} {_DASH} {till}"

    def window(self, step: Step) -> str:
        """Return from when to when a step has to be begun, with the reason; empty: any time."""
        for line in self.of(step)[:1]:
            if line.begin_by_at is None:
                return ""
            by = line.begin_by_at
            told = (
                f"by {_short(by.astimezone(self.zone))}"
                if line.begin_from_at is None
                else f"between {self.between(line.begin_from_at, by)}"
            )
            return f"Begin {told}."
        return ""


def _own(step: str) -> str:
    return step.partition("/")[2]


def _short(local: datetime) -> str:
    return f"{local:%a} {local.day} {local:%b %H:%M}"


def times_of(table: WeekTable | None, build: str, zone: str) -> SheetTimes:
    """Return the times of one build in a plan; none without a plan."""
    found: dict[str, list[PlanLine]] = {}
    for line in table.lines if table else ():
        if line.step.partition("/")[0] == build and "/change of " not in line.id:
            found.setdefault(_own(line.step), []).append(line)
    return SheetTimes(lines={k: tuple(v) for k, v in found.items()}, zone=ZoneInfo(zone))


def day_tables(times: SheetTimes, numbers: dict[str, int]) -> Iterator[SheetTable]:
    """Yield the plan day by day: when, who, and which steps by their numbers.

    Args:
        times: the plan.
        numbers: by what of a step's id follows the build's, where it stands in the order.
    """
    every = sorted(
        (line for lines in times.lines.values() for line in lines),
        key=lambda line: (line.start_at, line.end_at, line.id),
    )
    for _, found in groupby(every, key=lambda line: line.start_at.astimezone(times.zone).date()):
        day = list(found)
        first = day[0].start_at.astimezone(times.zone)
        yield SheetTable(
            title=f"{first:%A}, {first.day} {first:%B %Y}",
            heads=("When", "Steps", "Work", "Who"),
            rows=tuple(_stretches(day, times, numbers)),
            shares=(0.19, 0.2, 0.48, 0.13),
        )


def _stretches(
    day: list[PlanLine], times: SheetTimes, numbers: dict[str, int]
) -> Iterator[SheetRow]:
    """Yield a row for what one person does without a longer break, and for each drying."""
    runs: list[list[PlanLine]] = []
    open_runs: dict[tuple[str, ...], list[PlanLine]] = {}
    for line in day:
        who = (line.who, *line.also)
        run = open_runs.get(who)
        if run is not None and line.who and line.start_at - run[-1].end_at <= _ONE_STRETCH:
            run.append(line)
            continue
        open_runs[who] = [line]
        runs.append(open_runs[who])
    for run in runs:
        yield _row(run, times, numbers)


def _row(run: list[PlanLine], times: SheetTimes, numbers: dict[str, int]) -> SheetRow:
    named = number_ranges(numbers.get(_own(line.step), 0) for line in run)
    titles = list(dict.fromkeys(line.title for line in run))
    told = "; ".join(titles[:_MOST_TITLES])
    more = f"; and {len(titles) - _MOST_TITLES} more" if len(titles) > _MOST_TITLES else ""
    start = run[0].start_at.astimezone(times.zone)
    end = max(line.end_at for line in run).astimezone(times.zone)
    till = f"{end:%H:%M}" if start.date() == end.date() else _short(end)
    who = run[0].hands or "time alone"
    return SheetRow(cells=(f"{start:%H:%M} {_DASH} {till}", named, f"{told}{more}", who))


def number_ranges(numbers: Iterable[int]) -> str:
    """Return numbers in a few words.

    >>> number_ranges([3, 1, 2, 7, 9, 10])
    '1 to 3, 7, 9, 10'
    """
    found: list[list[int]] = []
    for number in sorted(set(numbers)):
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    words = [
        f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run))  # noqa: PLR2004
        for run in found
    ]
    return ", ".join(words)
