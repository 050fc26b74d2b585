"""What a view may ask of the builds in hand and their plan. ``session_week.SessionWeek`` fulfils it."""

from collections.abc import Callable
from datetime import datetime
from typing import Protocol

from armorplan.app.in_hand import InHand, WeekPlan
from armorplan.app.shown_plan import ShownPlan
from armorplan.sheets.week_table import WeekTable
from armorplan.workshop.shop import Shop


class BenchWeek(Protocol):
    """The builds of the workshop and the plan of those in hand."""

    def in_hand(self) -> tuple[InHand, ...]:
        """All builds of the workshop, the oldest first, with what was agreed about each."""
        ...

    def set_order(
        self,
        build: str,
        due_at: datetime | None,
        ready_at: datetime | None,
        weight: int = 1,
        in_hand: bool = True,  # noqa: FBT001, FBT002 - all that a row says, in its order
    ) -> str:
        """Agree on a build's dates and weight, and whether it is in hand."""
        ...

    def week(self) -> WeekPlan | None:
        """The plan shown of all builds in hand; ``None`` until the first one is there."""
        ...

    def at_hand(self) -> ShownPlan | None:
        """The plan that people go by, of this sitting or of the last one; ``None``: there is none."""
        ...

    def shop(self) -> Shop:
        """The shop that everything is planned in."""
        ...

    def shop_source(self) -> str:
        """The shop file that ordered the build; empty where none did."""
        ...

    def tabling_week(self) -> Callable[[], WeekTable] | None:
        """What writes the plan shown as a table, in another thread; ``None``: there is none."""
        ...

    def keep_promise(self) -> str:
        """Keep the plan shown as the one that is promised."""
        ...
