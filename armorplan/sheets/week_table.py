"""The plan of some builds as a table: what goes to calendars, spreadsheets and paper."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from armorplan.schedule.company import beside_words


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildLine:
    """A build of the plan; instants are aware.

    Attributes:
        due_at: ``None``: nothing was promised.
        finish_at: when its last step ends; ``None``: none is planned.
        late_min: minutes after it is due.
    """

    id: str
    title: str
    due_at: datetime | None = None
    ready_at: datetime | None = None
    weight: int = 1
    finish_at: datetime | None = None
    late_min: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanLine:
    """A step of the plan, or one sitting of it; instants are aware.

    Attributes:
        id: the activity's, the same in every plan of the build.
        step: the step it stands for.
        build, build_title: whose step it is.
        who: who does it; empty where time alone works.
        also: who has to be there as well.
        beside: those of them who are at the bench beside whoever does it.
        bath: the bath it goes into; empty for most.
        begin_from_at, begin_by_at: it has to be begun in between; ``None``: no such bound.
        why: what asks for that.
        surely_at: by then what dries is surely ready.
        note: of a drying, when it is ready and why it takes so long.
        known_as: what names it in the world: no other shop's step is called so, and it stays the
            same when the build gets another id; empty: its id does.
    """

    id: str
    step: str
    title: str
    build: str
    build_title: str
    start_at: datetime
    end_at: datetime
    who: str = ""
    also: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()
    bath: str = ""
    begin_from_at: datetime | None = None
    begin_by_at: datetime | None = None
    why: str = ""
    surely_at: datetime | None = None
    note: str = ""
    known_as: str = ""

    @property
    def comes(self) -> tuple[str, ...]:
        """Who comes for it: has to be there as well, and has no hand in it."""
        return tuple(one for one in self.also if one not in self.beside)

    @property
    def at_bench(self) -> str:
        """Who does it, with who is beside them, in words."""
        return beside_words(self.who, self.beside)

    @property
    def hands(self) -> str:
        """Everybody who is there, in words; empty where time alone works."""
        return " and ".join((self.at_bench, *self.comes)) if self.who else ""

    @property
    def minutes(self) -> int:
        """Whole minutes from start to end."""
        return int((self.end_at - self.start_at).total_seconds() // 60)


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekTable:
    """A plan as a table.

    Attributes:
        zone: IANA name; local times are in it.
        sentence: how good the plan is, in words.
        notes: what nights cost, when solvents add up, what is not planned and why.
        lines: by start.
    """

    title: str
    zone: str
    sentence: str
    builds: tuple[BuildLine, ...]
    lines: tuple[PlanLine, ...]
    notes: tuple[str, ...] = ()


def by_start(lines: Iterable[PlanLine]) -> tuple[PlanLine, ...]:
    """Return lines as they follow each other."""
    return tuple(sorted(lines, key=lambda line: (line.start_at, line.end_at, line.id)))
