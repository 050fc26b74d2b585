"""The plan that is shown: with the instant its minutes count from, and how it is kept."""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from armorplan.app.snapshots import UNFIT, json_converter, plain
from armorplan.schedule.hands import beside_named
from armorplan.schedule.problem import Placed, Plan, Problem
from armorplan.schedule.sittings import step_of


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownPlan:
    """A checked plan and the instant its minutes count from."""

    plan: Plan
    origin_at: datetime

    def spans(self) -> Mapping[str, tuple[datetime, datetime, str | None]]:
        """Return start, end and who, by step; one of several sittings from first to last."""
        found: dict[str, tuple[datetime, datetime, str | None]] = {}
        for placed in self.plan.placed:
            start_at, end_at = self.span(placed)
            step = step_of(placed.id)
            if step in found:
                start_at = min(start_at, found[step][0])
                end_at = max(end_at, found[step][1])
            found[step] = (start_at, end_at, placed.who)
        return found

    def beside(self) -> Mapping[str, tuple[str, tuple[str, ...]]]:
        """Return, of the steps done with somebody beside, who does them and who is beside them."""
        return {
            step_of(placed.id): (placed.who, beside)
            for placed in self.plan.placed
            if placed.who and (beside := beside_named(placed.mode))
        }

    def span(self, placed: Placed) -> tuple[datetime, datetime]:
        """Return the instants at which one step starts and ends."""
        return (
            self.origin_at + timedelta(minutes=placed.start_min),
            self.origin_at + timedelta(minutes=placed.end_min),
        )

    @property
    def finish_at(self) -> datetime:
        """The instant at which the last step ends."""
        return self.origin_at + timedelta(minutes=self.plan.finish_min)

    def finish_of(self, is_mine: Callable[[str], bool]) -> datetime | None:
        """Return when the last of some steps ends; ``None`` where none of them is placed."""
        ends = (self.span(one)[1] for one in self.plan.placed if is_mine(step_of(one.id)))
        return max(ends, default=None)

    def as_text(self) -> str:
        """Return it as JSON, for the workshop file."""
        return json.dumps(plain(self), ensure_ascii=False)


def shown(plan: Plan, problem: Problem) -> ShownPlan:
    """Return a plan together with its problem's origin."""
    return ShownPlan(plan=plan, origin_at=problem.origin_at)


def plan_from(text: str) -> ShownPlan | None:
    """Return a plan as the workshop file kept it; ``None`` where it is of another form.

    A plan can be made again at any time, so a lost one is worth no word.
    """
    try:
        kept = json_converter().structure(json.loads(text), ShownPlan)
    except UNFIT:
        return None
    return None if kept.origin_at.tzinfo is None else kept
