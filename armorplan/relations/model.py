"""Relations between steps and the reasons they carry. Steps are named by their id only."""

from dataclasses import dataclass
from enum import StrEnum

OWN = "own:"
"""The rule of a reason of the maker's own is this and the id of the relation in the pattern."""


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
        price_min: of an 'easier' relation, the minutes that keeping it saves.
        overruled: the maker set the relation aside: it neither binds nor steers, and stays visible.
        note: why it was overruled, in the maker's words.
    """

    rule: str
    text: str
    force: Force
    source: str
    about: tuple[str, ...] = ()
    numbers: tuple[Quantity, ...] = ()
    price_min: float = 0.0
    overruled: bool = False
    note: str = ""

    @property
    def binds(self) -> bool:
        """Tell whether the relation must be kept: its force binds and nobody overruled it."""
        return self.force.binds and not self.overruled

    @property
    def own_id(self) -> str:
        """The id of the maker's own relation; empty where a rule of the trade made it."""
        return self.rule.removeprefix(OWN) if self.rule.startswith(OWN) else ""


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


@dataclass(frozen=True, slots=True, kw_only=True)
class AfterAny:
    """``then`` starts once at least one of ``of`` is done."""

    then: str
    of: frozenset[str]
    reason: Reason


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """The steps are done in one go, in any order among them: nothing else comes between."""

    of: frozenset[str]
    reason: Reason


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """No two of the steps go on at once, since each needs ``on``: one press, one mould.

    It says nothing about their order, so every order keeps it; the plan has to keep it.
    """

    of: frozenset[str]
    on: str
    reason: Reason


Relation = Before | BeforeAll | AfterAny | Together | Apart
