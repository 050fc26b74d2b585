"""The builds in hand of a session: what is agreed about them, their one plan, what was promised."""

from abc import abstractmethod
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from armorplan.app.build_origins import build_origin
from armorplan.app.build_plan import BuildPlan
from armorplan.app.cutting import Cutting
from armorplan.app.derived import Derived
from armorplan.app.entries import NOT_RECORDED, Ledger
from armorplan.app.in_hand import InHand, WeekPlan, agreed_words, rows_of, why_not_agreed
from armorplan.app.kin_builds import KinBuilds
from armorplan.app.ordered_builds import shop_title
from armorplan.app.other_builds import OtherBuilds
from armorplan.app.promised import Promised
from armorplan.app.session_pages import SessionPages
from armorplan.app.sheet_making import SheetAsked, bench_sheet
from armorplan.app.shown_plan import ShownPlan
from armorplan.app.tabled_week import tabled_week
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.kernel.findings import Finding
from armorplan.ledger.build_orders import BuildOrder
from armorplan.ledger.builds import BuildRecord
from armorplan.ledger.events import Event
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.problem import Problem
from armorplan.sheets.bench_sheet_model import BenchSheet
from armorplan.sheets.week_table import WeekTable
from armorplan.workshop.pins import PinEntry
from armorplan.workshop.shop import Shop


class SessionWeek(SessionPages):
    """What a session knows of all builds of its workshop; ``session.Session`` adds the bench."""

    def __init__(
        self,
        build: BuildRecord,
        derived: Derived,
        ledger: Ledger,
        clock: Clock,
    ) -> None:
        super().__init__(build, derived, clock)
        self._ledger = ledger
        self._others = OtherBuilds(build.id, ledger)
        self._promised = Promised(ledger.orders)
        self._planning = BuildPlan(derived, ledger, clock, self._others)
        self.cutting = Cutting(lambda: self._bare, ledger.cut_log, clock)

    def share(self, kin: KinBuilds) -> None:
        """Take other builds from what this window's former sessions derived, and add this one."""
        kin.know(self._bare)
        self._planning.kin = kin

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What was found in the pattern, and what the shop does to the plan of all in hand."""
        planning = self._planning
        return (*planning.kin.not_begun, *super().findings, *planning.told)

    @abstractmethod
    def change(self) -> None:
        """Show everything anew."""

    @abstractmethod
    def show_timers(self) -> None:
        """Show everything anew where nothing of the build has changed."""

    def builds_of_pattern(self) -> tuple[tuple[BuildRecord, str, tuple[Event, ...]], ...]:
        """Return all builds of this build's pattern with their names and entries, the oldest first.

        Raises:
            WorkshopError: the workshop file cannot be read.
        """
        names = self._ledger.names_of(self._build.pattern_uuid)
        return tuple(
            (self._others.record(build), name, self._ledger.events_since(build, 0))
            for build, name in names.items()
        )

    def derived_of(self, record: BuildRecord) -> Derived | None:
        """Return what follows from another build, in any thread; ``None`` where it cannot be read."""
        return self._planning.kin.derived(record.id, record, self._bare.shop)

    def in_hand(self) -> tuple[InHand, ...]:
        """Return all builds of the workshop, the oldest first, with what was agreed about each."""
        names, orders = self._others.names, self._others.orders
        troubles = {build: self._planning.kin.trouble(build) for build in names}
        return tuple(rows_of(names, orders, troubles, self._build.id))

    def set_order(
        self,
        build: str,
        due_at: datetime | None,
        ready_at: datetime | None,
        weight: int = 1,
        in_hand: bool = True,  # noqa: FBT001, FBT002 - all that a row says, in its order
    ) -> str:
        """Agree on a build's dates and weight, and whether it is in hand; return it in a sentence.

        What cannot be agreed, or kept, changes nothing and says why.
        """
        if build not in self._others.names:
            return f"{NOT_RECORDED} There is no build '{build}' in this workshop."
        shown = self._others.orders.get(build) or BuildOrder(build=build)
        wanted: dict[str, Any] = {
            "due_at": due_at,
            "ready_at": ready_at,
            "weight": weight,
            "in_hand": in_hand,
        }
        try:
            # Only what was changed here: another window may have agreed on the rest meanwhile.
            self._others.read_new()
            before = self._others.orders.get(build) or BuildOrder(build=build)
            changed = {name: to for name, to in wanted.items() if getattr(shown, name) != to}
            order = replace(before, **changed)
            why_not = why_not_agreed(order)
            if why_not:
                return f"{NOT_RECORDED} {why_not}"
            self._ledger.orders.keep(order)
            self._others.read_new()
        except WorkshopError as error:
            return f"{NOT_RECORDED} {error}"
        self._planning.forget_problem()
        self.show_timers()
        return agreed_words(self._others.names[build], order, ZoneInfo(self._derived.shop.zone))

    def week(self) -> WeekPlan | None:
        """Return the plan shown of all builds in hand; ``None`` until the first one is there."""
        return self._planning.week(self._promised)

    def at_hand(self) -> ShownPlan | None:
        """Return the plan that people go by, of this sitting or of the last one; ``None``: there is none."""
        shown = self._planning.shown
        return shown if shown is not None and shown.plan.placed else None

    def shop(self) -> Shop:
        """Return the shop that everything is planned in."""
        return self._derived.shop

    def shop_source(self) -> str:
        """Return the shop file that ordered the build; empty where none did."""
        order = self._others.order
        return order.source if order else ""

    def tabling_week(self) -> Callable[[], WeekTable] | None:
        """Return what writes the plan shown as a table, in any thread; ``None``: there is none."""
        week = self.week()
        if week is None or not week.shown.plan.placed:
            return None
        source, kin = self.shop_source(), self._planning.kin
        title = shop_title(Path(source)) if source else self._build.name
        builds = {self._build.id: self._derived}
        origins = {self._build.id: build_origin(self._others.order, lambda: self._build)}
        for each in self._others.beside:
            derived = kin.known(each.build)
            if derived is not None:
                builds[each.build] = derived
                read = partial(self._others.record, each.build)
                origins[each.build] = build_origin(each.order, read)
        shop = self._derived.shop
        return partial(tabled_week, week, shop, title=title, builds=builds, origins=origins)

    def making_sheet(
        self, *, with_parts: bool, pins: Callable[[], tuple[PinEntry, ...]] | None = None
    ) -> Callable[[], BenchSheet]:
        """Return what makes the bench sheet of the build as planned, in any thread.

        Args:
            with_parts: with the parts at full size.
            pins: reads those that are owned by now; without it they are those of the build's shelf.
        """
        build, derived, clock, tabling = (
            self._build,
            self._derived,
            self._clock,
            self.tabling_week(),
        )

        def make() -> BenchSheet:
            asked = SheetAsked(
                derived=derived,
                build=build.id,
                title=build.name,
                table=tabling() if tabling else None,
                full_size=with_parts,
                pins=pins() if pins else None,
            )
            return bench_sheet(asked, clock)

        return make

    def keep_promise(self) -> str:
        """Keep the plan shown as the one that is promised; return that in a sentence."""
        shown = self._planning.shown
        if shown is None or not shown.plan.placed:
            return f"{NOT_RECORDED} There is no plan yet that could be promised."
        try:
            self._promised.keep(shown)
        except WorkshopError as error:
            return f"{NOT_RECORDED} {error}"
        self.show_timers()
        local = shown.finish_at.astimezone(ZoneInfo(self._derived.shop.zone))
        return (
            "The plan as it stands is kept as promised. Its last step ends on "
            f"{local:%a} {local.day} {local:%b %Y at %H:%M}."
        )

    def plan_from_now(self) -> None:
        """Let the next problem count from this moment."""
        self._planning.forget_problem()

    def problem(self) -> Problem:
        """Return the planning problem as things stand; the same one until something changes."""
        return self.asking()()

    def asking(self) -> Callable[[], Problem]:
        """Return what makes that problem; it may be called in another thread."""
        return self._planning.asking(self._moment)

    def problem_mark(self) -> object:
        """Return a value that is another as soon as the problem has to be made anew."""
        return self._planning.mark

    def take_plan(self, answer: CheckedPlan) -> bool:
        """Show a plan if it answers the present problem and the checker finds no fault in it."""
        taken = self._planning.take(answer)
        if taken:
            self.change()
        return taken
