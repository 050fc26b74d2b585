"""What it costs to make and judge 'Dry yet?' and 'Plan the day', once their build is derived."""

import random

import pytest
from bench.stopwatch import busy_s
from bench.test_bench_shapes import say

from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.app.drills.source import DrillSource
from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.practice.drill import Asked, DrillKind, Level
from armorplan.workshop.shop import one_maker

pytestmark = pytest.mark.bench

SEEDS = 24
MOST_S = 0.5
every_sample = pytest.mark.parametrize(
    "name", ["elbow_cop", "collar", "three_lames", "arm_harness"]
)


def source_of(name):
    folder = samples_folder() / name
    return DrillSource(derived=derive_folder(folder, read_shelf(), one_maker("UTC")))


def moved(answer, chance, share):
    """Return a plan with about such a share of its steps at other times."""
    found = []
    for one in answer:
        name, _, clock = one.rpartition("=")
        minute = 60 * int(clock[:2]) + int(clock[3:])
        if chance.random() < share:
            minute = max(0, minute + chance.choice((-60, -40, -15, -5, 5, 10, 15, 60)))
        found.append(f"{name}={minute // 60:02}:{minute % 60:02}")
    return tuple(found)


@every_sample
@pytest.mark.parametrize("kind", [DrillKind.DRY, DrillKind.DAY], ids=["dry", "day"])
def test_an_exercise_is_made_before_anyone_waits(name, kind, capsys):
    source, took = source_of(name), []
    for seed in range(SEEDS):
        asked = Asked(kind=kind, seed=seed, level=Level(1 + seed % 4))
        took.append(busy_s(lambda asked=asked: drill_for(source, asked)))
    say(capsys, f"{kind} on {name}: mean {sum(took) / SEEDS:.3f} s, longest {max(took):.3f} s")
    assert max(took) < MOST_S


@every_sample
def test_a_plan_of_a_day_is_judged_before_anyone_waits(name, capsys):
    source, took = source_of(name), []
    chance = random.Random(1)  # noqa: S311 - a test
    for seed in range(SEEDS):
        drill = drill_for(source, Asked(kind=DrillKind.DAY, seed=seed, level=Level(1 + seed % 4)))
        best = solved(source, drill).answer
        for share in (0.2, 0.5, 0.5, 1.0, 1.0):
            given = moved(best, chance, share)
            took.append(busy_s(lambda drill=drill, given=given: judged(source, drill, given)))
    say(capsys, f"judging {name}: mean {sum(took) / len(took):.3f} s, longest {max(took):.3f} s")
    assert max(took) < MOST_S
