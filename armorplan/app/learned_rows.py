"""What was learned, before and after, as rows and in words."""

from dataclasses import dataclass, replace
from datetime import datetime
from zoneinfo import ZoneInfo

from armorplan.app.learned_shop import HandEstimate, LearnedShop
from armorplan.drying.body import USUAL_BODY
from armorplan.drying.learned import Estimate
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.kernel.learning import Damped
from armorplan.kernel.units import span_words
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Duration, Shelf

_PER = (
    ("hole", "per_hole_min"),
    ("piece", "per_part_min"),
    ("cm of edge", "per_cm_min"),
    ("step", "fixed_min"),
)
"""What the minutes of a kind are told for: the first of these that its durations know."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DampedRow:
    """What counts for little, since it is far off the others: a step, and when it was begun.

    Attributes:
        alone: there are no others; it is far off the catalogue.
        title: of the step, with its build's name; empty where neither can be told any more.
        looked_for: what a drying was looked at for, ``dry to the touch``; empty for hands.
    """

    step: str
    begun_at: datetime
    share: float
    alone: bool = False
    title: str = ""
    looked_for: str = ""

    @property
    def words(self) -> str:
        """Which step it was, and what it was looked at for."""
        looked = f", looked at for {self.looked_for}" if self.looked_for else ""
        return f"{self.title or self.step}{looked}"

    @property
    def off_words(self) -> str:
        """What it is far off."""
        return "the catalogue" if self.alone else "the others"


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingRow:
    """What was learned of a treatment's drying.

    Attributes:
        before_min, after_min: likely minutes to handle on a usual day in this room, as the catalogue
            has it and as learned; ``None`` where it never gets dry.
        factor: the second by the first; of eight in ten shops like this between both of ``between``.
        spread_pct: by how much one drying may be off, one in three is by more.
        observations: dryings that were looked at or weighed.
        words: all of it in sentences.
    """

    treatment: str
    name: str
    before_min: int | None
    after_min: int | None
    factor: float
    between: tuple[float, float]
    spread_pct: float
    observations: int
    damped: tuple[DampedRow, ...]
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HandRow:
    """What was learned of a kind of step, of all hands or of one person's.

    Attributes:
        per: what the minutes are told for: ``hole``, ``piece``; empty where the catalogue tells them
            with each treatment.
        before_min, after_min: minutes for each, as the catalogue has it and as learned.
    """

    kind: str
    who: str
    per: str
    before_min: float | None
    after_min: float | None
    factor: float
    between: tuple[float, float]
    spread_pct: float
    observations: int
    damped: tuple[DampedRow, ...]
    words: str


def drying_row(estimate: Estimate, shelf: Shelf, room: Room) -> DryingRow:
    """Return what was learned of a treatment, in a room whatever was learned of that."""
    entry = shelf.treatment(estimate.treatment)
    before = after = None
    if entry is not None:
        plain, here = (replace(room, paces=paces) for paces in ((), (estimate.pace,)))
        before, after = (
            drying_room(each).usual(entry, USUAL_BODY).likely_min(Stage.HANDLE)
            for each in (plain, here)
        )
    damped = _damped(estimate.damped)
    name = entry.name if entry else estimate.treatment
    return DryingRow(
        treatment=estimate.treatment,
        name=name,
        before_min=before,
        after_min=after,
        factor=estimate.factor,
        between=estimate.interval,
        spread_pct=100 * estimate.spread,
        observations=estimate.observations,
        damped=damped,
        words=_drying_words(name, estimate, (before, after), damped, room.zone),
    )


def _damped(damped: tuple[Damped, ...]) -> tuple[DampedRow, ...]:
    return tuple(_damped_row(each) for each in damped)


def _damped_row(damped: Damped) -> DampedRow:
    run, _, begun = damped.id.rpartition("@")
    step = run.partition("|")[0]
    begun_at = datetime.fromisoformat(begun)
    return DampedRow(step=step, begun_at=begun_at, share=damped.share, alone=damped.alone)


def _drying_words(
    name: str,
    estimate: Estimate,
    minutes: tuple[int | None, int | None],
    damped: tuple[DampedRow, ...],
    zone: str,
) -> str:
    if not estimate.observations:
        return f"Nothing was learned of {name} yet: it dries as the catalogue says."
    before, after = (span_words(each) if each is not None else "never" for each in minutes)
    low, high = estimate.interval
    told = (
        f"{name}: about {after} to handle on a usual day here, by the catalogue {before} "
        f"(factor {estimate.factor:.2f}, likely {low:.2f} to {high:.2f})."
    )
    seen = f"Learned from {_counted(estimate.observations, 'drying', 'dryings')}."
    return f"{told} {seen} {_damped_words(damped, zone)}".rstrip()


def _counted(count: int, one: str, many: str) -> str:
    return f"{count} {one if count == 1 else many}"


def _damped_words(damped: tuple[DampedRow, ...], zone: str) -> str:
    if not damped:
        return ""
    local = ZoneInfo(zone)
    instants = sorted({each.begun_at.astimezone(local) for each in damped})
    begun = list(dict.fromkeys(f"{at.day} {at:%b %H:%M}" for at in instants))
    one = len(damped) == 1
    return (
        f"The {'one' if one else 'ones'} begun on {' and '.join(begun)} "
        f"{'is' if one else 'are'} far off {damped[0].off_words} "
        f"and {'counts' if one else 'count'} for little."
    )


def hand_row(estimate: HandEstimate, shelf: Shelf, zone: str) -> HandRow:
    """Return what was learned of a kind of step.

    Args:
        estimate: what was learned.
        shelf: the catalogues as they are, without what was learned.
        zone: IANA time zone that instants are told in.
    """
    entry = next((each for each in shelf.durations if each.kind == estimate.kind), None)
    per, before = _per(entry) if entry else ("", None)
    after = None if before is None else before * estimate.factor
    damped = _damped(estimate.damped)
    return HandRow(
        kind=estimate.kind,
        who=estimate.who,
        per=per,
        before_min=before,
        after_min=after,
        factor=estimate.factor,
        between=estimate.interval,
        spread_pct=100 * estimate.spread,
        observations=estimate.observations,
        damped=damped,
        words=_hand_words(estimate, per, (before, after), damped, zone),
    )


def _per(entry: Duration) -> tuple[str, float | None]:
    for per, field in _PER:
        minutes = float(getattr(entry, field))
        if minutes:
            return per, minutes
    return "", None


def _hand_words(
    estimate: HandEstimate,
    per: str,
    minutes: tuple[float | None, float | None],
    damped: tuple[DampedRow, ...],
    zone: str,
) -> str:
    who = f", {estimate.who}" if estimate.who else ""
    before, after = minutes
    told = f"{estimate.factor:.2f} times the catalogue's minutes"
    if before is not None and after is not None:
        told = f"{after:.2f} min for each {per}, by the catalogue {before:.2f} min"
    pieces = _counted(estimate.observations, "piece of work", "pieces of work")
    kind = f"{estimate.kind[0].upper()}{estimate.kind[1:]}"
    learned = f"{kind}{who}: {told}. Learned from {pieces}."
    return f"{learned} {_damped_words(damped, zone)}".rstrip()


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedRows:
    """All that was learned, as rows."""

    dryings: tuple[DryingRow, ...]
    hands: tuple[HandRow, ...]


def learned_rows(learned: LearnedShop, shelf: Shelf, room: Room) -> LearnedRows:
    """Return all that was learned, as rows by treatment and by kind."""
    return LearnedRows(
        dryings=tuple(drying_row(each, shelf, room) for each in learned.dryings),
        hands=tuple(hand_row(each, shelf, room.zone) for each in learned.hands),
    )
