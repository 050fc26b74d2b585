"""What happened at the bench so far, and steps as activities that stand where they were done."""

from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from math import ceil, floor

from armorplan.schedule.activity import Activity, Mode
from armorplan.schedule.dips import Dips
from armorplan.schedule.hands import Hands, quicker_together
from armorplan.schedule.table import Table
from armorplan.schedule.unsure import Unsure
from armorplan.steps.model import Step, StepKind, Work


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """What happened at the bench by ``origin_at``, by step id.

    Attributes:
        done: real start and end.
        running: since when a step is under way.
        worked_min: hands-on minutes already spent on a step that is paused.
        ready: when what is drying is likely dry, where the air of the hours says so.
        who: who did it or is at it, where that is known.
    """

    done: Mapping[str, tuple[datetime, datetime]]
    running: Mapping[str, datetime]
    worked_min: Mapping[str, int]
    ready: Mapping[str, datetime] = field(default_factory=dict)
    who: Mapping[str, str] = field(default_factory=dict)

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


@dataclass(frozen=True, slots=True, kw_only=True)
class ActivityMaker:
    """Makes activities of steps, fixed where they are done or under way.

    Attributes:
        origin_at: minutes count from here.
        place: where each step stands in the chosen order.
        history: what was done.
        hands: who may do what.
        dips: which coats go into which bath.
        earliest_min: nothing of the build begins sooner.
    """

    origin_at: datetime
    place: Mapping[str, int]
    history: History
    hands: Hands
    dips: Dips
    earliest_min: int = 0

    def activity(self, step: Step, table: Table | None) -> Activity:
        """Return a step as an activity; ``table`` gives what the air of the hour makes of it."""
        worked_min = self.history.worked_min.get(step.id, 0)
        spread, cause = Unsure(shop=self.hands.shop).of(step)
        start, end = span_of(step, self.history, self.origin_at)
        plain = Activity(
            id=step.id,
            minutes=max(1, step.minutes - worked_min),
            people=self.hands.names_for(step) if step.attended else (),
            fixed_start_min=start,
            fixed_end_min=end,
            fixed_who=self.history.who.get(step.id) if start is not None else None,
            table=table,
            priority=self.place.get(step.id, len(self.place)),
            title=step.title,
            spread=spread,
            cause=cause,
        )
        if start is not None:
            return self._under_way(step, plain) if self._is_at(step) else plain
        plain = replace(plain, earliest_min=self.earliest_min)
        if not step.attended:
            return plain
        laid = self._by_hand(step, plain, is_whole=not worked_min)
        modes = quicker_together(laid.modes)
        lessons = () if laid.dip or table else (w for w in laid.modes if w not in modes)
        return replace(laid, modes=modes, taught=tuple(lessons))

    def _is_at(self, step: Step) -> bool:
        """Tell whether somebody is at a step now: then it keeps all that it takes."""
        return step.attended and step.id in self.history.running.keys() - self.history.done.keys()

    def _under_way(self, step: Step, plain: Activity) -> Activity:
        """Return what somebody is at with its bath, its place and who is there, till it ends."""
        laid = self._by_hand(step, plain, is_whole=True)
        modes = _done_by(laid.modes, plain.fixed_who)
        names = {way.name for way in modes}
        is_known = len(names) == 1
        return replace(
            laid,
            modes=modes,
            fixed_mode=names.pop() if is_known else "",
            sitting_min=0,
            soon=False,
        )

    def _by_hand(self, step: Step, plain: Activity, *, is_whole: bool) -> Activity:
        """Return hands-on work with its ways, its bath, its place and who has to be there too."""
        hands = self.hands
        dip = self.dips.dip(step) if is_whole else None
        return replace(
            plain,
            modes=dip[1] if dip else hands.ways(step, plain.minutes),
            dip=dip[0] if dip else None,
            demands=hands.demands(step.kind),
            also=hands.also(step),
            sitting_min=0 if dip else hands.sitting_min(step),
            soon=hands.shop.is_detailed and step.kind is StepKind.DRY_FIT,
        )


def _done_by(modes: tuple[Mode, ...], who: str | None) -> tuple[Mode, ...]:
    """Return the ways of who is at it, though the shop may not have them do it."""
    if who is None or not modes:
        return modes
    first = modes[0].who
    theirs = tuple(way for way in modes if way.who == who)
    return theirs or tuple(replace(way, who=who) for way in modes if way.who == first)


def span_of(step: Step, history: History, origin_at: datetime) -> tuple[int | None, int | None]:
    """Return from which minute to which a step begun lies, none in the future but for its end.

    ``None`` for both where it was not begun.
    """

    def minute(at: datetime) -> float:
        return (at - origin_at).total_seconds() / 60

    if step.id in history.done:
        start_at, end_at = history.done[step.id]
        end = min(0, floor(minute(end_at)))
        return min(end, floor(minute(start_at))), end
    if step.id in history.running:
        start = min(0, floor(minute(history.running[step.id])))
        ready_at = history.ready.get(step.id)
        end = start + step.minutes if ready_at is None else ceil(minute(ready_at))
        return start, max(0, end)
    return None, None
