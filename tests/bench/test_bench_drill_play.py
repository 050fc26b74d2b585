"""What it costs to play an answer and to show its state, once its build is derived; goals on 2 cores."""

import pytest
from bench.stopwatch import busy_s
from bench.test_bench_shapes import say

from armorplan.app.drills.playing import drill_diagram, frames
from armorplan.app.drills.source import DrillSource
from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.shop import one_maker

pytestmark = pytest.mark.bench


@pytest.mark.parametrize(("name", "most_s"), [("elbow_cop", 0.05), ("arm_harness", 0.3)])
def test_an_answer_is_played_at_once(name, most_s, capsys):
    folder = samples_folder() / name
    source = DrillSource(derived=derive_folder(folder, read_shelf(), one_maker("UTC")))
    order, joint = source.derived.order, source.derived.assembly.joints[0].id
    drill_diagram(source, order[:10])

    def play():
        played = frames(source, order[-12:], done=order[:-12])
        drill_diagram(source, played[-1].done, ghosts=(joint,))

    took_s = min(busy_s(play) for _ in range(3))
    say(capsys, f"play of 12 steps, {name}: {took_s:.3f} s")
    assert took_s < most_s
