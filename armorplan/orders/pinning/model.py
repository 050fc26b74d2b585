"""The neutral problem of a dry fit on pins: which seams are on together, with the pins there are.

A round is one putting together of the piece: some of its seams on pins, looked at, and taken apart
again. Every seam has to be in some round. What belongs together has to be in one round: two
neighbouring seams, or all that makes the piece whole enough to be worn.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True)
class PinSpot:
    """A joint that takes a pin, and the kinds of pin that enter it, the snuggest first."""

    joint: str
    kinds: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamNeed:
    """A seam and the joints of it that have to be on pins whenever it is on.

    Attributes:
        spots: two of what stays fixed, each of what turns; never empty.
        more: its other joints, in the order in which a pin to spare helps most.
    """

    id: str
    spots: tuple[PinSpot, ...]
    more: tuple[PinSpot, ...] = ()


Group = tuple[str, ...]
"""Seams that are seen in one round together: two neighbours, or all that is worn at once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PinStock:
    """The pins there are.

    Attributes:
        counts: how many there are of each kind; ``None``: as many as wanted.
        most: how many there are in all, of whatever kind; ``None``: as many as wanted.
    """

    counts: Mapping[str, int | None]
    most: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PinProblem:
    """Seams, which of them are seen together, and the pins there are. Ids are unique."""

    seams: tuple[SeamNeed, ...]
    together: tuple[Group, ...]
    stock: PinStock
    _by_id: dict[str, SeamNeed] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Index the seams once."""
        object.__setattr__(self, "_by_id", {seam.id: seam for seam in self.seams})

    def seam(self, seam_id: str) -> SeamNeed:
        """Return a seam by id; KeyError where there is none."""
        return self._by_id[seam_id]

    def spots(self, seams: Iterable[str]) -> tuple[PinSpot, ...]:
        """Return the joints that are on pins where these seams are on."""
        return tuple(spot for seam in seams for spot in self._by_id[seam].spots)

    def need(self, seam_id: str) -> int:
        """Return how many pins a seam needs."""
        return len(self._by_id[seam_id].spots)

    def groups_in(self, seams: Iterable[str]) -> frozenset[Group]:
        """Return what is seen together where these seams are on."""
        on = set(seams)
        return frozenset(group for group in self.together if on.issuperset(group))


@dataclass(frozen=True, slots=True, kw_only=True)
class Rounds:
    """The rounds of a dry fit.

    Attributes:
        rounds: ids of the seams that are on, in the order of the problem.
        bound: no fewer rounds will do.
        unpinned: seams for which there are not enough pins, even alone; they are in no round.
        apart: groups for which there are not enough pins at once; no round has to show them.
    """

    rounds: tuple[tuple[str, ...], ...]
    bound: int
    unpinned: tuple[str, ...] = ()
    apart: tuple[Group, ...] = ()

    @property
    def proved(self) -> bool:
        """Fewer rounds will not do."""
        return len(self.rounds) <= self.bound
