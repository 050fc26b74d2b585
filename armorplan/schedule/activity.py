"""An activity of the neutral planning problem: who may do it, how long, with what.

Minutes count from the problem's origin.
"""

from dataclasses import dataclass, field

from armorplan.schedule.table import Table

Window = tuple[int, int]
"""Minutes from the origin, start inclusive, end exclusive."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """How much of a renewable resource an activity takes while it runs."""

    resource: str
    amount: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Mode:
    """One way to do an activity: who, how long, with what. Told by who and name together.

    Attributes:
        who: who does it; ``None`` for what time alone does.
        minutes: how long it takes this way; of a dip, its own share (see ``Dip``).
        name: tells ways of the same person apart: with which tool, in which bath.
        demands: taken while it runs, beside those of the activity.
        bath: the bath it goes into; for a dip.
        also: people who have to be there as well when it is done this way, all of them, from start
            to end: the maker beside an apprentice. Such a way is done in one go, never in
            sittings; whoever is beside is at the bench.
    """

    who: str | None
    minutes: int
    name: str = ""
    demands: tuple[Demand, ...] = ()
    bath: str = ""
    also: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Dip:
    """What an activity that goes into a bath asks of it.

    Dips that start together in one bath are one batch, a serial batch with availability of the
    whole: one person does it, with the same people beside, it takes ``set_up_min`` once (the most of its members') and the
    minutes of all members one after the other, and all of them end together when it ends.

    Attributes:
        family: what the bath has to hold: treatment and colour. One batch has one family.
        amount: how much of the bath's capacity it takes.
        set_up_min: minutes once for each batch.
    """

    family: str
    amount: int = 1
    set_up_min: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Activity:
    """One activity.

    Attributes:
        minutes: its duration; ignored where ``table`` gives it. With modes the least of theirs.
        people: who may do it, any one of them; empty for what time alone does. With people it
            lies within one stretch of that person's hours, without it runs day and night. With
            modes those of the modes.
        demands: renewable resources taken while it runs.
        earliest_min: it starts no sooner.
        latest_start_min: it starts no later; with ``earliest_min`` the same, it is pinned there.
        fixed_start_min: it started then; nothing moves it.
        fixed_end_min: it ended then; with ``fixed_start_min``, for what is done or under way.
        fixed_who: who did it or does it; for what is fixed, where that is known.
        fixed_mode: the name of the mode it was done in, likewise.
        priority: a smaller number is placed first where the lags leave a choice.
        title: what sentences call it; its id where there is none.
        ends_outside: it ends within none of these, ascending and apart; for what has no table.
        modes: the ways to do it, where people or tools differ in more than the name; instead of
            ``people`` and ``minutes``. Never with a table.
        also: people who have to be there as well whichever way it is done, all of them, from
            start to end: the wearer at a fit. They only come for it; see ``Mode.also``.
        sitting_min: 0 where it is done in one go. Else it may stop where its person's hours end
            and goes on as they begin again, each stretch at least this long. Never with a table,
            a dip or ``also``.
        dip: for what goes into a bath. Its modes then name baths.
        taught: ways with somebody beside that are no quicker than that one alone. No search takes
            them; a plan found without them may (``teaching``), and the checker knows them. Never
            for what is fixed, of a table or a dip.
        soon: the sooner the better, once all else is equal: a dry-fit.
        spread: standard deviation of the natural logarithm of its duration; 0 where it is sure.
        cause: what its spread is shared with: all of a cause run late together.
    """

    id: str
    minutes: int
    people: tuple[str, ...] = ()
    demands: tuple[Demand, ...] = ()
    table: Table | None = None
    earliest_min: int = 0
    latest_start_min: int | None = None
    fixed_start_min: int | None = None
    fixed_end_min: int | None = None
    fixed_who: str | None = None
    fixed_mode: str = ""
    priority: int = 0
    title: str = ""
    ends_outside: tuple[Window, ...] = ()
    modes: tuple[Mode, ...] = ()
    also: tuple[str, ...] = ()
    sitting_min: int = 0
    dip: Dip | None = None
    soon: bool = False
    spread: float = 0.0
    cause: str = ""
    taught: tuple[Mode, ...] = ()
    ways: tuple[Mode, ...] = field(init=False, repr=False, compare=False)
    in_pairs: bool = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Spell out its ways once, and if any has somebody beside: a plan asks again and again."""
        ways = self.modes
        if ways:
            object.__setattr__(self, "minutes", min(way.minutes for way in ways))
            people = dict.fromkeys(way.who for way in ways if way.who is not None)
            object.__setattr__(self, "people", tuple(people))
        else:
            ways = tuple(Mode(who=who, minutes=self.minutes) for who in self.people or (None,))
        object.__setattr__(self, "ways", ways)
        object.__setattr__(self, "in_pairs", any(way.also for way in ways))

    @property
    def alone(self) -> tuple[str, ...]:
        """Who may do it with nobody at work beside them, each once."""
        if not self.in_pairs:
            return self.people
        return tuple(dict.fromkeys(w.who for w in self.ways if w.who is not None and not w.also))

    @property
    def always_also(self) -> tuple[str, ...]:
        """Who has to be there beside whoever does it, in every one of its ways."""
        first, *others = (way.also for way in self.ways)
        beside = (who for who in first if all(who in also for also in others))
        return tuple(dict.fromkeys((*self.also, *beside)))

    def there(self, way: Mode) -> tuple[str, ...]:
        """Return everybody who is busy with it when it is done this way, who does it first."""
        if way.who is None:
            return ()
        if not (way.also or self.also):
            return (way.who,)
        return tuple(dict.fromkeys((way.who, *way.also, *self.also)))

    def sitting(self, way: Mode) -> int:
        """Return how short a sitting may be when it is done this way; 0: it is done in one go."""
        return 0 if way.also or way.who is None else self.sitting_min

    def way(self, who: str | None, name: str = "") -> Mode | None:
        """Return the mode told by who and name, or ``None`` where there is none."""
        found = next((w for w in self.ways if w.who == who and w.name == name), None)
        return self.lesson(who, name) if found is None and self.taught else found

    def lesson(self, who: str | None, name: str) -> Mode | None:
        """Return the way told by who and name that no search takes, or ``None``; see ``taught``."""
        return next((w for w in self.taught if w.who == who and w.name == name), None)
