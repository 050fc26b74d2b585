"""What is pinned, put together: who is busy when, and what is taken of each place when."""

from collections.abc import Iterator, Mapping
from itertools import accumulate, pairwise

from armorplan.schedule.activity import Activity, Demand, Window
from armorplan.schedule.calendars import merged
from armorplan.schedule.problem import Placed

Block = tuple[Activity, Placed]
"""An activity that stands for what is pinned, and where it lies."""


def busy_people(busy: Mapping[str, list[Window]]) -> Iterator[Block]:
    """Yield one block for each stretch in which somebody is busy without a gap."""
    for who in sorted(busy):
        for span in merged(busy[who]):
            yield _block(f"{who} is busy from {span[0]}", span, who)


class TakenPlaces:
    """Adds up what is taken of places."""

    def __init__(self) -> None:
        self._changes: dict[str, dict[int, int]] = {}

    def take_for(self, activity: Activity, placed: Placed) -> None:
        """Take what an activity takes while it runs, in the way it is done."""
        way = activity.way(placed.who, placed.mode)
        for demand in (*activity.demands, *(way.demands if way else ())):
            self.take(demand.resource, (placed.start_min, placed.end_min), demand.amount)

    def take(self, resource: str, span: Window, amount: int) -> None:
        """Take so much of a place; nothing where the span is empty."""
        begin, end = span
        if begin < end and amount:
            changes = self._changes.setdefault(resource, {})
            changes[begin] = changes.get(begin, 0) + amount
            changes[end] = changes.get(end, 0) - amount

    def blocks(self) -> Iterator[Block]:
        """Yield one block for each stretch in which as much is taken of a place."""
        for resource, changes in sorted(self._changes.items()):
            minutes = sorted(minute for minute, amount in changes.items() if amount)
            levels = accumulate(changes[minute] for minute in minutes)
            for span, amount in zip(pairwise(minutes), levels, strict=False):
                if amount:
                    demand = Demand(resource=resource, amount=amount)
                    yield _block(f"{resource} is taken from {span[0]}", span, None, (demand,))


def _block(name: str, span: Window, who: str | None, demands: tuple[Demand, ...] = ()) -> Block:
    begin, end = span
    activity = Activity(
        id=f"\0{name}",
        minutes=end - begin,
        people=() if who is None else (who,),
        demands=demands,
        fixed_start_min=begin,
        fixed_end_min=end,
        fixed_who=who,
    )
    return activity, Placed(id=activity.id, start_min=begin, end_min=end, who=who)
