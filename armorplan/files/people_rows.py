"""The people of a shop file: hours, skills, pace, absences; and the wearers with their dates."""

from collections.abc import Sequence
from datetime import time

from armorplan.files.clock_times import clock
from armorplan.files.limits import TIMES
from armorplan.files.local_times import LocalTimes
from armorplan.files.references import Names, check_ref, refs
from armorplan.files.tables import Table
from armorplan.files.values import maybe_number, text
from armorplan.steps.model import StepKind
from armorplan.workshop.hours import Opening
from armorplan.workshop.shop import COMES_FOR, Person, Wearer

_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
KINDS = Names(what="kind of step", ids=[kind.value for kind in StepKind])


def read_people(top: Table, times: LocalTimes) -> tuple[Person, ...]:
    """Return who works in the shop; at least one has to have hours.

    Hours that are missing or wrong are told where they are; nobody's hours, once for all.
    """
    people: list[Person] = []
    is_said = True
    for key, row in top.table("people").rows():
        people.append(_person(key, row, times))
        is_said &= row.has("hours") and not row.raw("hours")
        row.finish()
    if not people:
        top.missing("people", wanted="a table [people.ID] for each person")
    elif is_said and not any(person.hours or person.extra for person in people):
        top.fault(
            "people",
            "no-hours",
            "Nobody in this shop has any hours, so nothing can be planned.",
            mend='Give somebody hours: [{day = "mon", from = "09:00", to = "12:30"}].',
        )
    return tuple(people)


def _person(key: str, row: Table, times: LocalTimes) -> Person:
    can, cannot = refs(row, "can", KINDS), refs(row, "cannot", KINDS)
    if can and cannot:
        row.idle("cannot", because='"can" names all they do')
        cannot = ()
    beside = refs(row, "beside", KINDS)
    _check_once_told(row, "can", can, beside)
    _check_once_told(row, "cannot", cannot, beside)
    return Person(
        id=key,
        name=text(row, "name"),
        hours=read_hours(row),
        can=can,
        cannot=cannot,
        beside=beside,
        pace=maybe_number(row, "pace", TIMES) or 1.0,
        paces=_paces(row.table("paces")),
        away=times.stretches(row, "away", whole_days=True),
        extra=times.stretches(row, "extra", whole_days=False),
    )


def _check_once_told(row: Table, key: str, told: Sequence[str], beside: Sequence[str]) -> None:
    """Tell a kind that is done with somebody beside, and by another key alone or not at all."""
    for kind in (kind for kind in beside if kind in told):
        how = "do it alone" if key == "can" else "do not do it"
        row.fault(
            "beside",
            "told-two-ways",
            f'{row.name_of("beside")} names "{kind}", which "{key}" names as well: they '
            f"{how}, or only with somebody beside.",
            mend=f'Take "{kind}" out of one of the two.',
        )


def _paces(table: Table) -> tuple[tuple[str, float], ...]:
    found: list[tuple[str, float]] = []
    for kind in table.written():
        factor = maybe_number(table, kind, TIMES)
        check_ref(table, kind, value=kind, names=KINDS)
        found.append((kind, factor or 1.0))
    return tuple(found)


def read_wearers(top: Table, times: LocalTimes, people: Sequence[Person]) -> tuple[Wearer, ...]:
    """Return who builds are fitted on, with their appointments."""
    wearers: list[Wearer] = []
    for key, row in top.table("wearers").rows():
        if key in {person.id for person in people}:
            row.fault(
                None,
                "named-twice",
                f'"{key}" is a person and a wearer.',
                mend="Give the wearer an id of their own.",
            )
        if not row.has("appointments") and not row.has("hours"):
            row.missing(
                "appointments", wanted='[{day = 2026-12-05, from = "17:00", to = "18:00"}]'
            )
        wearers.append(
            Wearer(
                id=key,
                name=text(row, "name"),
                appointments=times.stretches(row, "appointments", whole_days=False),
                hours=read_hours(row) if row.has("hours") else (),
                comes_for=refs(row, "comes_for", KINDS) or COMES_FOR,
            )
        )
        row.finish()
    return tuple(wearers)


def read_hours(row: Table) -> tuple[Opening, ...]:
    """Return weekly hours, required; those that run into each other are told."""
    entries = row.list_rows("hours")
    if not row.has("hours"):
        row.missing("hours", wanted='[{day = "mon", from = "09:00", to = "12:30"}]')
    hours = [(opening, entry) for entry in entries if (opening := _opening(entry))]
    _check_overlaps(hours)
    return tuple(sorted((opening for opening, _ in hours), key=_when))


def _opening(entry: Table) -> Opening | None:
    day = text(entry, "day").lower()
    start, end = clock(entry, "from"), clock(entry, "to")
    entry.finish()
    if day and day not in _DAYS:
        entry.wrong("day", day, wanted=f"one of {', '.join(_DAYS)}")
    if start and end and start >= end:
        entry.fault(
            "to",
            "ends-before-start",
            f"The hours run from {start:%H:%M} to {end:%H:%M}.",
            mend="Let them end after they start; divide hours over midnight into two days.",
        )
        return None
    if day in _DAYS and start and end:
        return Opening(weekday=_DAYS.index(day), start=start, end=end)
    return None


def _when(opening: Opening) -> tuple[int, time, time]:
    return opening.weekday, opening.start, opening.end


def _check_overlaps(hours: Sequence[tuple[Opening, Table]]) -> None:
    """Tell hours of one person that run into each other."""
    latest: Opening | None = None
    for opening, entry in sorted(hours, key=lambda pair: _when(pair[0])):
        if latest and latest.weekday == opening.weekday and opening.start < latest.end:
            entry.fault(
                None,
                "hours-overlap",
                f"On {_DAYS[opening.weekday]} the hours from {opening.start:%H:%M} begin before "
                f"those until {latest.end:%H:%M} end.",
                mend="Join the two into one.",
            )
        if latest is None or _when(opening)[0] > latest.weekday or opening.end > latest.end:
            latest = opening
