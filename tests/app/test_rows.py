"""What the views get: rows that hold together."""

from dataclasses import replace

import networkx as nx
import pytest

from armorplan.app.checklist_rows import KeptRows, rows_at
from armorplan.app.derived import derive_build
from armorplan.app.diagram_rows import DiagramRows
from armorplan.app.rows import BenchState, Grouping
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.planning import first_plan
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker


@pytest.mark.parametrize("grouping", Grouping)
def test_the_checklist_is_a_tree_with_every_step_once(bench, grouping):
    bench.plan()
    rows = bench.session.checklist(grouping)
    seen = set()
    for row in rows:
        assert row.parent is None or row.parent in seen
        assert row.id not in seen
        seen.add(row.id)
    leaves = [row.id for row in rows if row.steps == (row.id,)]
    assert sorted(leaves) == sorted(bench.session.derived.order)


def test_days_follow_the_plan(bench):
    bench.plan()
    headings = [r for r in bench.session.checklist(Grouping.DAY) if r.parent is None]
    starts = [heading.start_at for heading in headings]
    assert len(headings) > 2
    assert starts == sorted(starts)


def test_without_a_plan_the_days_say_so(bench):
    (heading,) = (r for r in bench.session.checklist(Grouping.DAY) if r.parent is None)
    assert heading.title == "not planned yet"


def test_a_step_lights_its_parts_and_a_fastener_its_step(bench):
    session = bench.session
    (first, *_) = bench.steps(StepKind.RIVET)
    lit = session.choose_steps((first.id,))
    assert (lit.parts, lit.joints) == (first.parts, first.joints)
    assert session.choose_joint(first.joints[0]).steps == (first.id,)
    chosen = session.choose_part("boss")
    assert chosen.steps == bench.ids(StepKind.MEASURE)
    assert "boss_left" in chosen.joints


def test_the_joint_that_shares_a_hole_shows_three_layers(bench):
    joints = {joint.id: joint for joint in bench.session.diagram().joints}
    assert joints["right_row_4"].stack == ("middle petal", "right petal", "closing strap")


def test_the_diagram_shows_every_part_and_hole_where_it_was_drawn(bench):
    diagram, pattern = bench.session.diagram(), bench.session.derived.pattern
    assert [part.outline for part in diagram.parts] == [part.outline for part in pattern.parts]
    assert len(diagram.holes) == sum(len(part.holes) for part in pattern.parts)
    layer = {part.id: part.layer for part in diagram.parts}
    assert layer["boss"] > layer["petal_middle"] > layer["petal_right"] > layer["closing_strap"]


def test_parts_that_overlap_in_a_ring_share_a_layer_and_what_lies_over_them_is_above():
    parts = [
        sketch_part(name, holes={f"{name}_{n}": (8.0 + 14 * n, 8.0) for n in range(3)})
        for name in ("a", "b", "c", "lid", "loose")
    ]
    ring = [sketch_rivet(f"{x}{y}", f"{x}_0", f"{y}_1") for x, y in ("ab", "bc", "ca")]
    joints = (*ring, sketch_rivet("lid_a", "lid_0", "a_2"))
    derived = derive_build(
        sketch(*parts, joints=joints), sketch_shelf(), one_maker(), build="sketch-1"
    )
    rows = DiagramRows(derived).at(lambda _step: BenchState.WAITING)
    layer = {part.id: part.layer for part in rows.parts}
    assert layer == {"a": 0, "b": 0, "c": 0, "lid": 1, "loose": 0}


def test_a_key_press_only_changes_how_things_stand(bench, monkeypatch):
    def pictures():
        session = bench.session
        return session.diagram(), session.assembly_graph(), session.step_graph()

    before = pictures()
    drawn_anew = []
    monkeypatch.setattr(nx, "transitive_reduction", drawn_anew.append)
    bench.do_until(StepKind.INSPECT)
    after = pictures()
    assert not drawn_anew
    assert after[0].parts is before[0].parts
    assert after[0].holes is before[0].holes
    assert [graph.edges for graph in after[1:]] == [graph.edges for graph in before[1:]]
    assert {joint.state for joint in before[0].joints} == {BenchState.WAITING}
    assert {joint.state for joint in after[0].joints} == {BenchState.DONE}
    assert BenchState.DONE not in {node.state for node in before[2].nodes}
    assert BenchState.DONE in {node.state for node in after[2].nodes}


def test_the_step_graph_has_no_circle_and_every_step(bench):
    rows = bench.session.step_graph()
    graph = nx.DiGraph((edge.tail, edge.head) for edge in rows.edges)
    assert nx.is_directed_acyclic_graph(graph)
    steps = [step for node in rows.nodes for step in node.steps]
    assert sorted(steps) == sorted(bench.session.derived.order)


def test_the_assembly_graph_counts_the_fasteners_between_two_parts(bench):
    edges = {(e.tail, e.head): e for e in bench.session.assembly_graph().edges}
    row = edges["petal_left", "petal_middle"]
    assert row.label == "7 rivets"
    assert len(row.joints) == 7


def test_why_names_the_nearest_reason_first(bench):
    bench.do_until(StepKind.DRY_FIT)
    (first, *_) = bench.ids(StepKind.RIVET)
    why = bench.session.why(first)
    assert why.state is BenchState.WAITING
    nearest = next(line for line in why.needs if line.force.binds)
    assert nearest.rule == "dry-fit-before-permanent"
    assert not nearest.met
    assert any(line.met for line in why.needs)
    (fit,) = bench.ids(StepKind.FIT)
    assert fit in {line.other for line in why.holds_up}


def test_why_tells_what_the_boss_hides(bench):
    step = bench.session.choose_joint("tab_top").steps[0]
    hidden = [line for line in bench.session.why(step).holds_up if "hidden" in line.rule]
    assert hidden
    assert "Boss lies on the head of 'Rivet middle petal and lace tab" in hidden[0].text


def test_the_chart_has_a_bar_for_every_step_and_closes_at_night(bench):
    bench.plan()
    chart = bench.session.chart()
    assert {bar.step for bar in chart.bars} == set(bench.session.derived.order)
    assert all(bar.lane in chart.lanes for bar in chart.bars)
    assert any(start.hour >= 17 or end.hour <= 9 for start, end in chart.closed)


def test_a_stale_plan_is_not_shown(bench):
    problem = bench.session.problem()
    answer = CheckedPlan(problem=problem, plan=first_plan(problem))
    bench.session.done(bench.ids(StepKind.MEASURE))
    assert answer.holds
    assert not bench.session.take_plan(answer)
    bench.plan()
    assert bench.session.plan_face().sentence


def test_a_plan_with_a_fault_is_not_shown(bench):
    problem = bench.session.problem()
    plan = first_plan(problem)
    answer = CheckedPlan(problem=problem, plan=replace(plan, placed=plan.placed[1:]))
    assert not answer.holds
    assert not bench.session.take_plan(answer)
    assert not bench.session.plan_face().sentence


def test_the_plan_shown_last_is_there_after_a_restart(bench):
    bench.plan()
    assert bench.reopened().chart().bars == bench.session.chart().bars


def test_rows_are_made_once_for_a_moment_and_anew_for_the_next(bench):
    session = bench.session
    first = {grouping: session.checklist(grouping) for grouping in Grouping}
    assert all(session.checklist(grouping) is rows for grouping, rows in first.items())
    session.start(session.ready_steps()[:1])
    for grouping, rows in first.items():
        now = session.checklist(grouping)
        assert now is not rows
        assert any(row.timer for row in now)


def test_rows_that_are_kept_say_what_new_ones_would(bench):
    session = bench.session
    bench.plan()
    for step in session.derived.order[:12]:
        before = {row.id: row for row in session.checklist(Grouping.PIECE)}
        session.start((step,))
        session.done((step,))
        for grouping in Grouping:
            timers = {row.step: row for row in session.timers() if not row.build}
            fresh = rows_at(session.moment(), timers, grouping, KeptRows())
            assert session.checklist(grouping) == fresh
        same = [row for row in session.checklist(Grouping.PIECE) if before.get(row.id) is row]
        assert len(same) > len(before) / 2
