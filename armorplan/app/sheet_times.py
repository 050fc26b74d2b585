"""When steps of a build stand in the plan, in the words of its bench sheet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby
from zoneinfo import ZoneInfo

from armorplan.sheets.bench_sheet_model import SheetRow, SheetTable
from armorplan.sheets.week_table import PlanLine, WeekTable
from armorplan.steps.model import Step

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
            heads=("Work", "When", "Who"),
            rows=tuple(_stretches(day, times, numbers)),
            shares=(0.62, 0.24, 0.14),
        )


def _stretches(
    day: list[PlanLine], times: SheetTimes, numbers: dict[str, int]
) -> Iterator[SheetRow]:
    """Yield a row for steps of one person that follow each other in the order and in time."""
    run: list[PlanLine] = []
    for line in day:
        if run and not _goes_on(run[-1], line, numbers):
            yield _row(run, times, numbers)
            run = []
        run.append(line)
    if run:
        yield _row(run, times, numbers)


def _goes_on(before: PlanLine, line: PlanLine, numbers: dict[str, int]) -> bool:
    here, there = numbers.get(_own(before.step), 0), numbers.get(_own(line.step), 0)
    follows = bool(line.who) and before.who == line.who and line.start_at == before.end_at
    return follows and there == here + 1


def _row(run: list[PlanLine], times: SheetTimes, numbers: dict[str, int]) -> SheetRow:
    first, last = numbers.get(_own(run[0].step), 0), numbers.get(_own(run[-1].step), 0)
    named = f"{first}" if first == last else f"{first} to {last}"
    more = f", and {len(run) - 1} more" if len(run) > 1 else ""
    start = run[0].start_at.astimezone(times.zone)
    end = run[-1].end_at.astimezone(times.zone)
    till = f"{end:%H:%M}" if start.date() == end.date() else _short(end)
    who = " and ".join((run[0].who, *run[0].also)) if run[0].who else "time alone"
    cells: tuple[str, ...] = (
        f"{named}  {run[0].title}{more}",
        f"{start:%H:%M} {_DASH} {till}",
        who,
    )
    return SheetRow(cells=cells)
