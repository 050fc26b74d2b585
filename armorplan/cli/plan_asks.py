"""What is asked of a plan on the command line: what if, around tonight, and what would free it."""

from argparse import Namespace
from collections.abc import Callable
from dataclasses import replace
from typing import TypeVar
from zoneinfo import ZoneInfo

from armorplan.app.ordered_builds import shop_file_of
from armorplan.app.plan_naming import naming_of
from armorplan.app.reports import PlanReport
from armorplan.app.week_report import WeekReport
from armorplan.app.what_if_plan import Asked, asked_of
from armorplan.app.what_if_rows import SideRow
from armorplan.app.why_none import Why
from armorplan.app.wish_report import sides_report, way_out
from armorplan.app.wishes import EACH_S, Wishes
from armorplan.cli.exits import CLEAN
from armorplan.cli.reading import say, say_json, tell
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.units import span_words
from armorplan.schedule.problem import Plan, Problem
from armorplan.workshop.shop import Shop

_T = TypeVar("_T")
FILES = ("png", "csv", "ics", "pdf")
"""Options that write a plan to a file."""
_LEAST_S = 3.0
"""So long it is looked for what stands against a plan, if fewer seconds are asked."""


def check_asks(chosen: Namespace) -> None:
    """Look at whether what is asked goes together, before anything is planned.

    Raises:
        ArmorplanError: one option would be passed over for another.
    """
    files = tuple(f"--{name}" for name in FILES if getattr(chosen, name) is not None)
    if chosen.around_tonight:
        beside = (*(("--from",) if chosen.start is not None else ()), *files)
        beside += ("--what-if",) if chosen.what_if else ()
        why = "lays the workshop's plan anew from now on and keeps it there"
        asked = "--around-tonight"
    else:
        beside, asked = files, "--what-if"
        why = "sets plans side by side and writes none of them"
    if beside and (chosen.around_tonight or chosen.what_if):
        message = f"{asked} {why}: ask for {' and '.join(beside)} in a command of its own."
        raise ArmorplanError(message)


def changes_asked(chosen: Namespace, problem: Problem, shop: Shop) -> tuple[Asked, ...]:
    """Return the changes that are asked about.

    Raises:
        ArmorplanError: one of them cannot be read, or is of nothing that there is here.
    """
    return tuple(asked_of(text, problem, shop) for text in chosen.what_if)


def say_what_if(
    chosen: Namespace, problem: Problem, made: Plan, shop: Shop, asked: tuple[Asked, ...]
) -> int:
    """Print plans side by side; return 0, or 1 where there is no plan at hand."""
    if not made.placed:
        message = f"There is no plan that a change could stand beside. {made.conflict}"
        raise ArmorplanError(message.rstrip())

    def rows(wishes: Wishes) -> tuple[SideRow, ...]:
        naming = naming_of(shop, problem)
        found = wishes.what_if(problem, made, asked, naming, lambda: False)
        return tuple(row for row in found if row.is_last)

    told = _with_solver(chosen.seconds, rows)
    if chosen.json:
        say_json(sides_report(told))
        return CLEAN
    zone = ZoneInfo(shop.zone)
    for row in told:
        say(_side_words(row, zone))
        for build in row.builds if len(row.builds) > 1 else ():
            late = f", {span_words(build.late_min)} late" if build.late_min else ""
            at = build.end_at.astimezone(zone)
            say(f"    {at:%a} {at.day:2} {at:%b %H:%M}  {build.title}{late}")
    return CLEAN


def _side_words(row: SideRow, zone: ZoneInfo) -> str:
    title = f"{row.title[:1].upper()}{row.title[1:]}"
    if row.finish_at is None:
        return f"{title}: no plan. {row.against}"
    at = row.finish_at.astimezone(zone)
    late = f", {span_words(row.late_min)} late in all" if row.late_min else ""
    against = f" {row.against}" if row.against else ""
    return f"{title}: finished {at:%a} {at.day} {at:%b %H:%M}{late}.{against} {row.sureness}"


def say_ways_out(
    chosen: Namespace,
    problem: Problem,
    shop: Shop,
    *,
    is_told: bool = False,
    known: Plan | None = None,
) -> None:
    """Print the conflict, unless it is told already, and what would free it, each as it comes.

    ``known`` is what a search said, which was told too.
    """

    def told(wishes: Wishes) -> None:
        why = _why_none(wishes, chosen, problem, shop, known)
        if not (is_told or (known and why.words.endswith(known.conflict))):
            say(why.words)
        for at, row in enumerate(why.rows()):
            if not at:
                say("What would free it:")
            say(f"  {row.title}. {row.price}")
            say(f"    {row.where}")
        _tell_untried(why)

    _with_solver(chosen.seconds, told)


def with_ways_out(
    report: PlanReport | WeekReport,
    chosen: Namespace,
    problem: Problem,
    shop: Shop,
    *,
    is_told: bool = False,
    known: Plan | None = None,
) -> PlanReport | WeekReport:
    """Return a report of no plan with its conflict, unless it has one, and its ways out."""

    def told(wishes: Wishes) -> PlanReport | WeekReport:
        why = _why_none(wishes, chosen, problem, shop, known)
        rows = tuple(way_out(row) for row in why.rows())
        _tell_untried(why)
        words = report.conflict if is_told else why.words
        return replace(report, conflict=words, ways_out=rows)

    return _with_solver(chosen.seconds, told)


def _why_none(
    wishes: Wishes, chosen: Namespace, problem: Problem, shop: Shop, known: Plan | None
) -> Why:
    file = shop_file_of(chosen.pattern) or chosen.shop
    naming = naming_of(shop, problem, source=str(file or ""))
    return wishes.why_none(problem, naming, lambda: False, tell, known=known)


def _tell_untried(why: Why) -> None:
    words = why.tried.words()
    if words:
        tell(f"{words} With more --seconds more is tried.")


def _with_solver(seconds: float, work: Callable[[Wishes], _T]) -> _T:
    from armorplan.solving.keeper import SolverKeeper

    with SolverKeeper() as keeper:
        within_s = max(seconds, _LEAST_S)
        return work(Wishes(solver=keeper, each_s=min(seconds, EACH_S), within_s=within_s))
