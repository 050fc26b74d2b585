"""A plan is shown only after the checker was silent on it; what it says is logged."""

import logging
from collections import deque

from armorplan.schedule.checker import violations
from armorplan.schedule.problem import Placed, Plan, Problem, Status
from armorplan.schedule.violation import Violation

_LOG = logging.getLogger(__name__)
_MOST_LOGGED = 5
"""Of more violations of one plan the rest is only counted."""
_PASSED: deque[tuple[Problem, tuple[Placed, ...]]] = deque(maxlen=4)
"""What passed last: the same plan goes through several hands on its way to who asked for it."""


def passes(problem: Problem, placed: tuple[Placed, ...], *, made_by: str) -> bool:
    """Tell whether a plan keeps every rule; what it breaks is logged, with who made it.

    The same plan of the same problem is not looked at twice in a row.
    """
    broken = _broken(problem, placed)
    for violation in broken[:_MOST_LOGGED]:
        _LOG.error("A plan made by %s is not shown: %s", made_by, violation.text)
    if len(broken) > _MOST_LOGGED:
        _LOG.error("It breaks %d rules in all.", len(broken))
    return not broken


def would_pass(problem: Problem, placed: tuple[Placed, ...]) -> bool:
    """Tell the same of a plan that is only tried, and may well break something; nothing is logged."""
    return not _broken(problem, placed)


def _broken(problem: Problem, placed: tuple[Placed, ...]) -> tuple[Violation, ...]:
    if any(known is problem and lies is placed for known, lies in tuple(_PASSED)):
        return ()
    broken = violations(problem, Plan(status=Status.GOOD, placed=placed))
    if not broken:
        _PASSED.append((problem, placed))
    return broken
