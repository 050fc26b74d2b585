"""What a rule is: a code, why it holds, what it derives, and examples that are its tests."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from armorplan.pattern.pattern import Pattern
from armorplan.relations.model import (
    Before,
    BeforeAll,
    Force,
    Quantity,
    Reason,
    Relation,
    Together,
)
from armorplan.rules.facts import Facts

Derive = Callable[[Facts], Iterator[Relation]]
COMMON_PRACTICE = "common practice, no source"
SLOWER = 0.5
"""How much more of a step's minutes it takes the harder way (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Example:
    """A small pattern and exactly what the rule must find in it.

    ``expects`` holds pairs of step-id tails (``cut/plate``, ``bevel/plate``); the second of a
    'before all of' relation joins its members with `` | ``, and a 'together' has its members so
    joined as the first of a pair whose second is empty. Empty: the rule must stay silent.
    """

    title: str
    pattern: Pattern
    expects: frozenset[tuple[str, str]] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One rule of the trade.

    Attributes:
        code: a stable slug, never reused.
        name: a few words for lists.
        why: a paragraph for the help page, in a maker's words.
        mend: what to do where it was done the other way round.
        force: how strongly its relations hold.
        source: a publication, or 'common practice, no source'.
        derive: the relations it finds in the facts of one build.
        examples: at least one that fires and one that is silent.
    """

    code: str
    name: str
    why: str
    mend: str
    force: Force
    source: str
    derive: Derive
    examples: tuple[Example, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What all relations of one rule share; makes them with their reasons filled in."""

    code: str
    force: Force
    source: str = COMMON_PRACTICE

    def reason(
        self,
        text: str,
        about: tuple[str, ...] = (),
        numbers: tuple[Quantity, ...] = (),
        price_min: float = 0.0,
    ) -> Reason:
        """Return a reason of this rule; its text begins with a capital, whatever name it opens with."""
        return Reason(
            rule=self.code,
            text=text[:1].upper() + text[1:],
            force=self.force,
            source=self.source,
            about=about,
            numbers=numbers,
            price_min=price_min,
        )

    def before(  # noqa: PLR0913 - every value is a field of the relation it makes
        self,
        first: str,
        then: str,
        text: str,
        *,
        about: tuple[str, ...] = (),
        numbers: tuple[Quantity, ...] = (),
        lags: tuple[int, int | None] = (0, None),
        price_min: float = 0.0,
    ) -> Before:
        """Return ``first`` before ``then``; ``lags`` are the least and the most minutes between.

        ``price_min`` counts the minutes that keeping it saves, for what is only easier.
        """
        return Before(
            first=first,
            then=then,
            reason=self.reason(text, about, numbers, price_min),
            lag_min=lags[0],
            max_lag_min=lags[1],
        )

    def before_all(
        self,
        first: str,
        of: frozenset[str],
        text: str,
        *,
        about: tuple[str, ...] = (),
        numbers: tuple[Quantity, ...] = (),
        price_min: float = 0.0,
    ) -> BeforeAll:
        """Return ``first`` before the last of ``of``; ``price_min`` as in ``before``."""
        return BeforeAll(first=first, of=of, reason=self.reason(text, about, numbers, price_min))

    def together(self, of: frozenset[str], text: str, *, about: tuple[str, ...] = ()) -> Together:
        """Return these steps in one go."""
        return Together(of=of, reason=self.reason(text, about))
