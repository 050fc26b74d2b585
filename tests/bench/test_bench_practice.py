"""What an exercise about steps costs: made and judged, and its distance against trying all orders.

Goals on 2 cores, by the processor: made and judged within 0.3 s each, of the largest sample too.
"""

from itertools import permutations

import pytest
from app.drills.drill_sources import asked, source_of
from bench.stopwatch import busy_s
from bench.test_bench_shapes import say
from practice.few_cases import moves_between
from relations.relation_cases import before

from armorplan.app.drills.setting import drill_for, judged
from armorplan.orders.repairing import smallest_repair
from armorplan.practice.distance import distance
from armorplan.practice.drill import DrillKind, Level
from armorplan.practice.few_orders import FewOrders
from armorplan.practice.worst import worst

pytestmark = pytest.mark.bench

GOAL_S, MOST_OVER = 0.3, 0.15
"""A single one may take so much more: chance may have to look at many steps."""
LEAST_RATIO = 5
WORST_S = 0.5
KINDS = (DrillKind.ORDER, DrillKind.NEXT, DrillKind.MISTAKE)


@pytest.mark.parametrize("name", ["elbow_cop", "arm_harness"])
@pytest.mark.parametrize("kind", KINDS)
def test_making_and_judging(name, kind, capsys):
    source, making, judging = source_of(name), [], []
    drill_for(source, asked(kind, 0))
    for seed in range(12):
        found = []
        making.append(
            busy_s(lambda s=seed, to=found: to.append(drill_for(source, asked(kind, s))))
        )
        (drill,) = found
        answer = tuple(choice.id for choice in drill.choices)
        given = answer[:1] if kind is DrillKind.MISTAKE else answer
        judging.append(busy_s(lambda d=drill, a=given: judged(source, d, a)))
    for words, spent in (("made", making), ("judged", judging)):
        mean = sum(spent) / len(spent)
        say(capsys, f"{name}, {kind}: {words} in {mean:.3f} s, longest {max(spent):.3f} s")
        assert mean <= GOAL_S
        assert max(spent) <= GOAL_S + MOST_OVER


def test_the_distance_against_trying_every_right_order(capsys):
    """Seven steps with a few pairs: hundreds of right orders, and as many longest stretches."""
    relations = [before(a, b) for a, b in ("ab", "cd", "ef")]
    answers = list(permutations("abcdefg"))[:: 5040 // 4]
    few = FewOrders("abcdefg", relations)
    ours = busy_s(
        lambda: [distance(answer, FewOrders("abcdefg", relations)) for answer in answers]
    )
    plain = busy_s(lambda: [min(moves_between(a, o) for o in few.orders()) for a in answers])
    ratio = plain / ours
    say(capsys, f"{few.count} orders: tried {plain:.3f} s, by sets {ours:.3f} s: 1/{ratio:.0f}")
    assert ratio >= LEAST_RATIO


@pytest.mark.parametrize("pairs", [1, 4, 11])
def test_a_dozen_steps_at_their_worst(pairs, capsys):
    steps = "abcdefghijkl"
    relations = [before(steps[at], steps[at + 1]) for at in range(pairs)]
    few, backwards = FewOrders(steps, relations), steps[::-1]
    moved, repaired = [], []
    far = busy_s(lambda: moved.append(distance(backwards, few).moves))
    most = busy_s(lambda: worst(few))
    mend = busy_s(lambda: repaired.append(smallest_repair(backwards, relations)))
    say(capsys, f"{pairs} pairs of 12: {far:.3f} s, worst {most:.3f} s, repair {mend:.3f} s")
    assert far <= WORST_S
    assert most <= WORST_S
    if repaired[0].exact:
        assert moved == [len(repaired[0].moved)]


def test_levels_of_the_harness(capsys):
    source = source_of("arm_harness")
    for level in Level:
        one = asked(DrillKind.ORDER, 5, level, focus="dry-fit-before-permanent")
        spent = busy_s(lambda one=one: drill_for(source, one))
        say(capsys, f"{level.words}, with a rule asked for: {spent:.3f} s")
        assert spent <= GOAL_S + MOST_OVER
