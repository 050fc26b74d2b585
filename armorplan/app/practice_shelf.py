"""Where results of practice and signed-off skills are kept; ``store`` fulfils it."""

from typing import Protocol

from armorplan.practice.results import Result
from armorplan.workshop.skills import SignedOff


class DrillShelf(Protocol):
    """Where results of practice are kept; ``store.drill_file`` fulfils it."""

    def keep(self, result: Result) -> int:
        """Keep a result with the reasons it met; return its number."""
        ...

    def since(self, person: str, seq: int) -> tuple[Result, ...]:
        """Return a person's results numbered above ``seq``, in order."""
        ...

    def people(self) -> tuple[str, ...]:
        """Return who has results, by id."""
        ...

    def number(self) -> int:
        """Return the number of the result kept last; 0 where there is none."""
        ...


class SkillShelf(Protocol):
    """Where it is kept what was signed off; ``store.skill_file`` fulfils it."""

    def keep(self, *words: SignedOff) -> None:
        """Keep words on skills, all or none."""
        ...

    def all(self) -> tuple[SignedOff, ...]:
        """Return every word in the order in which they were said."""
        ...

    def number(self) -> int:
        """Return the number of the word kept last; 0 where there is none."""
        ...


class PracticeShelves(Protocol):
    """Where both are kept: a workshop file, or what stands for one."""

    @property
    def drills(self) -> DrillShelf | None:
        """Where results are kept; ``None``: nowhere."""
        ...

    @property
    def skills(self) -> SkillShelf:
        """Where it is kept what was signed off."""
        ...
