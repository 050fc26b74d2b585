"""What happened at the bench so far, and steps as activities that stand where they were done."""

from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from math import ceil, floor

from armorplan.schedule.activity import Activity
from armorplan.schedule.table import Table
from armorplan.steps.model import Step, Work


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """What happened at the bench by ``origin_at``, by step id.

    Attributes:
        done: real start and end.
        running: since when a step is under way.
        worked_min: hands-on minutes already spent on a step that is paused.
        ready: when what is drying is likely dry, where the air of the hours says so.
    """

    done: Mapping[str, tuple[datetime, datetime]]
    running: Mapping[str, datetime]
    worked_min: Mapping[str, int]
    ready: Mapping[str, datetime] = field(default_factory=dict)

    @property
    def begun(self) -> AbstractSet[str]:
        """The steps done or under way."""
        return self.done.keys() | self.running.keys()

    def ends(self, work: Work) -> dict[str, datetime]:
        """Return when each step done ended, and each under way will."""
        ends = {step: end_at for step, (_, end_at) in self.done.items()}
        for step, start_at in self.running.items():
            if work.has(step):
                usual_at = start_at + timedelta(minutes=work.step(step).minutes)
                ends[step] = self.ready.get(step, usual_at)
        return ends


NOTHING_DONE = History(done={}, running={}, worked_min={})


class ActivityMaker:
    """Makes activities of steps, fixed where they are done or under way."""

    def __init__(
        self,
        origin_at: datetime,
        people: tuple[str, ...],
        place: Mapping[str, int],
        history: History,
    ) -> None:
        self._origin_at = origin_at
        self._people = people
        self._place = place
        self._history = history

    def _minute(self, at: datetime) -> float:
        return (at - self._origin_at).total_seconds() / 60

    def activity(self, step: Step, table: Table | None) -> Activity:
        """Return a step as an activity; ``table`` gives what the air of the hour makes of it."""
        minutes = max(1, step.minutes - self._history.worked_min.get(step.id, 0))
        start, end = self._span(step)
        return Activity(
            id=step.id,
            minutes=minutes,
            people=self._people if step.attended else (),
            fixed_start_min=start,
            fixed_end_min=end,
            table=table,
            priority=self._place.get(step.id, len(self._place)),
            title=step.title,
        )

    def _span(self, step: Step) -> tuple[int | None, int | None]:
        if step.id in self._history.done:
            start_at, end_at = self._history.done[step.id]
            end = min(0, floor(self._minute(end_at)))
            return min(end, floor(self._minute(start_at))), end
        if step.id in self._history.running:
            start = min(0, floor(self._minute(self._history.running[step.id])))
            ready_at = self._history.ready.get(step.id)
            end = start + step.minutes if ready_at is None else ceil(self._minute(ready_at))
            return start, max(0, end)
        return None, None
