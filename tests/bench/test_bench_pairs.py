"""First plans of the lantern week, with an apprentice who learns to rivet and one who does not.

The ratio is of the processor's seconds of a first plan, the joining of its builds in it; both are
made in turn, so that what else the machine does falls on both alike. It may be 1.1 at the most.
"""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from bench.stopwatch import busy_s

from armorplan.app.ordered_builds import derive_orders
from armorplan.files.catalogue import read_shelf
from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.shipped import samples_folder
from armorplan.schedule.checker import violations
from armorplan.schedule.joining import joined_problem
from armorplan.schedule.planning import first_plan
from armorplan.schedule.teaching import learned_in, taught_plan
from armorplan.workshop.skill_how import SkillHow
from armorplan.workshop.skills import SignedOff, with_skills

pytestmark = pytest.mark.bench

WEEK = samples_folder() / "lantern_week" / "shop.toml"
MONDAY_8 = datetime(2026, 12, 7, 8, tzinfo=UTC)
ROUNDS = 15


def planned(builds):
    problem = joined_problem(builds, origin_at=MONDAY_8)
    plan = taught_plan(problem, first_plan(problem))
    assert violations(problem, plan) == ()
    return problem, plan


def test_first_plan_with_pairs(benchmark):
    week = read_shop_file(WEEK)
    found, _ = derive_orders(week.orders, WEEK, read_shelf(), week.shop)
    pairs = [build.in_hand for build in found]
    row = SignedOff(
        person="apprentice", kind="rivet", how=SkillHow.NOT_YET, by="maker", at=MONDAY_8
    )
    shop = with_skills(week.shop, (row,))
    alone = [replace(b, workplace=replace(b.workplace, shop=shop)) for b in pairs]
    problem, plan = planned(pairs)
    assert learned_in(problem, plan.placed)
    assert not any(a.in_pairs or a.taught for a in planned(alone)[0].activities)
    benchmark.pedantic(planned, (pairs,), rounds=3, warmup_rounds=0)
    took = [
        (busy_s(lambda: planned(pairs)), busy_s(lambda: planned(alone))) for _ in range(ROUNDS)
    ]
    with_pairs, without = (min(times) for times in zip(*took, strict=True))
    if benchmark.enabled:
        benchmark.extra_info["ratio_to_nobody_beside"] = with_pairs / without
        assert with_pairs / without <= 1.1
