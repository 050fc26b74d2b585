"""``armorplan plan``: the coming days around the drying, of one pattern or of a whole shop."""

from argparse import Namespace
from dataclasses import replace
from datetime import datetime
from itertools import groupby
from zoneinfo import ZoneInfo

from armorplan.app.plan_naming import naming_of
from armorplan.app.promises import Asked, names_in, promises
from armorplan.app.shop_air import air_words
from armorplan.app.surety import surety_words
from armorplan.cli.exits import CLEAN, FAULTY
from armorplan.cli.in_shop import tell_air
from armorplan.cli.plan_asks import (
    changes_asked,
    check_asks,
    say_ways_out,
    say_what_if,
    with_ways_out,
)
from armorplan.cli.plan_files import check_files, write_files
from armorplan.cli.planned_week import WeekAsked, week_asked
from armorplan.cli.reading import say, say_json, warn
from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.conflict import UNTOLD_CLASH
from armorplan.schedule.deadline import Deadline
from armorplan.schedule.late_words import MOST_NAMED
from armorplan.schedule.measures import any_due
from armorplan.schedule.planning import FIRST_S, begun_plan, first_plan, sought_plan
from armorplan.schedule.problem import Plan, Status
from armorplan.schedule.shop_checks import NOBODY_CAN
from armorplan.schedule.teaching import taught_plan
from armorplan.sheets.week_folded import folded
from armorplan.sheets.week_sheet import spare_words
from armorplan.sheets.week_table import BuildLine, PlanLine, WeekTable


def plan(chosen: Namespace) -> int:
    """Print a plan; return 0, or 1 where none is possible or a build could not be planned."""
    check_asks(chosen)
    if chosen.around_tonight:
        from armorplan.cli.plan_tonight import around_tonight

        return around_tonight(chosen)
    check_files(chosen)
    asked = week_asked(chosen)
    changes = changes_asked(chosen, asked.problem, asked.shop)
    warn((*asked.missing, *(asked.hindering or asked.told)))
    if asked.hindering:
        return _tell_hindered(chosen, asked)
    made = planned(asked, chosen.seconds)
    if changes:
        return say_what_if(chosen, asked.problem, made, asked.shop, changes)
    return _tell(chosen, asked, made)


def _tell_hindered(chosen: Namespace, asked: WeekAsked) -> int:
    """Answer where the shop leaves no plan, which is told already: no plan is sought.

    Who could learn what nobody does is tried; hours too short are mended by longer hours.
    """
    may_free = all(finding.code == NOBODY_CAN for finding in asked.hindering)
    if chosen.json:
        words = " ".join(finding.text for finding in asked.hindering)
        report = asked.report(Plan(status=Status.NONE, conflict=words))
        if may_free:
            report = with_ways_out(report, chosen, asked.problem, asked.shop, is_told=True)
        say_json(report)
    elif may_free:
        say_ways_out(chosen, asked.problem, asked.shop, is_told=True)
    return FAULTY


def _tell(chosen: Namespace, asked: WeekAsked, made: Plan) -> int:
    table = asked.table(made)
    is_told = made.status is Status.NONE and UNTOLD_CLASH not in made.conflict
    sure = _surety(asked, made)
    table = replace(table, sentence=f"{table.sentence} {sure}".strip())
    if made.placed:
        write_files(chosen, asked, made, table, sure=sure)
    if chosen.json:
        tell_air(asked.air)
        report = replace(asked.report(made), summary=table.sentence)
        if not made.placed:
            report = with_ways_out(
                report, chosen, asked.problem, asked.shop, is_told=is_told, known=made
            )
        say_json(report)
    else:
        _say_table(table, asked)
        if not made.placed:
            say_ways_out(chosen, asked.problem, asked.shop, is_told=is_told, known=made)
    return CLEAN if made.placed and not asked.missing else FAULTY


def _surety(asked: WeekAsked, made: Plan) -> str:
    """Return how sure the dates are; nothing is reckoned where none is due or there is no plan."""
    if not made.placed or not any_due(asked.problem):
        return ""
    how = Asked(names=names_in(asked.shop))
    found = promises(asked.problem, made, asked.shop.zone, how, why=None)
    return surety_words(found, "`armorplan promise`")


def planned(asked: WeekAsked, seconds: float) -> Plan:
    """Return the best plan found within so many seconds, the serial one at the least.

    What can be learned in it is (``schedule.teaching``).
    """
    return taught_plan(asked.problem, _sought(asked, seconds))


def _sought(asked: WeekAsked, seconds: float) -> Plan:
    from armorplan.solving.keeper import SolverKeeper

    problem = asked.problem
    naming = naming_of(asked.shop, problem)
    if seconds <= 0:
        return first_plan(problem, naming=naming)
    timed = Deadline(max(seconds, FIRST_S))
    first = first_plan(problem, naming=naming, timed=timed)
    keeper = SolverKeeper()
    try:
        start = begun_plan(problem, first, first, should_stop=timed)
        left = min(seconds, timed.left_s)
        return sought_plan(problem, keeper, start, seconds=left, naming=naming)
    except SolverLostError:
        return first
    finally:
        keeper.close()


def _say_table(table: WeekTable, asked: WeekAsked) -> None:
    zone, several = ZoneInfo(table.zone), len(table.builds) > 1

    def day_of(line: PlanLine) -> str:
        return f"{line.start_at.astimezone(zone):%A %d %B %Y}"

    # A week of several builds has hundreds of steps; CSV and JSON hold each of them.
    lines_told = folded(table).lines if several else table.lines
    width = max((len(_who(line)) for line in lines_told), default=0)
    for day, lines in groupby(lines_told, key=day_of):
        say(day)
        for line in lines:
            say(_line(line, zone, width, several=several))
    # What is late is told with its end by the sentence below, unless that only counts it.
    late = sum(bool(build.late_min) for build in table.builds)
    for build in table.builds if several else ():
        say(_build(build, zone, is_named_below=bool(build.late_min) and late <= MOST_NAMED))
    say(table.sentence)
    say(air_words(asked.air))
    for note in table.notes:
        say(note)


def _who(line: PlanLine) -> str:
    return line.hands or "drying"


def _line(line: PlanLine, zone: ZoneInfo, width: int, *, several: bool) -> str:
    start_at, end_at = line.start_at.astimezone(zone), line.end_at.astimezone(zone)
    until = f"{end_at:%H:%M}" if start_at.date() == end_at.date() else f"{end_at:%a %H:%M}"
    title = f"{line.build_title}: {line.title}" if several else line.title
    by = f", begin by {_short(line.begin_by_at, zone)}" if line.begin_by_at and line.who else ""
    return f"  {start_at:%H:%M} – {until:9}  {_who(line):{width}}  {title}{by}"


def _build(build: BuildLine, zone: ZoneInfo, *, is_named_below: bool) -> str:
    due = f"due {_short(build.due_at, zone)}" if build.due_at else "no date"
    done = f"finished {_short(build.finish_at, zone)}" if build.finish_at else "not planned"
    spare = "" if is_named_below else spare_words(build)
    return f"{build.title}: {', '.join(bit for bit in (due, done, spare) if bit)}."


def _short(at: datetime, zone: ZoneInfo) -> str:
    local = at.astimezone(zone)
    return f"{local:%a} {local.day} {local:%b %H:%M}"
