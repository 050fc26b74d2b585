"""Why there is no plan, where the solver is lost or the search stopped while that is made short."""

from schedule.test_planning import CASED, Lost

from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.planning import best_plan, first_plan
from armorplan.schedule.problem import Status
from armorplan.schedule.searching import Asked, Search
from armorplan.solving.model import Answer, Outcome


class Counted:
    """A solver that says that nothing has a plan; its first answer may bring about something."""

    def __init__(self, then=lambda: None):
        self.asked = 0
        self.then = then

    def solve(self, _model, **_):
        self.asked += 1
        if self.asked == 1:
            self.then()
        return Answer(status=Outcome.NONE)


def test_a_solver_lost_while_a_conflict_is_made_small_leaves_what_is_known(solver):
    plan = best_plan(CASED, Lost(solver, solves=1))
    assert (plan.status, plan.placed) == (Status.NONE, ())
    assert plan.conflict


def test_a_solver_that_is_lost_again_and_again_is_not_asked_for_each_demand():
    class Gone(Counted):
        def solve(self, model, **asked):
            answer = super().solve(model, **asked)
            if self.asked > 1:
                raise SolverLostError("gone")
            return answer

    gone = Gone()
    assert best_plan(CASED, gone).status is Status.NONE
    assert gone.asked == 4


def test_once_it_is_stopped_a_search_asks_the_solver_nothing_more():
    stopped = []
    solver = Counted(then=lambda: stopped.append(True))
    asked = Asked(seconds=10, should_stop=lambda: bool(stopped))
    Search(CASED, solver, first_plan(CASED), asked).run()
    assert solver.asked == 1
