"""The plan of a build as a picture for paper and screen."""

from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

from armorplan.app.bench_states import states_now
from armorplan.app.chart_air import air_of
from armorplan.app.chart_notes import nights_words
from armorplan.app.chart_rows import chart_of
from armorplan.app.derived import Derived
from armorplan.app.lane_names import lane_names
from armorplan.app.picture_file import written_to
from armorplan.app.plan_naming import naming_of
from armorplan.app.rows import Chart
from armorplan.app.shown_plan import shown
from armorplan.app.week_facts import WeekFacts
from armorplan.app.week_lanes import week_of
from armorplan.app.week_paper import week_figure_of
from armorplan.app.week_rows import By
from armorplan.kernel.units import DAY_MIN
from armorplan.ledger.state import derive
from armorplan.schedule.facing import plan_words
from armorplan.schedule.problem import Plan, Problem
from armorplan.sheets.week_bars import DayBar, DaysFigure
from armorplan.sheets.week_chart import save_days
from armorplan.sheets.week_table import WeekTable
from armorplan.workshop.shop import Shop


def figure_of(derived: Derived, plan: Plan, problem: Problem, now_at: datetime) -> DaysFigure:
    """Return the figure of a plan for a build on which nothing has been done yet."""
    states = states_now(derived, derive(()), now_at)
    spans = shown(plan, problem).spans()
    chart = chart_of(derived, states, spans, now_at)
    return DaysFigure(
        title=derived.pattern.name,
        sentence=plan_words(plan, problem, naming_of(derived.shop, problem))[0],
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


def week_figure(
    table: WeekTable, plan: Plan, problem: Problem, shop: Shop, *, sure: str = ""
) -> DaysFigure:
    """Return the figure of a plan of several builds as a window lays it, by person.

    ``sure``: how sure its dates are; it stands below the builds' dates.
    """
    origin_at = problem.origin_at
    reach_min = plan.finish_min + DAY_MIN
    chart = Chart(
        bars=(),
        lanes=(),
        closed=(),
        now_at=origin_at,
        zone=shop.zone,
        names=lane_names(shop),
        air=air_of(shop.room, origin_at, origin_at + timedelta(minutes=reach_min)),
    )
    facts = WeekFacts(
        chart=chart, build="", title=table.title, problem=problem, shown=shown(plan, problem)
    )
    figure = week_figure_of(
        week_of(facts, By.PERSON), title=table.title, sentence=table.sentence, compares=False
    )
    told = (*figure.builds, sure) if sure else figure.builds
    return replace(figure, nights=" ".join(table.notes), builds=told)


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
