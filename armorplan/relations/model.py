"""Relations between steps and the reasons they carry. Steps are named by their id only."""

from dataclasses import dataclass
from enum import StrEnum


class Force(StrEnum):
    """How strongly a relation holds; the first two bind, the others steer the choice of order."""

    CANNOT = "cannot"
    SPOIL = "would spoil"
    EASIER = "easier"
    USUAL = "usual practice"

    @property
    def binds(self) -> bool:
        """Tell whether a relation of this force must be kept."""
        return self in (Force.CANNOT, Force.SPOIL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A number inside a reason, with its unit (mm, mm², minutes, °C)."""

    name: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why a relation holds.

    Attributes:
        rule: the slug of the rule that made it, such as ``strap-before-closing``.
        text: the sentence for the maker, part names and numbers filled in.
        about: ids of the parts and joints it speaks of.
        source: a publication, or 'common practice, no source'.
    """

    rule: str
    text: str
    force: Force
    source: str
    about: tuple[str, ...] = ()
    numbers: tuple[Quantity, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """``first`` ends before ``then`` starts.

    ``lag_min`` minutes at least, and ``max_lag_min`` at most, lie between the end of ``first``
    and the start of ``then``.
    """

    first: str
    then: str
    reason: Reason
    lag_min: int = 0
    max_lag_min: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BeforeAll:
    """``first`` is done before the last of ``of`` is done: not after all of them together.

    With one member this is ``first`` before that member. A plain graph cannot say it for two.
    """

    first: str
    of: frozenset[str]
    reason: Reason


Relation = Before | BeforeAll
