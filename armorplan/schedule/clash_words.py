"""A conflict in one sentence: what is asked, and what stands against it, with names and hours."""

from collections.abc import Iterator, Sequence

from armorplan.kernel.units import DAY_MIN, span_words
from armorplan.schedule.activity import Window
from armorplan.schedule.claims import Claim, Kind
from armorplan.schedule.hands import NOBODY
from armorplan.schedule.lag_spans import least_wait, most_wait
from armorplan.schedule.naming import Naming, called
from armorplan.schedule.problem import Lag, Problem

MOST_TOLD = 8
"""A longer list says nothing to a maker."""
_WEEK_MIN = 7 * DAY_MIN
_SHORT_MIN = 90
"""What differs from other weeks by less is a change of the clock, or the end of the horizon."""
_LIMITS = frozenset(
    {Kind.HANDS, Kind.HOURS, Kind.ABSENCE, Kind.PLACES, Kind.OPEN, Kind.BATH, Kind.CHANGE}
)


def conflict_words(problem: Problem, claims: Sequence[Claim], naming: Naming | None = None) -> str:
    """Return one sentence for a conflict; see ``conflict.smallest_conflict``."""
    naming = naming or Naming()
    if not claims:
        days = problem.horizon_min // DAY_MIN
        return f"The hours and places of {days} days do not hold the work."
    told = _told_once(problem, claims)
    asked = [claim_words(problem, c, naming) for c in told if c.kind not in _LIMITS]
    limits = list(_limit_words(problem, [c for c in claims if c.kind in _LIMITS], naming))
    left_out = len(asked) + len(limits) - MOST_TOLD
    if left_out > 0:
        asked = asked[: max(1, MOST_TOLD - len(limits))]
        limits = limits[: MOST_TOLD - len(asked)]
        (limits or asked).append(f"{left_out} more")
    if not asked or not limits:
        return f"These cannot all hold: {'; '.join(asked or limits)}."
    text = f"{'; '.join(asked)}, but {', and '.join(limits)}"
    return f"{text[0].upper()}{text[1:]}."


def _told_once(problem: Problem, claims: Sequence[Claim]) -> list[Claim]:
    """Leave out a wait or an earliest start that a window, or a set time, tells along."""
    windows = {c.at for c in claims if c.kind is Kind.WINDOW}
    starts = {a.id: (a.earliest_min, a.latest_start_min) for a in problem.activities}
    latest = {c.of for c in claims if c.kind is Kind.LATEST}
    pinned = {i for i in latest if starts[i][0] == starts[i][1]}
    return [
        c
        for c in claims
        if not (c.kind is Kind.WAIT and c.at in windows)
        and not (c.kind is Kind.EARLIEST and c.of in pinned)
    ]


def claim_words(problem: Problem, claim: Claim, naming: Naming) -> str:
    """Return what one claim asks for, without a full stop."""
    match claim.kind:
        case Kind.WINDOW | Kind.WAIT:
            return _lag_words(problem, problem.lags[claim.at], claim.kind)
        case Kind.LAST:
            rule = problem.before_last[claim.at]
            others = ", ".join(called(problem, i) for i in sorted(rule.of))
            text = f"{called(problem, rule.first)} has to end before the last of {others} starts"
            return _because(text, rule.reason)
        case Kind.HANGS:
            hold = problem.holds[claim.at]
            until = ", ".join(called(problem, i) for i in sorted(hold.until))
            place = naming.of(hold.resource)
            return f"{place} is taken from the end of {called(problem, claim.of)} until {until}"
        case Kind.LATEST | Kind.EARLIEST | Kind.SHUT:
            return _time_words(problem, claim, naming)
        case _:
            return next(_limit_words(problem, [claim], naming))


def _lag_words(problem: Problem, lag: Lag, kind: Kind) -> str:
    then, first = called(problem, lag.then), called(problem, lag.first)
    least, most = least_wait(lag), most_wait(lag)
    if kind is Kind.WINDOW and most is not None:
        by_air = " (as the air goes)" if lag.closes is not None else ""
        how = f"within {span_words(most)}{by_air} of the end of" if most else "as soon as"
        text = f"{then} has to start {how} {first}" + ("" if most else " ends")
    elif least > 0:
        text = f"{then} has to wait {span_words(least)} after {first}"
    else:
        text = f"{then} comes after {first}"
    return _because(text, lag.reason)


def _because(text: str, reason: str) -> str:
    return f"{text} ({reason.rstrip('.')})" if reason else text


def _time_words(problem: Problem, claim: Claim, naming: Naming) -> str:
    activity = next(a for a in problem.activities if a.id == claim.of)
    name, latest = called(problem, claim.of), activity.latest_start_min
    if claim.kind is Kind.SHUT:
        return f"{name} must not end while its drying would spoil"
    if claim.kind is Kind.EARLIEST:
        return f"{name} cannot start before {naming.moment(problem, activity.earliest_min)}"
    if latest == activity.earliest_min:
        return f"{name} is set for {naming.moment(problem, latest)}"
    return f"{name} has to start by {naming.moment(problem, latest or 0)}"


def _limit_words(problem: Problem, claims: Sequence[Claim], naming: Naming) -> Iterator[str]:
    """Yield limits in words; who alone may do something is told together with being away."""
    left = list(claims)
    hands: dict[tuple[tuple[str, ...], bool], list[str]] = {}
    for claim in claims:
        if claim.kind is Kind.HANDS:
            activity = next(a for a in problem.activities if a.id == claim.of)
            alike = activity.alone, len(activity.alone) < len(activity.people)
            hands.setdefault(alike, []).append(called(problem, claim.of))
    for (people, are_more_beside), titles in hands.items():
        able = [naming.of(p) for p in people if p != NOBODY]
        said = f"{f'only {_listed(able)}' if able else 'nobody here'} may do {_listed(titles)}"
        said += " alone" if are_more_beside else ""
        mine = [c for c in left if c.kind is Kind.ABSENCE and people == (c.of,)]
        left = [c for c in left if c not in mine]
        yield " and ".join([said, *(_absence(problem, c, naming) for c in mine)])
    for claim in left:
        if claim.kind is Kind.ABSENCE:
            yield f"{naming.of(claim.of)} {_absence(problem, claim, naming)}"
        elif claim.kind is not Kind.HANDS:
            yield _place_words(problem, claim, naming)


def _absence(problem: Problem, claim: Claim, naming: Naming) -> str:
    away = away_in(problem, claim.of, claim.window)
    if away is not None:
        return f"is away {naming.span(problem, away)}"
    return f"is not there {naming.span(problem, claim.window)}"


def away_in(problem: Problem, who: str, gap: Window) -> Window | None:
    """Return which part of a gap a person is at work in other weeks; ``None`` for usual hours."""
    windows = next((w.windows for w in problem.workers if w.id == who), ())
    usual: list[Window] = []
    for start, end in windows:
        # The week before or after at the same hour; more weeks apart says less of what is usual.
        for shift in (-_WEEK_MIN, _WEEK_MIN):
            begin, till = max(gap[0], start + shift), min(gap[1], end + shift)
            if till - begin >= _SHORT_MIN:
                usual.append((begin, till))
    if not usual:
        return None
    return min(begin for begin, _ in usual), max(till for _, till in usual)


def _place_words(problem: Problem, claim: Claim, naming: Naming) -> str:
    name = naming.of(claim.of)
    match claim.kind:
        case Kind.PLACES:
            held = next(r.capacity for r in problem.resources if r.id == claim.of)
            return f"{name} holds {held}"
        case Kind.OPEN:
            return f"{name} is open at certain hours only"
        case Kind.BATH:
            held = next(b.capacity for b in problem.baths if b.id == claim.of)
            return f"{name} takes {held} at a time"
        case Kind.CHANGE:
            minutes = next(b.change_min for b in problem.baths if b.id == claim.of)
            return f"{name} takes {span_words(minutes)} to change"
        case _:
            return f"{name} works only at certain hours"


def _listed(names: Sequence[str]) -> str:
    if len(names) > MOST_TOLD // 2:
        names = [*names[: MOST_TOLD // 2 - 1], f"{len(names) - MOST_TOLD // 2 + 1} more"]
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else list(names))
