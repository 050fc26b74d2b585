"""What was signed off: who does which kind of step, and how; rows are only added."""

from datetime import datetime

from armorplan.store.columns import Row, instant_text
from armorplan.store.tables import Tables
from armorplan.workshop.skill_how import SkillHow
from armorplan.workshop.skills import SignedOff

_ADD = """
    INSERT INTO skills (at, person, kind, how, by, note)
    VALUES (:at, :person, :kind, :how, :by, :note)
"""
_ALL = "SELECT * FROM skills ORDER BY seq"
_NUMBER = "SELECT coalesce(max(seq), 0) AS seq FROM skills"


class SkillFile:
    """Keeps what was signed off; WorkshopError where the file cannot be read or written."""

    def __init__(self, tables: Tables) -> None:
        self._tables = tables

    def keep(self, *words: SignedOff) -> None:
        """Keep words on skills, all or none; of a person and a kind the last one counts."""
        self._tables.write(*((_ADD, _row(word)) for word in words))

    def all(self) -> tuple[SignedOff, ...]:
        """Return every word in the order in which they were said, whatever the clock said."""
        return self._tables.read(_word, _ALL, {})

    def number(self) -> int:
        """Return the number of the word kept last; 0 where there is none."""
        return self._tables.read(lambda row: int(row["seq"]), _NUMBER, {})[0]


def _row(word: SignedOff) -> Row:
    return {
        "at": instant_text(word.at),
        "person": word.person,
        "kind": word.kind,
        "how": word.how.value,
        "by": word.by,
        "note": word.note,
    }


def _word(row: Row) -> SignedOff:
    return SignedOff(
        person=row["person"],
        kind=row["kind"],
        how=SkillHow(row["how"]),
        by=row["by"],
        at=datetime.fromisoformat(row["at"]),
        note=row["note"],
    )
