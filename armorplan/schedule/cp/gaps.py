"""Lags for the solver: minutes between two variables, and windows looked up in tables."""

from armorplan.schedule.cp.draft import Draft
from armorplan.schedule.cp.look_ups import Branch, LookUps
from armorplan.schedule.lag_spans import closes_at, opens_at
from armorplan.schedule.problem import Lag
from armorplan.schedule.table import Table
from armorplan.solving.model import MOST, Linear, Range, Term, at_least, at_most


class Gaps:
    """Writes what lags ask for between an end and a start."""

    def __init__(self, draft: Draft, look_ups: LookUps) -> None:
        self._draft = draft
        self._look_ups = look_ups

    def lay(self, lag: Lag, end: Term, start: str, ends: tuple[Range, ...]) -> None:
        """Add what a lag asks for.

        Args:
            lag: the demand.
            end: the variable of the end that it counts from, and what is added to it.
            start: the variable of the start.
            ends: the minutes the end can be at.
        """
        least = lag.min_lag if lag.opens is None else max(0, lag.min_lag)
        self._draft.gap(end, start, least=least, most=lag.max_lag)
        if lag.opens is not None:
            self._lay_table(lag.opens, end, start, ends, closes=False)
        if lag.closes is not None:
            self._lay_table(lag.closes, end, start, ends, closes=True)

    def _lay_table(
        self, table: Table, end: Term, start: str, ends: tuple[Range, ...], *, closes: bool
    ) -> None:
        """Keep a start behind what opens, or before what closes.

        Either by the cell's ready time or by its minutes, whichever allows more; the solver may
        choose, and only where the two differ.
        """
        asked = self._look_ups.cells(end, table, ends)
        by_ready, by_takes = asked.says_more(table, closes=closes)
        literal = ""
        if by_ready and by_takes:
            literal = self._look_ups.branch(
                Branch(start=start, end=end, table=table, closes=closes)
            )
        allowed = at_most if closes else at_least
        if by_ready:
            entry = self._look_ups.entry(asked, table.ready)
            only_if = (*asked.within, *((literal,) if literal else ()))
            self._need(((start, 1), (entry, -1)), allowed(0), only_if)
        if by_takes:
            takes: tuple[Term, ...] = ()
            if table.takes:
                takes = ((self._look_ups.entry(asked, table.takes), -1),)
            between = ((start, 1), (end[0], -1), *takes)
            self._need(between, allowed(end[1]), (f"~{literal}",) if literal else ())
        if asked.beyond:
            edge = len(table.ready) * table.grid_min
            wait = (table.open_till(edge) if closes else table.ready_at(edge)) - edge
            between = ((start, 1), (end[0], -1))
            self._need(between, allowed(end[1] + wait), (asked.beyond,))

    def _need(
        self, terms: tuple[Term, ...], ranges: tuple[Range, ...], only_if: tuple[str, ...]
    ) -> None:
        self._draft.need(Linear(terms=terms, ranges=ranges, only_if=only_if))


def lay_after_history(draft: Draft, lag: Lag, end_min: int, start: str) -> None:
    """Add what a lag asks of a start when what comes first has ended already."""
    latest = closes_at(lag, end_min)
    ranges = ((opens_at(lag, end_min), MOST if latest is None else latest),)
    draft.need(Linear(terms=((start, 1),), ranges=ranges))
