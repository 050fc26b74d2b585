"""What people answered as this window knows it, and how each reason sits with them."""

from collections.abc import Iterable, Mapping
from contextlib import suppress
from datetime import datetime
from threading import RLock

from armorplan.app.practice_shelf import DrillShelf
from armorplan.app.read_along import ReadAlong
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.practice.grades import Review
from armorplan.practice.memory import Memory, met
from armorplan.practice.results import Result, reviews

NO_FILE = "There is no workshop file here, so results are not kept."


class PersonRecord(ReadAlong[Result]):
    """The results of one person in the file's order, whichever window kept them.

    How reasons sit is reckoned from all of them; what was reckoned before is gone on from.
    """

    def __init__(self, person: str, shelf: DrillShelf, clock: Clock) -> None:
        super().__init__(())
        self._person, self._shelf, self._clock = person, shelf, clock
        self._counted = 0
        self._memories: dict[str, Memory] = {}

    def _since(self, seq: int) -> tuple[Result, ...]:
        return self._shelf.since(self._person, seq)

    def memories(self) -> Mapping[str, Memory]:
        """Return how each reason sits by its key, of what was read."""
        now_at = self._clock.now()
        fresh = self.all[self._counted :]
        is_ahead = (at for at, result in enumerate(fresh) if result.at > now_at)
        settled = next(is_ahead, len(fresh))
        self._memories = _gone_on(self._memories, fresh[:settled], now_at)
        self._counted += settled
        # What a clock that ran ahead has kept counts as of now, whenever that is.
        return _gone_on(self._memories, fresh[settled:], now_at)


def _gone_on(
    memories: Mapping[str, Memory], results: Iterable[Result], now_at: datetime
) -> dict[str, Memory]:
    """Return how reasons sit after more results; what says it is later than now counts as now."""
    found = dict(memories)
    for key, review in reviews(results):
        at = min(review.at, now_at)
        found[key] = met(found.get(key), Review(at=at, grade=review.grade))
    return found


class Records:
    """The results of everybody; where nothing keeps them, nobody has any.

    What cannot be read now is read with the next look. ``of`` may be asked in any thread: thousands
    of results take a quarter of a second to read and go through.
    """

    def __init__(self, shelf: DrillShelf | None, clock: Clock) -> None:
        self._shelf, self._clock = shelf, clock
        self._known: dict[str, PersonRecord] = {}
        self._number = 0
        self._busy = RLock()

    @property
    def why_not_kept(self) -> str:
        """Return why results cannot be kept here; empty where they are."""
        return "" if self._shelf else NO_FILE

    def people(self) -> tuple[str, ...]:
        """Return who has results, by id."""
        with suppress(WorkshopError):
            return self._shelf.people() if self._shelf else ()
        return tuple(self._known)

    def of(self, person: str) -> tuple[tuple[Result, ...], Mapping[str, Memory]]:
        """Return somebody's results in the order they were kept, and how each reason sits."""
        if self._shelf is None or not person:
            return (), {}
        with self._busy:
            record = self._known.get(person)
            if record is None:
                record = self._known[person] = PersonRecord(person, self._shelf, self._clock)
            with suppress(WorkshopError):
                record.read_new()
            return record.all, record.memories()

    def keep(self, result: Result) -> None:
        """Keep a result.

        Raises:
            WorkshopError: nothing was kept.
        """
        if self._shelf is None:
            raise WorkshopError(NO_FILE)
        self._number = self._shelf.keep(result)

    def read_new(self) -> bool:
        """Tell whether another window kept a result since this was asked last.

        Raises:
            WorkshopError: the workshop file cannot be read.
        """
        before = self._number
        self._number = self._shelf.number() if self._shelf else 0
        return before != self._number
