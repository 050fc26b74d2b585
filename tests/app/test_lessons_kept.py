"""What is learned in a plan, asked what if, and laid anew around tonight."""

from dataclasses import replace

from schedule.test_teaching import EARLY, LATER, MAKER, RIVET, shop

from armorplan.app.shown_plan import ShownPlan
from armorplan.app.wishes import Wishes
from armorplan.schedule.checker import violations
from armorplan.schedule.naming import Naming
from armorplan.schedule.planning import first_plan
from armorplan.schedule.teaching import learned_in, taught_plan

WISHES = Wishes(solver=None, each_s=0)
RIVETS = (RIVET, replace(RIVET, id="rivet2"))


def test_around_tonight_what_is_learned_stays_so():
    bench = shop(*RIVETS, LATER, workers=(MAKER, EARLY))
    plan = taught_plan(bench, first_plan(bench))
    assert learned_in(bench, plan.placed) == {"rivet", "rivet2"}
    at_hand = ShownPlan(plan=plan, origin_at=bench.origin_at)
    found = WISHES.tonight(bench, at_hand, Naming(), lambda: False)
    assert violations(bench, found.plan) == ()
    assert sorted(found.plan.placed, key=str) == sorted(plan.placed, key=str)
    assert found.moved == ()


def test_best_plans_teach_whatever_they_are_hinted_at():
    bench = shop(*RIVETS, LATER, workers=(MAKER, EARLY))
    plan = taught_plan(bench, first_plan(bench))
    for hint in (None, first_plan(bench), plan):
        found = WISHES.best(bench, hint, lambda: False)
        assert violations(bench, found) == ()
        assert learned_in(bench, found.placed) == {"rivet", "rivet2"}
