"""Why a run of steps stands where it stands, in a few sentences for the margin of a bench sheet."""

from collections.abc import Iterable

from armorplan.app.order_reasons import gravest, stands
from armorplan.app.reports import ReasonReport, StepReport

_MOST = 5
"""A margin of more is not read at the bench; `armorplan order` tells all."""


def run_reasons(run: Iterable[StepReport]) -> tuple[str, ...]:
    """Return the reasons of a run, what binds first, one of each rule with a count."""
    every = [reason for step in run for reason in step.reasons]
    found: dict[str, list[ReasonReport]] = {}
    for reason in sorted(filter(stands, every), key=gravest):
        found.setdefault(reason.rule, []).append(reason)
    told = [_words(reasons) for reasons in found.values()]
    aside = dict.fromkeys(f"Set aside: {r.text}" for r in every if r.overruled)
    more = len(told) - _MOST
    if more > 1:
        told = [*told[:_MOST], f"And {more} reasons more."]
    return (*told, *aside)


def _words(reasons: list[ReasonReport]) -> str:
    texts = dict.fromkeys(reason.text for reason in reasons)
    more = len(texts) - 1
    return f"{next(iter(texts))} (And {more} more like it.)" if more else next(iter(texts))
