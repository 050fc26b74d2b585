"""Why steps stand where they stand, as lines: what a whole run of them has in common is told once."""

from collections.abc import Iterable, Iterator
from itertools import chain

from armorplan.app.reports import ReasonReport, StepReport
from armorplan.relations.model import Force
from armorplan.rules.reaching import BY_REACH

_OF_A_ROW = BY_REACH | {"row-in-one-go"}
"""Codes of rules whose reasons hold of a row as a whole."""
_BOTH = 2

Told = frozenset[tuple[str, str]]
"""Rules and texts told at the head of a run."""


def head_reasons(run: Iterable[StepReport], *, is_row: bool) -> tuple[list[str], Told]:
    """Return what is told once of a run, and what its steps then leave out.

    That is what holds of each of them; and of a row what reach asks of it and how it is set: most
    of that speaks of other joints, and comes true with its last one.
    """
    steps = [[reason for reason in step.reasons if stands(reason)] for step in run]
    of_each = frozenset.intersection(*(frozenset(map(_key, near)) for near in steps))
    told: dict[tuple[str, str], ReasonReport] = {}
    for reason in chain.from_iterable(steps):
        if _key(reason) in of_each or (is_row and reason.rule in _OF_A_ROW):
            told.setdefault(_key(reason), reason)
    return _by_rule(sorted(told.values(), key=gravest)), frozenset(told)


def step_reasons(step: StepReport, told: Told) -> list[str]:
    """Return the nearest reasons of a step that are not told yet, one of each rule and a count."""
    return _by_rule(r for r in step.reasons if stands(r) and _key(r) not in told)


def stands(reason: ReasonReport) -> bool:
    """Tell whether a reason is told: it holds, and no nearer one sees to it already."""
    return not (reason.also or reason.overruled or reason.not_kept)


def _key(reason: ReasonReport) -> tuple[str, str]:
    return reason.rule, reason.text


def gravest(reason: ReasonReport) -> tuple[bool, float, str]:
    """Return a key that sorts what binds first, and of the rest what costs most minutes."""
    minutes = sum(number.value for number in reason.exact if number.unit == "min")
    return not Force(reason.force).binds, -round(minutes, 3), reason.text


def _by_rule(reasons: Iterable[ReasonReport]) -> list[str]:
    found: dict[str, list[ReasonReport]] = {}
    for reason in reasons:
        found.setdefault(reason.rule, []).append(reason)
    return [line for rule, some in found.items() for line in _lines(rule, some)]


def _lines(rule: str, reasons: list[ReasonReport]) -> Iterator[str]:
    texts = list(dict.fromkeys(reason.text for reason in reasons))
    if len(texts) == _BOTH == len(reasons) and rule in _OF_A_ROW:
        yield from (f"{text} [{rule}]" for text in texts)
        return
    more = f" (and {len(reasons) - 1} more like it)" if len(reasons) > 1 else ""
    yield f"{texts[0]} [{rule}]{more}"
