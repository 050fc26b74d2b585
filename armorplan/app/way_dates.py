"""What a way back does to the date: the build alone, planned with it and as it stands now."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from armorplan.app.moment import BenchMoment
from armorplan.app.plan_history import in_hand_of
from armorplan.app.way_back_rows import WaysBack
from armorplan.kernel.units import span_words
from armorplan.ledger.build_orders import BuildOrder
from armorplan.ledger.events import EventKind
from armorplan.ledger.mends import Mend, mend_text
from armorplan.ledger.told import Told
from armorplan.schedule.joining import joined_problem
from armorplan.schedule.planning import first_plan

NEAR_MIN = 5
"""A first plan tells a date no finer; what differs by less comes to the same."""
_NAME = "asked"


@dataclass(frozen=True, slots=True, kw_only=True)
class Dating:
    """Says of ways back what each does to the finish, by a first plan of the build alone.

    Attributes:
        found: the ways.
        moment: how the build stood when they were looked for.
        mends: what each way, by its id, would be kept as.
    """

    found: WaysBack
    moment: BenchMoment
    mends: Mapping[str, Mend]

    def told(self, should_stop: Callable[[], bool] = lambda: False) -> Iterator[WaysBack]:
        """Yield the ways with one more of them dated each time.

        Each takes as long as a first plan, two seconds for 500 steps: never in the window's own
        thread. Where no plan is found nothing is said.
        """
        found, without = self.found, _finish_at(self.moment)
        for at, way in enumerate(self.found.ways):
            mend = self.mends.get(way.id)
            if should_stop() or without is None:
                return
            finish = _finish_at(_on_the_way(self.moment, mend)) if mend is not None else None
            if finish is not None:
                dated = replace(way, finish=_words(finish, without))
                found = replace(found, ways=(*found.ways[:at], dated, *found.ways[at + 1 :]))
                yield found


def _on_the_way(moment: BenchMoment, mend: Mend) -> BenchMoment:
    """Return how the build would stand once a way back is chosen."""
    build = moment.derived.assembly.build
    told = Told(
        id=_NAME,
        kind=EventKind.MEND,
        step=f"{build}/mend/{_NAME}",
        text=mend_text(mend),
        at=moment.now_at,
    )
    return moment.with_told(told)


def _finish_at(moment: BenchMoment) -> datetime | None:
    origin_at = moment.now_at.replace(second=0, microsecond=0) + timedelta(minutes=1)
    order = BuildOrder(build=moment.derived.assembly.build)
    problem = joined_problem((in_hand_of(moment, order, "", origin_at),), origin_at=origin_at)
    ends = [placed.end_min for placed in first_plan(problem).placed]
    return origin_at + timedelta(minutes=max(ends)) if ends else None


def _words(at: datetime, without: datetime) -> str:
    later_min = round((at - without).total_seconds() / 60)
    if abs(later_min) < NEAR_MIN:
        return "as planned"
    said = span_words(abs(later_min))
    return f"{said} later" if later_min > 0 else f"{said} earlier"
