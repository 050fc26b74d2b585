"""What ``armorplan plan`` is asked to plan: one pattern, or all builds that a shop has in hand."""

from argparse import Namespace
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from armorplan.app.build_origins import pattern_origin
from armorplan.app.chart_notes import NO_NOTE, BarNote, nights_words, note_of
from armorplan.app.derived import Derived
from armorplan.app.ordered_builds import BuildToPlan, shop_file_of, shop_title
from armorplan.app.plan_naming import naming_of
from armorplan.app.plan_table import Told, week_table
from armorplan.app.reports import PlanReport, plan_report
from armorplan.app.shop_air import ShopAir
from armorplan.app.shop_told import places_in
from armorplan.app.shown_plan import shown
from armorplan.app.solvent_hours import solvent_words
from armorplan.app.starting_orders import ShopOrders
from armorplan.app.week_paper import save_week_figure
from armorplan.app.week_picture import save_picture, week_figure
from armorplan.app.week_report import WeekReport, week_report
from armorplan.cli.in_shop import derived_in, shop_of
from armorplan.cli.instants import start_of
from armorplan.cli.reading import pattern_folder, shelf_for
from armorplan.cli.shop_orders import builds_to_plan, orders_of
from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.errors import ArmorplanError, FaultyPatternError, UnreadableError
from armorplan.kernel.findings import Finding, Severity
from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.building import problem_from
from armorplan.schedule.facing import plan_words
from armorplan.schedule.joining import joined_problem
from armorplan.schedule.problem import Plan, Problem
from armorplan.schedule.shop_checks import shop_findings
from armorplan.schedule.shop_findings import findings_of
from armorplan.schedule.sittings import step_of
from armorplan.schedule.workplace import Workplace
from armorplan.sheets.week_table import WeekTable
from armorplan.steps.model import Step
from armorplan.workshop.shop import Shop

Spans = dict[str, tuple[datetime, datetime, str | None]]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedBuild:
    """A build that is planned: its id in the plan, what it is called, what follows from its pattern."""

    id: str
    title: str
    derived: Derived


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekAsked:
    """What is to be planned, and how its plan is told.

    Attributes:
        builds: what is planned.
        missing: of builds that cannot be planned, why.
        told: what of the shop keeps builds from being planned, or will surprise.
        table: makes the table of a plan.
        report: makes what is answered as JSON.
        picture: writes a plan's picture, with how sure its dates are.
    """

    problem: Problem
    shop: Shop
    air: ShopAir
    missing: tuple[Finding, ...]
    table: Callable[[Plan], WeekTable]
    report: Callable[[Plan], PlanReport | WeekReport]
    picture: Callable[[Path, Plan, str], None]
    told: tuple[Finding, ...] = ()
    builds: tuple[PlannedBuild, ...] = ()

    @property
    def hindering(self) -> tuple[Finding, ...]:
        """Return what of the shop leaves no plan at all."""
        return tuple(finding for finding in self.told if finding.severity is Severity.ERROR)


def week_asked(chosen: Namespace) -> WeekAsked:
    """Return what a command is to plan.

    Raises:
        UnreadableError: the pattern, the shop file, or every pattern that it orders, is unsound.
        ArmorplanError: options that do not go together, or no builds in a shop file.
    """
    file = shop_file_of(chosen.pattern)
    return _of_pattern(chosen) if file is None else _of_shop(chosen, file)


def _of_pattern(chosen: Namespace) -> WeekAsked:
    shelf = shelf_for(chosen.catalogues)
    shop, air = shop_of(chosen, shelf)
    derived = derived_in(chosen, shelf, shop)
    if not derived.order:
        raise FaultyPatternError(derived.findings)
    build = BuildInHand(
        id="",
        title=derived.pattern.name,
        work=derived.work,
        relations=derived.relations,
        workplace=Workplace(shop=shop, shelf=derived.shelf),
        order=derived.order,
    )
    problem = problem_from(
        build.work,
        build.relations,
        build.workplace,
        origin_at=start_of(chosen.start, shop.zone),
        order=build.order,
    )

    origin = pattern_origin(derived.pattern.uuid, pattern_folder(chosen.pattern))

    def table(plan: Plan) -> WeekTable:
        spans = dict(shown(plan, problem).spans())
        told = Told(
            title=derived.pattern.name,
            sentence=_sentence(plan, problem, shop),
            notes=_notes([(derived.pattern.name, derived, spans)]),
            note=lambda activity, start_at, end_at: note_of(
                derived, derived.work.step(step_of(activity)), start_at, end_at
            ),
            origins={derived.assembly.build: origin},
        )
        return week_table(problem, plan, shop, told)

    return WeekAsked(
        problem=problem,
        shop=shop,
        air=air,
        missing=(),
        told=shop_findings((build,), problem, places=places_in(str(chosen.shop or ""))),
        table=table,
        report=lambda plan: plan_report(derived, plan, problem, _sentence(plan, problem, shop)),
        picture=lambda path, plan, _sure: save_picture(path, derived, plan, problem),
        builds=(
            PlannedBuild(id=derived.assembly.build, title=derived.pattern.name, derived=derived),
        ),
    )


def _of_shop(chosen: Namespace, file: Path) -> WeekAsked:
    _check_alone(chosen)
    shelf, orders = shelf_for(chosen.catalogues), orders_of(file)
    shop, air = shop_of(Namespace(**{**vars(chosen), "shop": file}), shelf)
    ordered = ShopOrders(file=file, orders=orders, shelf=shelf, shop=shop)
    builds, missing = builds_to_plan(chosen, ordered)
    if missing and not builds:
        raise UnreadableError(missing)
    if not builds:
        message = f"{file}: all its builds are done or laid aside. Nothing is left to plan."
        raise ArmorplanError(message)
    in_hand = tuple(build.in_hand for build in builds)
    problem = joined_problem(in_hand, origin_at=start_of(chosen.start, shop.zone))
    told = findings_of(in_hand, problem, places=read_shop_file(file).places)
    asked = _ShopWeek(file=file, shop=shop, builds=builds, problem=problem)
    return WeekAsked(
        problem=problem,
        shop=shop,
        air=air,
        missing=missing,
        told=told,
        table=asked.table,
        report=lambda plan: week_report(
            asked.table(plan), plan, (*missing, *told, *asked.findings())
        ),
        picture=lambda path, plan, sure: save_week_figure(
            path, week_figure(asked.table(plan), plan, problem, shop, sure=sure)
        ),
        builds=tuple(
            PlannedBuild(id=build.in_hand.id, title=build.in_hand.title, derived=build.derived)
            for build in builds
        ),
    )


def _check_alone(chosen: Namespace) -> None:
    if chosen.shop is not None:
        message = f"--shop {chosen.shop}: {chosen.pattern} is a shop already. Name one of the two."
        raise ArmorplanError(message)
    if chosen.choices:
        message = (
            f"--with decides options of one pattern, and {chosen.pattern} is a shop. Write 'with' "
            "in its table [builds.ID]."
        )
        raise ArmorplanError(message)


@dataclass(frozen=True, slots=True, kw_only=True)
class _ShopWeek:
    file: Path
    shop: Shop
    builds: tuple[BuildToPlan, ...]
    problem: Problem

    def table(self, plan: Plan) -> WeekTable:
        of = {build.in_hand.id: build for build in self.builds}
        every = shown(plan, self.problem).spans()
        told = Told(
            title=shop_title(self.file),
            sentence=_sentence(plan, self.problem, self.shop),
            notes=_notes(
                [(build.in_hand.title, build.derived, _own(build, every)) for build in self.builds]
            ),
            note=lambda activity, start_at, end_at: _note(
                of[activity.partition("/")[0]], activity, (start_at, end_at)
            ),
            origins={build.in_hand.id: build.origin for build in self.builds},
        )
        return week_table(self.problem, plan, self.shop, told)

    def findings(self) -> Iterable[Finding]:
        """Return what was found in the patterns, once for builds alike."""
        return dict.fromkeys(f for build in self.builds for f in build.derived.findings)


def _sentence(plan: Plan, problem: Problem, shop: Shop) -> str:
    return plan_words(plan, problem, naming_of(shop, problem))[0]


def _own(build: BuildToPlan, spans: Mapping[str, tuple[datetime, datetime, str | None]]) -> Spans:
    """Return the spans of a build's steps, as its derived work names them."""
    named = ((build.step(name), span) for name, span in spans.items() if _is_of(build, name))
    return {step.id: span for step, span in named if step is not None}


def _is_of(build: BuildToPlan, activity: str) -> bool:
    return activity.partition("/")[0] == build.in_hand.id


def _note(build: BuildToPlan, activity: str, when: tuple[datetime, datetime]) -> BarNote:
    step: Step | None = build.step(activity)
    return NO_NOTE if step is None else note_of(build.derived, step, *when)


def _notes(builds: list[tuple[str, Derived, Spans]]) -> tuple[str, ...]:
    """Return when most solvent evaporates in the room, and what nights cost each build."""
    (_, derived, spans), *others = builds
    solvent = solvent_words(derived, spans, [(one, its) for _, one, its in others])
    nights = [(title, nights_words(one, its)) for title, one, its in builds]
    told = [f"{title}: {words}" if others else words for title, words in nights if words]
    return tuple(text for text in (solvent, *told) if text)
