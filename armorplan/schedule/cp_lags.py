"""Lags for the solver: minutes between two variables, and windows looked up in tables."""

from armorplan.schedule.cp_table import LookUps
from armorplan.schedule.draft import Draft
from armorplan.schedule.lag_spans import closes_at, opens_at
from armorplan.schedule.problem import Lag
from armorplan.solving.model import MOST, Linear, Range, Term


def lay_lag(
    into: tuple[Draft, LookUps], lag: Lag, between: tuple[Term, str], ends: tuple[Range, ...]
) -> None:
    """Add what a lag asks for between an end that can move and a start.

    Args:
        into: where it is written, and the look-ups of its model.
        lag: the demand.
        between: the end (a variable and what is added to it) and the variable of the start.
        ends: the minutes the end can be at.
    """
    draft, look_ups = into
    (end, offset), start = between
    most = None if lag.max_lag is None else lag.max_lag + offset
    draft.gap(end, start, least=lag.min_lag + offset, most=most)
    if lag.opens is not None:
        draft.gap(look_ups.ready_at((end, offset), lag.opens, ends), start, least=0)
    if lag.closes is not None:
        draft.gap(start, look_ups.ready_at((end, offset), lag.closes, ends), least=0)


def lay_after_history(draft: Draft, lag: Lag, end_min: int, start: str) -> None:
    """Add what a lag asks of a start when what comes first has ended already."""
    latest = closes_at(lag, end_min)
    ranges = ((opens_at(lag, end_min), MOST if latest is None else latest),)
    draft.need(Linear(terms=((start, 1),), ranges=ranges))
