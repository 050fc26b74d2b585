"""The plan of a build as a picture for paper and screen."""

from datetime import datetime, timedelta
from pathlib import Path

from armorplan.app.bench_states import states_now
from armorplan.app.chart_notes import nights_words
from armorplan.app.chart_rows import DRYING_LANE, chart_of
from armorplan.app.derived import Derived
from armorplan.app.picture_file import written_to
from armorplan.app.shown_plan import shown
from armorplan.kernel.units import DAY_MIN
from armorplan.ledger.state import derive
from armorplan.schedule.calendars import closed_windows
from armorplan.schedule.facing import plan_words
from armorplan.schedule.problem import Plan, Problem
from armorplan.sheets.week_bars import DayBar, DaysFigure
from armorplan.sheets.week_chart import save_days
from armorplan.sheets.week_table import PlanLine, WeekTable


def figure_of(derived: Derived, plan: Plan, problem: Problem, now_at: datetime) -> DaysFigure:
    """Return the figure of a plan for a build on which nothing has been done yet."""
    states = states_now(derived, derive(()), now_at)
    spans = shown(plan, problem).spans()
    chart = chart_of(derived, states, spans, now_at)
    return DaysFigure(
        title=derived.pattern.name,
        sentence=plan_words(plan, problem)[0],
        zone=chart.zone,
        bars=tuple(
            DayBar(
                title=bar.title if bar.attended else _dries(bar.title),
                lane=bar.lane,
                start_at=bar.start_at,
                end_at=bar.end_at,
                drying=not bar.attended,
                surely_at=bar.surely_at,
                note=bar.note,
            )
            for bar in chart.bars
        ),
        lanes=chart.lanes,
        closed=chart.closed,
        now_at=now_at,
        nights=nights_words(derived, spans),
        air=tuple((a.start_at, a.end_at, a.temperature_c, a.humidity_pct) for a in chart.air),
    )


def week_figure(table: WeekTable, problem: Problem) -> DaysFigure:
    """Return the figure of a plan of several builds: people above, what dries below."""
    lines = table.lines
    first_at = min((line.start_at for line in lines), default=problem.origin_at)
    reach_min = max((_minute(problem, line.end_at) for line in lines), default=0) + DAY_MIN
    lanes = dict.fromkeys(line.who or DRYING_LANE for line in lines)
    people = sorted(lane for lane in lanes if lane != DRYING_LANE)
    return DaysFigure(
        title=table.title,
        sentence=table.sentence,
        zone=table.zone,
        bars=tuple(_bar(line) for line in lines),
        lanes=(*people, DRYING_LANE),
        closed=tuple(
            (problem.origin_at + timedelta(minutes=a), problem.origin_at + timedelta(minutes=b))
            for a, b in closed_windows(problem.workers, min(reach_min, problem.horizon_min))
        ),
        now_at=min(first_at, problem.origin_at),
        nights=" ".join(table.notes),
    )


def _bar(line: PlanLine) -> DayBar:
    title = line.title if line.who else _dries(line.title)
    return DayBar(
        title=f"{line.build_title}: {title}",
        lane=line.who or DRYING_LANE,
        start_at=line.start_at,
        end_at=line.end_at,
        drying=not line.who,
        surely_at=line.surely_at,
        note=line.note,
    )


def _minute(problem: Problem, at: datetime) -> int:
    return int((at - problem.origin_at).total_seconds() // 60)


def save_week_picture(path: Path, table: WeekTable, problem: Problem) -> None:
    """Write the coming days of several builds as a picture (png, svg or pdf by its ending).

    Raises:
        ArmorplanError: the file cannot be written, or its ending is none of these.
    """
    with written_to(path):
        save_days(path, week_figure(table, problem))


def _dries(title: str) -> str:
    """Return what dries: its lane says already that it does."""
    return title.removeprefix("Drying after ").strip("'")


def save_picture(path: Path, derived: Derived, plan: Plan, problem: Problem) -> None:
    """Write the coming days as a picture (png, svg or pdf by the file's ending).

    Raises:
        ArmorplanError: the file cannot be written, or its ending is none of these.
    """
    with written_to(path):
        save_days(path, figure_of(derived, plan, problem, problem.origin_at))
