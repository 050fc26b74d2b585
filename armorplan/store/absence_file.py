"""Who is away, as it was said at the bench: the last word about each person counts."""

from datetime import datetime

from armorplan.kernel.clock import Clock
from armorplan.store.columns import Row, instant_text
from armorplan.store.tables import Tables
from armorplan.workshop.absences import Absence

_ADD = """
    INSERT INTO absences (at, person, from_at, until_at)
    VALUES (:at, :person, :from_at, :until_at)
"""
_LATEST = """
    SELECT person, from_at, until_at FROM absences
    WHERE seq IN (SELECT max(seq) FROM absences GROUP BY person) ORDER BY person
"""
_NUMBER = "SELECT coalesce(max(seq), 0) AS seq FROM absences"


class AbsenceFile:
    """Keeps absences; WorkshopError where the file cannot be read or written."""

    def __init__(self, tables: Tables, clock: Clock) -> None:
        self._tables = tables
        self._clock = clock

    def keep(self, absence: Absence) -> None:
        """Keep when somebody is away; what was said before of the same person counts no more."""
        row = {
            "at": instant_text(self._clock.now()),
            "person": absence.person,
            "from_at": instant_text(absence.from_at),
            "until_at": instant_text(absence.until_at),
        }
        self._tables.write((_ADD, row))

    def latest(self) -> tuple[Absence, ...]:
        """Return the last word about each person, also where it is long over."""
        return self._tables.read(_absence, _LATEST, {})

    def number(self) -> int:
        """Return the number of the word kept last; 0 where there is none."""
        return self._tables.read(lambda row: int(row["seq"]), _NUMBER, {})[0]


def _absence(row: Row) -> Absence:
    return Absence(
        person=str(row["person"]),
        from_at=datetime.fromisoformat(row["from_at"]),
        until_at=datetime.fromisoformat(row["until_at"]),
    )
