"""What a shop has learned of its dryings and its hands, and the shop that goes by it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Protocol

from armorplan.app.lessons import Lessons, WorkshopEvents, lessons_by_build
from armorplan.drying.learned import Estimate, estimate
from armorplan.kernel.learning import MOST_CASES, Case, Damped, Prior, learn
from armorplan.ledger.hands import Worked
from armorplan.workshop.learned_hands import HandPace
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop

HANDS = Prior(spread=0.35, runs=0.2)
"""Pieces of like work by one hand differ by some 20 %, hands by more (common practice, no source)."""
ALL = "all"
"""What is forgotten where all is."""
_MOST_LOOKS = 2 * MOST_CASES
"""The latest so many looks at a treatment count: a shop changes, and two a drying are usual."""
BACK = "back:"
"""Goes before what is no longer forgotten."""


class FreshStarts(Protocol):
    """From when on things are learned anew."""

    def add(self, what: str) -> datetime:
        """Keep that this is learned anew from now on."""
        ...

    def latest(self) -> dict[str, datetime]:
        """Return by what, the last such instant."""
        ...


class LearningWorkshop(WorkshopEvents, Protocol):
    """What a workshop file is to whoever learns from it."""

    @property
    def fresh_starts(self) -> FreshStarts:
        """From when on things are learned anew."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class HandEstimate:
    """What was learned of a kind of step: of all hands, or of one person's (``who``).

    Attributes:
        factor, spread: of the median, and of the logarithm of one piece of work; before, 1 and
            ``HANDS.spread``.
        interval: in eight of ten the median lies between these.
        observations: pieces of work it rests on.
    """

    kind: str
    who: str
    factor: float
    spread: float
    interval: tuple[float, float]
    observations: int
    damped: tuple[Damped, ...]

    @property
    def pace(self) -> HandPace:
        """The same as the shop keeps it."""
        return HandPace(
            kind=self.kind,
            factor=self.factor,
            spread=self.spread,
            observations=self.observations,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedShop:
    """All that was learned, by treatment and by kind of step; each with one observation at least."""

    dryings: tuple[Estimate, ...] = ()
    hands: tuple[HandEstimate, ...] = ()

    def drying(self, treatment: str) -> Estimate:
        """Return what was learned of a treatment, which may be nothing."""
        found = next((each for each in self.dryings if each.treatment == treatment), None)
        return found or estimate(treatment, (), 0.0)

    def applied_to(self, shop: Shop) -> Shop:
        """Return a shop that goes by it."""
        hands = tuple(each.pace for each in self.hands if not each.who)
        room = replace(shop.room, paces=tuple(each.pace for each in self.dryings))
        return replace(shop, room=room, hands=hands)


def fresh_since(latest: Mapping[str, datetime], what: str) -> datetime | None:
    """Return from when on something is learned anew; ``None`` where all that was seen counts."""
    stands = [
        at
        for name in (what, ALL)
        if (at := latest.get(name)) is not None and not _taken_back(latest, name, at)
    ]
    return max(stands, default=None)


def _taken_back(latest: Mapping[str, datetime], name: str, at: datetime) -> bool:
    back_at = latest.get(f"{BACK}{name}")
    return back_at is not None and back_at >= at


def learned_from(lessons: Lessons, latest: Mapping[str, datetime], dry_pct: float) -> LearnedShop:
    """Return what lessons teach.

    Args:
        lessons: of all builds.
        latest: fresh starts, as the workshop keeps them.
        dry_pct: back within so many per cent of its weight before the bath a piece is dry.
    """
    treatments = sorted({seen.look.treatment for seen in lessons.looks})
    dryings = (_drying(each, lessons, latest, dry_pct) for each in treatments)
    return LearnedShop(
        dryings=tuple(each for each in dryings if each.observations),
        hands=tuple(_hands(lessons.work, latest)),
    )


def _drying(
    treatment: str, lessons: Lessons, latest: Mapping[str, datetime], dry_pct: float
) -> Estimate:
    since = fresh_since(latest, treatment)
    mine = [
        seen
        for seen in lessons.looks
        if seen.look.treatment == treatment and (since is None or seen.at > since)
    ]
    latest_looks = sorted(mine, key=lambda seen: seen.at)[-_MOST_LOOKS:]
    return estimate(treatment, (seen.look for seen in latest_looks), dry_pct)


def _hands(work: Iterable[Worked], latest: Mapping[str, datetime]) -> Iterable[HandEstimate]:
    """Yield what was learned of each kind: of all hands, then of each person who is named."""
    by_hand: dict[tuple[str, str], list[Worked]] = {}
    for each in work:
        since = fresh_since(latest, each.kind)
        if since is None or each.done_at > since:
            for who in {"", each.who}:
                by_hand.setdefault((each.kind, who), []).append(each)
    for (kind, who), found in sorted(by_hand.items()):
        mine = sorted(found, key=lambda each: (each.done_at, each.id))[-MOST_CASES:]
        cases = (_case(each) for each in mine)
        learned = learn(HANDS, cases)
        yield HandEstimate(
            kind=kind,
            who=who,
            factor=learned.factor,
            spread=learned.spread,
            interval=learned.interval,
            observations=len(mine),
            damped=learned.damped,
        )


def _case(each: Worked) -> Case:
    return Case(id=each.id, about=each.factor, about_spread=0.0, weight=each.share)


def all_lessons(workshop: WorkshopEvents) -> Lessons:
    """Return what all builds of a workshop teach together."""
    return sum(lessons_by_build(workshop.all_events()).values(), Lessons())


def learned_shop(workshop: LearningWorkshop, shelf: Shelf) -> LearnedShop:
    """Return what a workshop has learned.

    Raises:
        WorkshopError: the workshop file cannot be read.
    """
    latest = workshop.fresh_starts.latest()
    return learned_from(all_lessons(workshop), latest, shelf.constants.dry_share.value)


def shop_today(shop: Shop, workshop: LearningWorkshop, shelf: Shelf) -> Shop:
    """Return a shop that goes by what its workshop has learned.

    Raises:
        WorkshopError: the workshop file cannot be read.
    """
    return learned_shop(workshop, shelf).applied_to(shop)


def forget(workshop: LearningWorkshop, what: str) -> datetime:
    """Learn a treatment, a kind of step or all anew from now on; nothing that was seen is lost."""
    return workshop.fresh_starts.add(what)


def remember(workshop: LearningWorkshop, what: str) -> datetime:
    """Take back that something is learned anew: all that was seen of it counts again."""
    return workshop.fresh_starts.add(f"{BACK}{what}")
