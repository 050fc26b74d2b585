"""A bridge on an invented week that plans answer, for what is asked of the weeks ahead."""

from desktop.fake_session import FakeSession
from schedule.hand_shops import racks

from armorplan.app.in_hand import WeekPlan
from armorplan.app.shown_plan import ShownPlan
from armorplan.app.wishes import Wishes
from armorplan.desktop.bridge import Bridge
from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.planning import first_plan
from armorplan.workshop.places import Rack
from armorplan.workshop.shop import Person, Shop, usual_hours

RACKS, FULL = racks(), racks(pieces=2, capacity=0)
SHOP = Shop(
    people=(Person(id="m", name="Maker", hours=usual_hours()),),
    racks=(Rack(id="rack", name="Drying line", line_mm=1),),
)


class NoSolver:
    """The solver is lost: serial plans only."""

    def solve(self, model, **_):
        raise SolverLostError(str(model.effort))


SERIAL = Wishes(solver=NoSolver(), each_s=0.0)


class WeekSession(FakeSession):
    """A session whose week is a small problem built by hand."""

    bench = RACKS

    def problem(self):
        return self.bench

    def asking(self):
        return lambda: self.bench

    def problem_mark(self):
        return id(self.bench)

    def shop(self):
        return SHOP

    def week(self):
        shown = ShownPlan(plan=first_plan(self.bench), origin_at=self.bench.origin_at)
        return WeekPlan(problem=self.bench, shown=shown)


class ClashSession(WeekSession):
    """A session whose week has no plan."""

    bench = FULL


def bridge_on(kind, clock):
    """A bridge on a session of this kind."""
    made = kind.of(12)
    made.clock = clock
    return Bridge(made, clock)
