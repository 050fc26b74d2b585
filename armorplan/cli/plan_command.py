"""``armorplan plan``: the coming days around the drying, as a table, as JSON, as a picture."""

from argparse import Namespace
from datetime import datetime
from zoneinfo import ZoneInfo

from armorplan.app.derived import Derived
from armorplan.app.picture_file import check_picture
from armorplan.app.reports import PlanReport, plan_report
from armorplan.app.shop_air import ShopAir, air_words
from armorplan.cli.exits import CLEAN, FAULTY
from armorplan.cli.in_shop import derived_in, shop_of, tell_air
from armorplan.cli.instants import start_of
from armorplan.cli.reading import say, say_json, shelf_for
from armorplan.kernel.errors import FaultyPatternError, SolverLostError
from armorplan.schedule.building import problem_from
from armorplan.schedule.facing import plan_words
from armorplan.schedule.planning import begun_plan, first_plan, sought_plan
from armorplan.schedule.problem import Plan, Problem
from armorplan.schedule.workplace import Workplace


def plan(chosen: Namespace) -> int:
    """Print a plan; return 0, or 1 where none is possible."""
    if chosen.png is not None:
        check_picture(chosen.png)
    shelf = shelf_for(chosen.catalogues)
    shop, air = shop_of(chosen, shelf)
    derived = derived_in(chosen, shelf, shop)
    if not derived.order:
        raise FaultyPatternError(derived.findings)
    problem = problem_from(
        derived.work,
        derived.relations,
        Workplace(shop=shop, shelf=derived.shelf),
        origin_at=start_of(chosen.start, shop.zone),
        order=derived.order,
    )
    made = _planned(problem, chosen.seconds)
    if chosen.png and made.placed:
        from armorplan.app.week_picture import save_picture

        save_picture(chosen.png, derived, made, problem)
    summary, _ = plan_words(made)
    report = plan_report(derived, made, problem, summary)
    if chosen.json:
        tell_air(air)
        say_json(report)
    else:
        _say_table(report, derived, air)
    return CLEAN if made.placed else FAULTY


def _planned(problem: Problem, seconds: float) -> Plan:
    from armorplan.solving.keeper import SolverKeeper

    first = first_plan(problem)
    if seconds <= 0:
        return first
    keeper = SolverKeeper()
    try:
        return sought_plan(problem, keeper, begun_plan(problem, first, first), seconds=seconds)
    except SolverLostError:
        return first
    finally:
        keeper.close()


def _say_table(report: PlanReport, derived: Derived, air: ShopAir) -> None:
    day, zone = "", derived.shop.zone
    for step in report.steps:
        start_at = datetime.fromisoformat(step.start).astimezone(ZoneInfo(zone))
        end_at = datetime.fromisoformat(step.end).astimezone(ZoneInfo(zone))
        if f"{start_at:%A %d %B %Y}" != day:
            day = f"{start_at:%A %d %B %Y}"
            say(day)
        until = f"{end_at:%H:%M}" if start_at.date() == end_at.date() else f"{end_at:%a %H:%M}"
        names = {person.id: person.name for person in derived.shop.people}
        who = names.get(step.who or "", "drying")
        say(f"  {start_at:%H:%M} – {until:9}  {who:8}  {step.title}")
    say(report.conflict or report.summary)
    say(air_words(air))
    for note in (report.solvent, report.nights):
        if note:
            say(note)
