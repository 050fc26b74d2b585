"""Why there is no plan, and what would free it: told as it comes, and within the time asked."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from armorplan.app.mends import MendRow, mend_row
from armorplan.schedule.claims import Claim
from armorplan.schedule.clash_words import claim_words
from armorplan.schedule.conflict import UNTOLD_CLASH, conflict_words, smallest_conflict
from armorplan.schedule.flowing import Flow, ShouldStop, until
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.mending import ways_out
from armorplan.schedule.mends import Mend
from armorplan.schedule.naming import Naming
from armorplan.schedule.never_reached import never_reached, too_late, too_late_claims
from armorplan.schedule.planning import first_plan
from armorplan.schedule.possible import Possible
from armorplan.schedule.problem import Plan, Problem
from armorplan.schedule.searching import Solver

UNTOLD = "Whether a plan is possible could not be told in the time given."
NONE = "No plan is possible: {}"
SOUGHT = "Looking for what stands against a plan …"
OnDoing = Callable[[str], None]


@dataclass(slots=True, kw_only=True)
class Tried:
    """How many ways out there are, and at how many it was begun; written while they are tried."""

    of: int = 0
    begun: int = 0
    is_cut: bool = False

    def words(self) -> str:
        """Return what was left out, in a sentence; empty where nothing was."""
        if not self.is_cut:
            return ""
        left = self.of - self.begun + 1 if self.of else 0
        if left > 1:
            return f"The time is over: {left} more things that might free it were not tried."
        return "The time is over: not all that might free it was tried."


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    """Why there is no plan, in a sentence, and what tries one way out after the other.

    ``tried`` says, once the rows have ended, whether all were tried.
    """

    words: str
    rows: Callable[[], Iterator[MendRow]] = lambda: iter(())
    tried: Tried = field(default_factory=Tried)


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedWhy:
    """What is asked, and how.

    Attributes:
        best: a good plan of a problem, in a short while.
        within_s: seconds for all of it; half of them for what clashes.
        on_doing: told what is being tried, on the thread that waits.
        known: why there is none, where that is proved already; empty: it is not.
    """

    problem: Problem
    naming: Naming
    solver: Solver
    best: Callable[[Problem, ShouldStop], Plan]
    within_s: float
    should_stop: ShouldStop
    on_doing: OnDoing
    known: str = ""

    def why(self) -> Why:
        """Return the smallest conflict, and what tries its ways out within the same time."""
        self.on_doing(SOUGHT)
        should_stop = until(self.within_s, self.should_stop)
        found = list(Flow(self._find, until(self.within_s / 2, self.should_stop)))
        if not found or found[0] is None:
            return Why(words=UNTOLD)
        blamed = {claim.of for claim in found[0]}
        claims = tuple(sorted(found[-1] or (), key=lambda claim: claim.of not in blamed))
        if not claims:
            return Why(words=NONE.format(self._known or UNTOLD_CLASH), tried=Tried(is_cut=True))
        tried = Tried()
        words = self._words(claims, is_smallest=len(found) > 1)
        return Why(words=words, rows=lambda: self._rows(claims, tried, should_stop), tried=tried)

    @property
    def _known(self) -> str:
        """Why there is none, where a search had the time to tell."""
        return "" if UNTOLD_CLASH in self.known else self.known

    def _words(self, claims: tuple[Claim, ...], *, is_smallest: bool) -> str:
        """Return what clashes; where a search said already what comes too late, that again."""
        late = "" if lag_cycle(self.problem) else never_reached(self.problem, self.naming)
        if is_smallest and (not late or late != self.known):
            return conflict_words(self.problem, claims, self.naming)
        return late or self._known or UNTOLD_CLASH

    def _find(self, flow: Flow[tuple[Claim, ...] | None]) -> None:
        """Tell ``None`` where none is proved; else what is known to clash, and then the smallest."""
        is_possible = _Oracle(self.solver, flow)
        late = None if lag_cycle(self.problem) else too_late(self.problem)
        if not (late or self.known) and is_possible(self.problem) is not False:
            flow.tell(None)
            return
        flow.tell(too_late_claims(self.problem, late) if late else ())
        smallest = smallest_conflict(self.problem, is_possible)
        if smallest:
            flow.tell(smallest)

    def _rows(
        self, claims: tuple[Claim, ...], tried: Tried, should_stop: ShouldStop
    ) -> Iterator[MendRow]:
        flow = Flow[MendRow | str](lambda its: self._try(claims, tried, its), should_stop)
        for each in flow:
            if isinstance(each, str):
                self.on_doing(each)
            else:
                yield each
        tried.is_cut = flow.is_cut

    def _try(self, claims: tuple[Claim, ...], tried: Tried, flow: Flow[MendRow | str]) -> None:
        def on_try(mend: Mend, at: int, of: int) -> None:
            tried.of, tried.begun = of, at + 1
            gives = claim_words(self.problem, mend.claim, self.naming)
            flow.tell(f"Trying what would free it, {at + 1} of {of}: what if not “{gives}”? …")

        def seek(problem: Problem) -> Plan:
            flow.go_on()
            return self.best(problem, lambda: flow.is_halted)

        def quick(problem: Problem) -> Plan:
            flow.go_on()
            return first_plan(problem)

        is_possible = _Oracle(self.solver, flow)
        for freed in ways_out(self.problem, claims, is_possible, seek, quick, on_try=on_try):
            flow.tell(mend_row(self.problem, freed, self.naming))


class _Oracle:
    """Tells whether a problem has a plan, and is halted with its flow."""

    def __init__(self, solver: Solver, flow: "Flow[Any]") -> None:
        self._flow = flow
        self._possible = Possible(solver, lambda: flow.is_halted)

    def __call__(self, problem: Problem) -> bool | None:
        self._flow.go_on()
        return self._possible(problem)
