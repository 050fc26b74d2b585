"""The coming days as rows: bars, lanes, closed hours."""

from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from armorplan.app.bench_states import BenchStates
from armorplan.app.chart_air import air_of
from armorplan.app.chart_notes import NO_NOTE, note_of
from armorplan.app.derived import Derived
from armorplan.app.lane_names import lane_names
from armorplan.app.rows import BenchState, Chart, ChartBar
from armorplan.kernel.units import DAY_MIN
from armorplan.schedule.calendars import ShopCalendar, closed_windows
from armorplan.schedule.problem import Worker

Span = tuple[datetime, datetime, str | None]
DRYING_LANE = "Drying"
_LEAST_DAYS = 2


def _lane(derived: Derived, who: str | None, *, attended: bool) -> str:
    if not attended:
        return DRYING_LANE
    names = {person.id: person.name for person in derived.shop.people}
    return names.get(who or "", next(iter(names.values()), "Maker"))


def _midnight_before(at: datetime, zone: ZoneInfo) -> datetime:
    """Return when the day of an instant began in the shop, in UTC."""
    local = at.astimezone(zone)
    return local.replace(hour=0, minute=0, second=0, microsecond=0).astimezone(UTC)


def chart_of(
    derived: Derived,
    states: BenchStates,
    spans: Mapping[str, Span],
    now_at: datetime,
) -> Chart:
    """Return bars for all spans (planned, under way, done), with the shop's closed hours behind."""
    bars = [_bar(derived, states, step_id, span) for step_id, span in spans.items()]
    bars.sort(key=lambda bar: (bar.start_at, bar.end_at, bar.step))
    first_at = min((bar.start_at for bar in bars), default=now_at)
    ends = [max(bar.end_at, bar.surely_at or bar.end_at) for bar in bars]
    last_at = max(ends, default=now_at)
    origin_at = _midnight_before(min(first_at, now_at), ZoneInfo(derived.shop.zone))
    days = max(_LEAST_DAYS, (last_at - origin_at).days + 2)
    horizon_min = days * DAY_MIN
    calendar = ShopCalendar(derived.shop, origin_at, horizon_min)
    workers = tuple(
        Worker(id=person.id, windows=calendar.of_person(person)) for person in derived.shop.people
    )
    closed = closed_windows(workers, horizon_min)
    return Chart(
        bars=tuple(bars),
        lanes=(*(person.name for person in derived.shop.people), DRYING_LANE),
        closed=tuple(
            (origin_at + timedelta(minutes=start), origin_at + timedelta(minutes=end))
            for start, end in closed
        ),
        now_at=now_at,
        zone=derived.shop.zone,
        names=lane_names(derived.shop),
        air=air_of(derived.shop.room, origin_at, origin_at + timedelta(days=days)),
    )


def _bar(derived: Derived, states: BenchStates, step_id: str, span: Span) -> ChartBar:
    start_at, end_at, who = span
    step = derived.work.step(step_id)
    state = states.states.get(step_id, BenchState.WAITING)
    over = state in (BenchState.DONE, BenchState.EARLY)
    note = NO_NOTE if over else note_of(derived, step, start_at, end_at)
    return ChartBar(
        step=step_id,
        title=step.title,
        lane=_lane(derived, who, attended=step.attended),
        start_at=start_at,
        end_at=max(end_at, start_at + timedelta(minutes=1)),
        attended=step.attended,
        state=state,
        surely_at=note.surely_at,
        note=note.text,
    )
