"""How sure the dates of a plan are, in the sentence that stands beside the plan itself."""

from armorplan.app.promises import PromiseRow, Promises
from armorplan.kernel.units import span_words

SURE_PCT = 80
"""A date that is kept so often is sure enough to be promised, as promises are asked for."""
_MOST_NAMED = 3
_TOLD_PCT = 5
"""Odds that changed by fewer of 100 runs are not told: other draws would change them as much."""


def surety_words(found: Promises, where: str) -> str:
    """Return how surely the dates that the plan keeps are kept; empty where it keeps none.

    Args:
        found: the odds of the plan.
        where: what says why they are low, as the subject of a sentence.
    """
    dated = sorted(
        (row for row in found.builds if row.due_at and row.planned_at <= row.due_at),
        key=lambda row: (row.kept_pct or 0.0, row.title),
    )
    unsure = [row for row in dated if (row.kept_pct or 0.0) < SURE_PCT]
    if not dated:
        return ""
    if not unsure:
        least = dated[0].kept_pct or 0.0
        which = "each date is" if len(dated) > 1 else "its date is"
        return f"Surely enough: {which} kept in {least:.0f} of 100 runs{_or_more(dated)}."
    return (
        "But it is planned to the minute, with too little to spare for "
        f"{_named(unsure)}: {where} says why."
    )


def changed_words(before: Promises, now: Promises) -> str:
    """Return whose odds changed since an earlier plan, the most first; empty where none did."""
    kept = {row.build: row.kept_pct for row in before.builds if row.kept_pct is not None}
    changed = sorted(
        (-abs((row.kept_pct or 0.0) - kept[row.build]), row.title, kept[row.build], row.kept_pct)
        for row in now.builds
        if row.kept_pct is not None and row.build in kept
    )
    told = [
        f"“{title}” now {after:.0f} of 100, before {former:.0f}"
        for by, title, former, after in changed
        if by <= -_TOLD_PCT
    ]
    more = len(told) - _MOST_NAMED
    told = [*told[:_MOST_NAMED], *([f"{more} more"] if more > 0 else [])]
    return f"Dates kept: {'; '.join(told)}." if told else ""


def _or_more(dated: list[PromiseRow]) -> str:
    return " or more" if len(dated) > 1 else ""


def _named(unsure: list[PromiseRow]) -> str:
    told = [
        f"“{row.title}” ({'kept in ' if not at else ''}{row.kept_pct or 0.0:.0f} of 100"
        f"{' runs' if not at else ''})"
        for at, row in enumerate(unsure[:_MOST_NAMED])
    ]
    more = len(unsure) - _MOST_NAMED
    if more > 0:
        told.append(f"{more} more")
    return " and ".join(filter(None, (", ".join(told[:-1]), told[-1])))


def least_words(found: Promises) -> str:
    """Return whether the plan has hours to spare everywhere, or which build has the least."""
    spare = [
        ((row.due_at - row.planned_at), row.title)
        for row in found.builds
        if row.due_at is not None
    ]
    if not spare:
        return ""
    least, title = min(spare)
    minutes = round(least.total_seconds() / 60)
    if minutes < 0:
        return f"“{title}” is late in the plan by {span_words(-minutes)}."
    if all((row.kept_pct or 0.0) >= SURE_PCT for row in found.builds if row.due_at):
        return (
            f"The plan has time to spare everywhere: at least {span_words(minutes)} (“{title}”)."
        )
    return f"The least to spare before a date has “{title}”: {span_words(minutes)}."
