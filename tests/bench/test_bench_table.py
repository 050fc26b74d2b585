"""The drawing table with 300 parts and 3,000 holes: read into a scene, shown, painted, chosen."""

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from math import cos, sin, tau

import pytest
from bench.stopwatch import busy_s

from armorplan.desktop.shape_edit_choice import Choice
from armorplan.desktop.shape_edit_scene import HOLE, scene_from
from armorplan.desktop.widgets.shape_edit_canvas import TableCanvas
from armorplan.pattern.joining import Joint, JointKind, Seam
from armorplan.pattern.parts import Hole, Part, PartKind
from armorplan.pattern.pattern import Pattern

pytestmark = pytest.mark.bench
PARTS, HOLES, ACROSS = 300, 10, 20
GOAL_S = {
    "scene": 0.5,
    "shown": 2.5,
    "shown again": 0.3,
    "first painted": 0.8,
    "painted": 0.1,
    "all chosen": 0.5,
}


def part(number):
    x, y = (number % ACROSS) * 130.0, (number // ACROSS) * 130.0
    ring = [(x + 60 + 50 * cos(a * tau / 90), y + 60 + 50 * sin(a * tau / 90)) for a in range(90)]
    holes = (
        Hole(
            id=f"h{number}_{at}",
            part=f"p{number}",
            centre=(x + 20 + 8 * at, y + 60),
            diameter_mm=4,
        )
        for at in range(HOLES)
    )
    return Part(
        id=f"p{number}",
        name=f"plate {number}",
        piece="coat",
        kind=PartKind.PLATE,
        outline=tuple(ring),
        material="leather",
        thickness_mm=3.2,
        holes=tuple(holes),
    )


def pattern():
    """Return plates of which each is riveted to the next by a row."""
    seams, joints = [], []
    for one in range(0, PARTS, 2):
        row = [
            Joint(
                id=f"j{one}_{at}",
                kind=JointKind.RIVET,
                stack=(f"h{one}_{at}", f"h{one + 1}_{at}"),
            )
            for at in range(HOLES)
        ]
        joints += row
        seams.append(Seam(id=f"s{one}", name="row", joints=tuple(j.id for j in row)))
    return Pattern(
        uuid="",
        slug="coat",
        name="coat",
        version=1,
        content_hash="",
        pieces=(),
        materials=(),
        parts=tuple(map(part, range(PARTS))),
        joints=tuple(joints),
        seams=tuple(seams),
    )


def test_three_hundred_parts_lie_on_the_table_at_once(qtbot, capsys):
    drawn, canvas = pattern(), TableCanvas()
    qtbot.addWidget(canvas)
    canvas.resize(900, 600)
    scene = scene_from(drawn)
    every = Choice(tuple(key for key in scene.spots if key.startswith(HOLE)))
    works = {
        "scene": lambda: scene_from(drawn),
        "shown": lambda: canvas.show_scene(scene),
        "shown again": lambda: canvas.show_scene(scene),
        "first painted": canvas.grab,
        "painted": canvas.grab,
        "all chosen": lambda: (canvas.choose(every), canvas.grab()),
    }
    spent = {name: busy_s(work) for name, work in works.items()}
    with capsys.disabled():
        print("\n" + ", ".join(f"{name} {1000 * s:.0f} ms" for name, s in spent.items()))  # noqa: T201
    assert {name: s < GOAL_S[name] for name, s in spent.items()} == dict.fromkeys(GOAL_S, True)
