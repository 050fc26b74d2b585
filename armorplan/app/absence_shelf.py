"""Where it is kept who is away; ``store.absence_file`` fulfils it."""

from typing import Protocol

from armorplan.workshop.absences import Absence


class AbsenceShelf(Protocol):
    """Where it is kept who is away."""

    def keep(self, absence: Absence) -> None:
        """Keep when somebody is away; what was said before of the same person counts no more."""
        ...

    def latest(self) -> tuple[Absence, ...]:
        """Return the last word about each person."""
        ...

    def number(self) -> int:
        """Return the number of the word kept last."""
        ...
