"""Counts what of a drawing is not read, so that nothing is dropped in silence."""

from collections import Counter

from armorplan.files.faults import Faults, brief
from armorplan.kernel.findings import Finding, Place

_SINGLY = 5


class LeftOut:
    """What is left out so far: told one by one while it is little, by number where it is much."""

    def __init__(self, name: str) -> None:
        self._name = name
        self._faults = Faults()
        self._counts: Counter[tuple[str, str, str]] = Counter()
        self._first: dict[tuple[str, str, str], Place] = {}
        self._flaws = 0
        self._told: set[tuple[str, str, Place]] = set()

    @property
    def name(self) -> str:
        """Name the file."""
        return self._name

    def no_length(self, place: Place) -> None:
        """Count one more that draws nothing."""
        self.count(
            "no-length",
            "Shapes without any length",
            "If a scale of 0 made them so, write the true scale.",
            place,
        )

    @property
    def faults(self) -> Faults:
        """Where what is odd about the whole is told."""
        return self._faults

    def count(self, code: str, what: str, mend: str, place: Place | None = None) -> None:
        """Count one more of a kind; ``what`` goes on after 'There are 3 '."""
        key = code, what, mend
        self._counts[key] += 1
        self._first.setdefault(key, place or Place(file=self._name))

    def flaw(self, code: str, text: str, mend: str, place: Place) -> None:
        """Tell a thing that cannot be read."""
        self._flaws += 1
        known = (code, text, place)
        if len(self._told) < _SINGLY and known not in self._told:
            self._told.add(known)
            name = f'"{brief(place.key)}": ' if place.key else ""
            self._faults.warning(code, f"{name}{text} It is left out.", mend=mend, place=place)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All that is told, the gravest first."""
        for (code, what, mend), count in sorted(self._counts.items()):
            place = self._first[(code, what, mend)]
            self._faults.note(code, f"{what}: {count}. Not read.", mend=mend, place=place)
        more = self._flaws - len(self._told)
        if more > 0:
            self._faults.warning(
                "more-flaws",
                f"{more} more things cannot be read and are left out.",
                mend="Mend those told first and read the drawing again.",
                place=Place(file=self._name),
            )
        return self._faults.findings
