"""An answer played at the bench: up to its first break, and what is out of reach by then."""

from dataclasses import replace

import pytest
from app.drills.drill_sources import NAMES, asked, source_of, tube

from armorplan.app.drills.playing import drill_diagram, frames
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.app.drills.source import DrillSource
from armorplan.app.rows import BenchState
from armorplan.geometry.marks import MarkKind
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Standing
from armorplan.practice.drill import DrillKind


def steps(source, *joints):
    return [source.derived.work.setting(joint).id for joint in joints]


def before(source, *joints):
    """Return all that the order has done before the first of some joints, but none of these."""
    mine = steps(source, *joints)
    at = min(source.derived.place[step] for step in mine)
    return source.derived.order[:at]


@pytest.mark.parametrize("name", NAMES)
def test_the_order_itself_is_played_to_its_end(name):
    source = source_of(name)
    order = source.derived.order
    stretch = order[-8:]
    played = frames(source, stretch, done=order[:-8])
    assert [frame.at for frame in played] == ["", *stretch]
    assert not any(frame.amiss or frame.ghosts for frame in played)
    assert played[-1].done == order


def test_what_hides_a_head_leaves_its_joint_a_ghost():
    source = source_of("elbow_cop")
    hidden, *boss = steps(source, "tab_bottom", "boss_left", "boss_right")
    done = before(source, "tab_bottom", "boss_left", "boss_right")
    played = frames(source, [*boss, hidden], done=done)
    assert [frame.at for frame in played] == ["", *boss, ""]
    assert "comes too early" in played[2].said
    assert played[-1].ghosts == ("tab_bottom",)
    assert played[-1].amiss == (hidden,)
    assert "No tool gets to" in played[-1].said
    assert played[-1].done == (*done, *boss)


def test_the_strap_in_a_tube_becomes_a_ghost_when_reach_says_so_and_not_before():
    source = tube(250.0)
    derived = source.derived
    row = [f"row_{at}" for at in range(7)]
    done = [step for step in derived.order if not derived.work.sets(derived.work.step(step))]
    played = frames(source, [*steps(source, *row), *steps(source, "on")], done=done)
    assert played[-1].ghosts == ("on",)
    reach = reach_of(derived.pattern, derived.shelf)
    made = {j for s in played[-1].done for j in derived.work.sets(derived.work.step(s))}
    last = {j for s in played[-3].done for j in derived.work.sets(derived.work.step(s))}
    standing = [
        margin(reach.net, "on", frozenset(some), reach.bench).standing for some in (last, made)
    ]
    assert standing[0] < Standing.CANNOT == standing[1]
    longer = frames(tube(900.0), [*steps(source, *row), *steps(source, "on")], done=done)
    assert not any(frame.ghosts for frame in longer)
    assert len(longer) == len(row) + 2


def test_what_no_relation_tells_of_half_a_row_reach_tells():
    """Without the relations by reach, the play stops all the same where the strap is shut in."""
    source = tube(250.0)
    derived = source.derived
    bare = replace(derived, relations=tuple(r for r in derived.relations if not r.reason.numbers))
    row = [f"row_{at}" for at in range(7)]
    done = [step for step in derived.order if not derived.work.sets(derived.work.step(step))]
    order = [*steps(source, *row), *steps(source, "on")]
    played = frames(DrillSource(derived=bare), order, done=done)
    assert played[-1].ghosts == ("on",)
    assert played[-2].said.startswith("Done: ")
    assert "No tool gets to" in played[-1].said


def test_what_only_comes_too_late_is_no_ghost():
    source = source_of("elbow_cop")
    work = source.derived.work
    bevel = next(s.id for s in work.steps if s.id.endswith("/bevel/petal_left"))
    case = next(s.id for s in work.steps if s.kind.value == "case" and "petal_left" in s.parts)
    done = [s for s in source.derived.order[: source.derived.place[case]] if s != bevel]
    played = frames(source, [case, bevel], done=done)
    assert bevel in played[-1].amiss
    assert not played[-1].ghosts
    assert "comes too late now" in played[-1].said


def test_what_an_exercise_leaves_out_is_taken_for_done():
    source = source_of("elbow_cop")
    order = source.derived.order
    few = order[20:60:8]
    assert not any(frame.amiss for frame in frames(source, few, done=order[:20]))


def test_the_diagram_shows_the_state_of_the_exercise_alone():
    source = source_of("elbow_cop")
    hidden, boss = steps(source, "tab_bottom", "boss_left")
    shown = drill_diagram(source, [boss], amiss=(), ghosts=("tab_bottom",))
    state = {joint.id: joint.state for joint in shown.joints}
    assert state["boss_left"] is BenchState.DONE
    assert state["tab_bottom"] is BenchState.MISSED
    assert set(state.values()) == {BenchState.DONE, BenchState.MISSED, BenchState.WAITING}
    late = drill_diagram(source, [], amiss=(hidden,))
    assert {j.id for j in late.joints if j.state is BenchState.MISSED} == {"tab_bottom"}
    assert not late.marks


def test_a_ghost_is_outlined_where_its_part_was_to_lie():
    """Its two rivets hold the tab on the petal: turned and shifted so that both holes meet."""
    source = source_of("elbow_cop")
    shown = drill_diagram(source, [], ghosts=("tab_bottom",))
    rings = [row.mark for row in shown.marks if row.mark.kind is MarkKind.ZONE]
    assert {mark.part for mark in rings} == {"petal_middle", "lace_tab"}
    (ghost,) = [row.mark for row in shown.marks if row.mark.kind is MarkKind.GHOST]
    assert ghost.part == "petal_middle"
    assert ghost.label == "lace tab"
    (hole,) = [h for h in shown.holes if h.joint == "tab_bottom" and h.part == "petal_middle"]
    xs, ys = zip(*ghost.spots, strict=True)
    assert min(xs) < hole.centre[0] < max(xs)
    assert min(ys) < hole.centre[1] < max(ys)


@pytest.mark.parametrize("kind", [DrillKind.ORDER, DrillKind.NEXT, DrillKind.MISTAKE])
@pytest.mark.parametrize("name", ["elbow_cop", "three_lames"])
def test_what_is_played_ends_at_the_reason_that_the_judgement_tells_first(name, kind):
    source, seen = source_of(name), 0
    for seed in range(5):
        drill = drill_for(source, asked(kind, seed))
        given = {
            DrillKind.ORDER: tuple(one.id for one in drill.choices)[::-1],
            DrillKind.NEXT: tuple(one.id for one in drill.choices),
            DrillKind.MISTAKE: solved(source, drill).answer,
        }
        found = judged(source, drill, given[kind])
        if kind is DrillKind.ORDER and found.right:
            continue
        told = [frame.said for frame in found.play if frame.amiss or "too early" in frame.said]
        assert told, drill.asked
        assert found.because[0].text in told[0], (told[0], found.because[0].text)
        seen += 1
    assert seen >= 3
