"""What it costs to make an exercise about ways back, once its build is derived; goals on 2 cores."""

import pytest
from bench.stopwatch import busy_s
from bench.test_bench_shapes import say

from armorplan.app.drills.setting import drill_for
from armorplan.app.drills.source import DrillSource
from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.practice.drill import Asked, DrillKind, Level
from armorplan.workshop.shop import one_maker

pytestmark = pytest.mark.bench

SEEDS = 24


@pytest.mark.parametrize(
    ("name", "most_s"), [("elbow_cop", 1.0), ("collar", 2.0), ("arm_harness", 3.0)]
)
def test_an_exercise_is_made_before_anyone_waits(name, most_s, capsys):
    folder = samples_folder() / name
    source = DrillSource(derived=derive_folder(folder, read_shelf(), one_maker("UTC")))
    took = []
    for seed in range(SEEDS):
        asked = Asked(kind=DrillKind.WAY_BACK, seed=seed, level=Level(1 + seed % 4))
        took.append(busy_s(lambda asked=asked: drill_for(source, asked)))
    mean_s = sum(took) / SEEDS
    say(capsys, f"way back on {name}: mean {mean_s:.2f} s, longest {max(took):.2f} s")
    assert max(took) < most_s
