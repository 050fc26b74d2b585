"""One drying as rows: its windows with their words, its curve and air, why, and the sources."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from armorplan.app.drying_choices import DryingChoice, WhatIf
from armorplan.app.drying_reach import reach_curve, reach_of
from armorplan.app.drying_why import verdict_words, why_words
from armorplan.app.rough_instants import rough_span
from armorplan.drying.curve import Curve
from armorplan.drying.instants import Instants
from armorplan.drying.room import drying_room
from armorplan.drying.spans import DryTimes, Stage, Verdict
from armorplan.kernel.units import both_words
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Carrier, TreatmentEntry, TreatmentKind

_AIR_SOURCE = (
    "Air: psychrometry of ASHRAE (psychrolib), Dalton's law for water, Antoine's equation for "
    "alcohol; moving air by Carrier (1918) and Penman (1948), which differ and give the band."
)
_NO_AIR_SOURCE = (
    "Air: not reckoned for oil and wax, which harden by no published law; the catalogue's time stands, "
    "and cold makes it slower (common practice, no source)."
)
_BODY_SOURCE = "Thickness: between linear and square (Crank, The Mathematics of Diffusion, 1975)."
_ROOM_ABOVE = 1.15
_LEAST_MIN = 60
_NEVER_MIN = 3 * 24 * 60
"""So much is shown of what never dries."""
_MOST_SHOWN_MIN = 28 * 24 * 60


@dataclass(frozen=True, slots=True, kw_only=True)
class DryBar:
    """A window from one instant to another, each as a range; ``None``: never, or without an end.

    Attributes:
        key: stable: ``touch``, ``recoat``, ``shape``, ``handle``, ``cure``.
        name: what it is called.
        meaning: what to do with it.
        missed: what to do where its end was missed; empty where it has none.
        opens: soonest, likely and latest instant from which on it holds.
        closes: the same for its end; ``None`` where it has none.
    """

    key: str
    name: str
    meaning: str
    opens: Instants
    closes: Instants | None = None
    missed: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingPage:
    """Everything that is shown of one drying.

    Attributes:
        choice: which one.
        until_at: where its picture ends.
        verdict: whether it dries.
        trouble, remedy: in words where it does not; else empty.
        why: why it takes so long; may be empty.
        handle_min: likely minutes to handle it; ``None``: never.
        bars: the windows; none where it would spoil.
    """

    choice: DryingChoice
    room: Room
    until_at: datetime
    verdict: Verdict
    trouble: str
    remedy: str
    why: str
    handle_min: int | None
    bars: tuple[DryBar, ...]
    curve: Curve
    sources: tuple[str, ...]


def drying_page(
    choice: DryingChoice, room: Room, *, until_at: datetime | None = None
) -> DryingPage:
    """Return the page of a drying in a room; a few milliseconds.

    Args:
        choice: what dries, since when.
        room: where; another than the shop's to ask what would be if.
        until_at: where the picture ends at least.
    """
    reckoned = drying_room(room)
    reach = reach_of(choice, reckoned)
    times = reach.times
    trouble, remedy = verdict_words(choice.entry, room, times)
    spoils = times.verdict is Verdict.WOULD_SPOIL
    ends_at = max(_until(choice, times), until_at or choice.start_at)
    return DryingPage(
        choice=choice,
        room=room,
        until_at=ends_at,
        verdict=times.verdict,
        trouble=trouble,
        remedy=remedy,
        why="" if spoils else _why(choice, room, times),
        handle_min=times.likely_min(Stage.HANDLE),
        bars=() if spoils else tuple(_bars(choice, reach.at)),
        curve=reach_curve(choice, reckoned, ends_at),
        sources=_sources(choice.entry),
    )


def page_if(page: DryingPage, asked: WhatIf, room: Room | None = None) -> DryingPage:
    """Return the same drying in the air, and of the leather, that is asked for.

    ``room`` is the one with that air; ``None``: the page's, with it at all times.
    """
    other = replace(page.choice, body=asked.body(page.choice.body))
    return drying_page(other, room or asked.room(page.room), until_at=page.until_at)


def change_words(page: DryingPage, other: DryingPage) -> str:
    """Return what another air would change, in a sentence."""
    before, after = _durations(page, other)
    if other.trouble:
        return f"It would not do: {other.trouble[0].lower()}{other.trouble[1:]}"
    if before == after:
        return f"It would change little: {after} to handle, as it is."
    return f"{after} to handle instead of {before}."


def _durations(page: DryingPage, other: DryingPage) -> tuple[str, str]:
    """Return how long both take, in one unit."""
    if page.verdict is Verdict.DRIES and page.handle_min and other.handle_min:
        return both_words(page.handle_min, other.handle_min)
    return _duration(page), _duration(other)


def _duration(page: DryingPage) -> str:
    if page.verdict is Verdict.WOULD_SPOIL:
        return "being spoilt"
    return "never" if page.handle_min is None else rough_span(page.handle_min)


def _until(choice: DryingChoice, times: DryTimes) -> datetime:
    """Return an end of the picture that shows the latest window, short of a long cure."""
    shown = (stage for stage in times.spans if stage is not Stage.CURE)
    latest = [times.spans[stage].latest_min or times.spans[stage].likely_min for stage in shown]
    known = [minutes for minutes in latest if minutes is not None]
    likely = times.likely_min(Stage.HANDLE)
    minutes = max(known, default=_NEVER_MIN) if likely is not None else _NEVER_MIN
    room_min = max(round(minutes * _ROOM_ABOVE), _LEAST_MIN)
    return choice.start_at + timedelta(minutes=min(room_min, _MOST_SHOWN_MIN))


def _why(choice: DryingChoice, room: Room, times: DryTimes) -> str:
    """Return why it takes so long, and since when that is told by a look."""
    why = why_words(choice.entry, choice.body, room, choice.start_at, times)
    if choice.damp is None:
        return why
    local = choice.damp.at.astimezone(ZoneInfo(room.zone))
    look = f"Found still damp {local:%a} {local.day} {local:%b %H:%M}: reckoned on from there."
    return f"{look} {why}".rstrip()


def _bars(choice: DryingChoice, at: Mapping[Stage, Instants]) -> Iterator[DryBar]:
    """Yield the windows still to come: what dries by a step was shaped, or is the last coat."""
    entry = choice.entry
    if choice.stage is None and Stage.OPENS in at and Stage.CLOSES in at:
        meaning = "damp enough to be shaped, no longer wet"
        opens, closes = at[Stage.OPENS], at[Stage.CLOSES]
        yield DryBar(
            key="shape",
            name="Shape it",
            meaning=meaning,
            opens=opens,
            closes=closes,
            missed=_missed(entry, "later it has to be cased again"),
        )
    touch = at[Stage.TOUCH]
    has_next = choice.stage in (None, Stage.TOUCH)
    meaning = _touch(entry, has_next=has_next)
    yield DryBar(key="touch", name="Dry to the touch", meaning=meaning, opens=touch)
    if has_next and Stage.RECOAT_BY in at:
        closes = at[Stage.RECOAT_BY]
        yield _recoat(entry, touch, closes)
    handle = at[Stage.HANDLE]
    meaning = "it can be handled, and what follows can begin"
    yield DryBar(key="handle", name="Dry to handle", meaning=meaning, opens=handle)
    if Stage.CURE in at:
        meaning = _cure(entry)
        yield DryBar(key="cure", name="Cured", meaning=meaning, opens=at[Stage.CURE])


def _recoat(entry: TreatmentEntry, opens: Instants, closes: Instants) -> DryBar:
    """Return the window in which the next coat goes on, or a glue is closed."""
    if entry.kind is TreatmentKind.GLUE:
        return DryBar(
            key="close",
            name="Close it",
            meaning="just tacky: both faces take hold of each other",
            opens=opens,
            closes=closes,
            missed=_missed(entry, "later both faces are coated again"),
        )
    return DryBar(
        key="recoat",
        name="Next coat",
        meaning="dry enough for the next coat",
        opens=opens,
        closes=closes,
        missed=_missed(entry, "later it needs a light scuff first"),
    )


def _missed(entry: TreatmentEntry, usual: str) -> str:
    if entry.missed_is_loss:
        return "later it is lost"
    return f"missed: {entry.missed_remedy}" if entry.missed_remedy else usual


def _touch(entry: TreatmentEntry, *, has_next: bool) -> str:
    if entry.kind is TreatmentKind.CASING:
        return "it holds the shape it was given"
    if entry.kind is TreatmentKind.GLUE:
        return "ready to close, or out of the clamps"
    return "ready for the next coat of the same" if has_next else "it no longer smears"


def _cure(entry: TreatmentEntry) -> str:
    waits = {"close": "closing the shape", "wear": "wearing it", "pack": "packing it"}
    named = [waits[what] for what in entry.cure_before if what in waits]
    return f"fully hard; {' and '.join(named)} waits for it" if named else "fully hard"


def _sources(entry: TreatmentEntry) -> tuple[str, ...]:
    air = _NO_AIR_SOURCE if entry.carrier is Carrier.OIL else _AIR_SOURCE
    found = [f"Times of {entry.name} at 23 °C and 50 %: {entry.source}.", air]
    if entry.reference_mm is not None:
        found.append(_BODY_SOURCE)
    return tuple(found)
