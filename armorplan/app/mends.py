"""What would free a plan, in words with its price."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from math import ceil

from armorplan.app.mend_places import where_words
from armorplan.kernel.units import HOUR_MIN, span_words
from armorplan.schedule.claims import Kind
from armorplan.schedule.mending import Freed
from armorplan.schedule.mends import Mend, alike_in_hands
from armorplan.schedule.naming import Naming, called
from armorplan.schedule.problem import Problem

_MOST_TOLD = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class MendRow:
    """One way out: what to do, which kind of deed it is, and what plan there is then.

    ``finish_at`` is ``None`` where it does not help. ``late`` holds title and minutes of each
    build that would be late. ``where`` says where it is changed.
    """

    key: str
    deed: str
    title: str
    finish_at: datetime | None
    late: tuple[tuple[str, int], ...]
    price: str
    where: str = ""


def mend_row(problem: Problem, freed: Freed, naming: Naming) -> MendRow:
    """Return one way out in words; ``problem`` is the one without a plan."""
    title = "; and ".join(mend_words(problem, mend, naming) for mend in freed.mends)
    late = tuple((naming.build(job), minutes) for job, minutes in freed.late if minutes)
    finish_at = None
    if freed.is_freed:
        finish_at = problem.origin_at + timedelta(minutes=freed.plan.finish_min)
    return MendRow(
        key=" ".join(f"{m.claim.kind.name.lower()}:{m.claim.of}:{m.who}" for m in freed.mends),
        deed=", ".join(dict.fromkeys(m.deed.value for m in freed.mends)),
        title=f"{title[0].upper()}{title[1:]}",
        finish_at=finish_at,
        late=late,
        price=_price(problem, freed, late, naming),
        where=where_words(problem, freed.mends, naming),
    )


def _price(
    problem: Problem, freed: Freed, late: tuple[tuple[str, int], ...], naming: Naming
) -> str:
    if not freed.is_freed:
        return "That alone gives no plan."
    ends = f"All is finished {naming.moment(problem, freed.plan.finish_min)}"
    if late:
        said = ", ".join(f"{title} {span_words(minutes)} late" for title, minutes in late)
        return f"{ends}; {said}."
    return f"{ends}; nothing is late." if freed.late else f"{ends}."


def mend_words(problem: Problem, mend: Mend, naming: Naming) -> str:
    """Return what to do, without a full stop."""
    if mend.claim.kind in (Kind.LATEST, Kind.EARLIEST, Kind.WINDOW):
        return _time_words(problem, mend, naming)
    if mend.claim.kind in (Kind.HOURS, Kind.ABSENCE, Kind.HANDS):
        return _hand_words(problem, mend, naming)
    return _other_words(problem, mend, naming)


def _time_words(problem: Problem, mend: Mend, naming: Naming) -> str:
    claim = mend.claim
    if claim.kind is Kind.WINDOW:
        return _window_words(problem, mend)
    if claim.kind is Kind.LATEST:
        when = naming.moment(problem, mend.amount)
        return f"{called(problem, claim.of)} is moved to {when} at the soonest"
    when = naming.moment(problem, _earliest(problem, claim.of))
    return f"{called(problem, claim.of)} may begin before {when}"


def _hand_words(problem: Problem, mend: Mend, naming: Naming) -> str:
    if mend.who:
        also = len(alike_in_hands(problem, mend.claim.of)) - 1 if mend.wide else 0
        others = f" and {also} other{'s' if also > 1 else ''} like it" if also else ""
        return f"{naming.of(mend.who)} may do {called(problem, mend.claim.of)}{others} as well"
    hours = " and ".join(naming.span(problem, window) for window in mend.hours[:_MOST_TOLD])
    more = len(mend.hours) - _MOST_TOLD
    if more > 0:
        whole_h = ceil(sum(end - start for start, end in mend.hours) / HOUR_MIN)
        hours += f" and {more} times more, {whole_h} h in all"
    return f"{naming.of(mend.claim.of)} is at the bench {hours or 'at other hours too'}"


def _window_words(problem: Problem, mend: Mend) -> str:
    lag = problem.lags[mend.claim.at]
    then, first = called(problem, lag.then), called(problem, lag.first)
    usual = f", not {span_words(lag.max_lag)}" if lag.max_lag is not None else ""
    return f"{then} may start up to {span_words(mend.amount)} after {first}{usual}"


def _other_words(problem: Problem, mend: Mend, naming: Naming) -> str:
    claim = mend.claim
    match claim.kind:
        case Kind.PLACES | Kind.BATH:
            return f"{naming.of(claim.of)} holds {mend.amount}, not {_held(problem, claim.of)}"
        case Kind.OPEN:
            return f"{naming.of(claim.of)} is open at all hours"
        case Kind.CHANGE:
            return f"{naming.of(claim.of)} is changed in no time, as a second bath would be"
        case Kind.HANGS:
            hold = problem.holds[claim.at]
            return f"what comes from {called(problem, claim.of)} leaves {naming.of(hold.resource)}"
        case Kind.SHUT:
            return f"{called(problem, claim.of)} may end where its drying suffers"
        case _:
            rule = problem.before_last[claim.at]
            return f"{called(problem, rule.first)} may come after the last of the others"


def _earliest(problem: Problem, activity: str) -> int:
    return next(a.earliest_min for a in problem.activities if a.id == activity)


def _held(problem: Problem, place: str) -> int:
    held = {r.id: r.capacity for r in problem.resources}
    held |= {b.id: b.capacity for b in problem.baths}
    return held[place]
