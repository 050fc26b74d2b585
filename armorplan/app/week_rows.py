"""The week of all builds in hand as rows: bars, lanes by person, by place or by build, and loads."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from armorplan.app.chart_air import AirStretch
from armorplan.app.rows import BenchState

Stretch = tuple[datetime, datetime]


class By(StrEnum):
    """What the lanes of the week stand for."""

    PERSON = "by person"
    PLACE = "by bath and rack"
    BUILD = "by build"


class LaneKind(StrEnum):
    """What one lane stands for."""

    PERSON = "person"
    DRYING = "drying"
    BATH = "bath"
    PLACE = "place"
    BUILD = "build"


class BarKind(StrEnum):
    """What a bar stands for: hands at work, what the air dries, a place on a rack that is taken."""

    WORK = "work"
    DRIES = "dries"
    HANGS = "hangs"


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekBar:
    """One bar.

    Attributes:
        who: whose hands do it, or in the lane of somebody else whose time it takes they themselves.
        beside: who is at the bench beside whoever does it.
        helps: in the lane of one of these, whom they are beside; else empty.
        key: names it among the bars of one laying.
        step: the step it belongs to; of another build where ``build`` is given.
        build, build_title: whose it is, where it is not the open build's.
        tag: the letter of its build; empty where there is one build only.
        surely_at, note: as of a ``rows.ChartBar``.
        rests: stretches within it in which its person has closed.
        window: from when to when it has to begin, where it may come too late.
        promised: where it lay in the plan that was promised; ``None`` where nothing was.
        family: what its bath holds: treatment and colour.
        free_at: of what hangs: when it is dry, so that only the place is still taken.
        amount: how much of its place it takes.
    """

    key: str
    step: str
    title: str
    kind: BarKind
    lane: str
    who: str
    start_at: datetime
    end_at: datetime
    state: BenchState
    beside: tuple[str, ...] = ()
    helps: str = ""
    build: str = ""
    build_title: str = ""
    tag: str = ""
    surely_at: datetime | None = None
    note: str = ""
    rests: tuple[Stretch, ...] = ()
    window: Stretch | None = None
    promised: Stretch | None = None
    family: str = ""
    free_at: datetime | None = None
    amount: int = 0

    @property
    def attended(self) -> bool:
        """Tell whether a person does it."""
        return self.kind is BarKind.WORK

    @property
    def is_moved(self) -> bool:
        """Tell whether it lies elsewhere than was promised."""
        return self.promised is not None and self.promised != (self.start_at, self.end_at)


@dataclass(frozen=True, slots=True, kw_only=True)
class DayLoad:
    """How much of a person's hours of one day is taken, in minutes."""

    start_at: datetime
    end_at: datetime
    there_min: int
    taken_min: int


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekLane:
    """One lane.

    Attributes:
        closed: when its person or place has closed, beside the hours in which nobody works.
        loads: of a person, day by day.
        tag: of a build: its letter.
        due_at, finish_at, promised_at: of a build: when it is due, ready, and was to be ready.
        capacity, most: of a place: what it holds, and the most that is taken at any time.
        holds: of a bath: the family in it at first; ``change_min``: what a change takes.
    """

    id: str
    name: str
    kind: LaneKind
    closed: tuple[Stretch, ...] = ()
    loads: tuple[DayLoad, ...] = ()
    tag: str = ""
    due_at: datetime | None = None
    finish_at: datetime | None = None
    promised_at: datetime | None = None
    capacity: int = 0
    most: int = 0
    holds: str = ""
    change_min: int = 0

    @property
    def late_min(self) -> int | None:
        """Minutes the build ends after it is due, negative: to spare; ``None`` where nothing is due."""
        if self.due_at is None or self.finish_at is None:
            return None
        return round((self.finish_at - self.due_at).total_seconds() / 60)


@dataclass(frozen=True, slots=True, kw_only=True)
class Week:
    """The week at one laying: lanes top down, hours in which nobody works, and the present.

    ``bars`` come by their start.

    ``families`` are what baths hold, in the order in which they are told apart; ``has_promise``
    says whether there is a plan that was promised to compare with. ``reach`` is from the first start
    to the last end or due date of everything, also of what this laying leaves out. ``builds`` are
    the lanes of all builds, also where the week is laid otherwise: their letters and due dates.
    """

    by: By
    bars: tuple[WeekBar, ...]
    lanes: tuple[WeekLane, ...]
    closed: tuple[Stretch, ...]
    now_at: datetime
    zone: str
    reach: Stretch
    air: tuple[AirStretch, ...] = ()
    families: tuple[str, ...] = ()
    has_promise: bool = False
    builds: tuple[WeekLane, ...] = ()
