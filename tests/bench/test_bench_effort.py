"""What the order of least effort costs: a sample, the largest pattern, a skirt on its base.

Goals on 2 cores: the largest sample proved within 2 s.
"""

import pytest
from bench.scale_skirt import on_base
from bench.stopwatch import busy_s
from bench.test_bench_reach import facts_of, largest, sample
from bench.test_bench_shapes import SHELF, say

from armorplan.app.effort_rank import effort_of
from armorplan.geometry.reach.gathered import reach_of
from armorplan.rules.registry import derive_all

pytestmark = pytest.mark.bench

SAMPLE_S, LARGE_S = 2.0, 10.0


@pytest.mark.parametrize(
    ("make", "most_s"),
    [(sample, SAMPLE_S), (largest, LARGE_S), (on_base, LARGE_S)],
    ids=["arm harness", "300 parts", "240 scales on their base"],
)
def test_the_order_of_least_effort_is_proved_in_time(make, most_s, capsys):
    facts = facts_of(make())
    relations = derive_all(facts.assembly, facts.work, facts.shelf, facts.room).relations
    listed = {step.id: (0, at, 0, 0) for at, step in enumerate(facts.work.steps)}
    made_of = (facts.assembly, SHELF, facts.work)
    reach_of(facts.assembly.pattern, SHELF)
    found = []
    spent_s = busy_s(lambda: found.append(effort_of(made_of, relations, listed)))
    effort = found[0]
    say(
        capsys,
        f"{len(effort.problem.atoms)} set in one go, {len(effort.problem.rises)} rises: "
        f"{spent_s:.2f} s, {effort.found.spent.work_min:.0f} minutes, "
        f"at least {effort.found.bound_min:.0f}",
    )
    assert effort.is_proved
    assert spent_s <= most_s
