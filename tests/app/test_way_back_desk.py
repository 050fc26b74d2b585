"""A way back at the bench: chosen, followed tick by tick, in checklist and plan, taken back."""

import pytest
from app.conftest import SHOP
from app.way_scene import do, drill, finish, rows, step_of, tick, way, work_through, work_until

from armorplan.app.rows import BenchState, Grouping
from armorplan.app.standing_builds import standing_builds
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.relations.checking import breaks
from armorplan.relations.weighing import binding
from armorplan.steps.model import StepKind

DRILLED = ("left_row_6", "left_row_7")


@pytest.fixture
def closed(bench):
    """The elbow cop with its left side closed and the buckle strap's outer rivet forgotten."""
    forgotten, order = step_of(bench, "buckle_outer"), bench.session.derived.order
    before = order[: order.index(bench.ids(StepKind.FIT)[0])]
    work_through(bench, [step for step in before if step != forgotten])
    return bench


def drilled_way(bench):
    return way(
        *(drill(bench, subject) for subject in DRILLED),
        do(bench, "buckle_outer", leaves="The lining shows the strap's rivet."),
        *(do(bench, subject) for subject in DRILLED),
    )


def test_a_way_back_is_among_the_steps_of_checklist_plan_and_chart(closed):
    bench, session = closed, closed.session
    strap = step_of(bench, "buckle_outer")
    again = tuple(step_of(bench, subject) for subject in DRILLED)
    total = len(session.derived.work.steps)

    assert session.way_back.choose(drilled_way(bench)) == "On the way back: Drill out two rivets."
    (chosen,) = session.way_back.chosen()
    first, second = (step for step in chosen.steps if "/mend/" in step)
    assert chosen.steps == (first, second, strap, *again)
    assert len(session.derived.work.steps) == total + 2
    found = rows(bench)
    assert session.ready_steps()[0] == first
    assert [found[s].state for s in (second, strap, *again)] == [BenchState.WAITING] * 4
    assert found[strap].waits_for == found[second].title
    places = list(found)
    assert places.index(first) < places.index(second) < places.index(strap)
    assert "eye protection" in found[first].cautions[0]
    assert any("This way back was chosen" in line.text for line in session.why(strap).needs)

    bench.plan()
    spans = session.week().shown.spans()
    starts = [spans[step][0] for step in (first, second, strap, *again)]
    assert starts == sorted(starts)
    assert min(starts) > bench.clock.now()
    assert {bar.step for bar in session.chart().bars} >= {first, strap, *again}


def test_a_way_back_is_followed_to_the_end_and_undone_to_the_start(closed):
    bench, session = closed, closed.session
    before = rows(bench)
    strap = step_of(bench, "buckle_outer")
    again = tuple(step_of(bench, subject) for subject in DRILLED)
    session.way_back.choose(drilled_way(bench))
    first, second = session.way_back.chosen()[0].steps[:2]

    said = session.done((first,))
    assert said.startswith("Done: Drill out: Rivet left row, 6 of 7. To do again now: Rivet left")
    assert rows(bench)[again[0]].state is BenchState.WAITING
    assert session.moment().ledger.record(again[0]).done_at is None
    tick(bench, second)
    assert session.ready_steps()[0] == strap
    tick(bench, strap)
    assert session.way_back.chosen()[0].steps == again
    assert {*finish(bench)} >= {*again}
    assert session.way_back.chosen() == ()
    assert session.plan_face().sentence == f"All {len(before) + 2} steps are done."
    assert {row.state for row in rows(bench).values()} == {BenchState.DONE}

    while session.can_undo() != "way back: Drill out two rivets":
        session.undo()
    session.undo()
    assert rows(bench) == before


def test_undo_of_a_drilled_rivet_puts_it_back(closed):
    session = closed.session
    session.way_back.choose(drilled_way(closed))
    first = session.way_back.chosen()[0].steps[0]
    before = rows(closed)
    session.done((first,))
    assert session.can_undo() == "done of Drill out: Rivet left row, 6 of 7"
    session.undo()
    assert rows(closed) == before
    session.redo()
    assert session.way_back.chosen()[0].steps[0] != first


def test_a_step_done_another_way_goes_by_its_words_and_in_spite_of_is_told(bench):
    """The lace tab's rivets lie under the boss: set from within, the reason is set aside."""
    session = bench.session
    tab = step_of(bench, "tab_top")
    boss = [step_of(bench, name) for name in ("boss_left", "boss_right")]
    order = session.derived.order
    before = order[: order.index(step_of(bench, "right_row_1"))]
    work_through(bench, [step for step in before if step != tab])
    assert [stuck.step for stuck in session.way_back.stuck()] == [tab]
    assert "no setter reaches that head" in session.way_back.stuck()[0].why
    told = session.way_back.stuck()[0].why
    session.way_back.choose(
        way(
            do(
                bench, "tab_top", means="another tool", title="Set it with the long stake",
                minutes=9, tool="long stake", in_spite_of=(told,),
            ),
            means="another tool",
        )
    )  # fmt: skip
    row = rows(bench)[tab]
    assert (row.title, row.minutes, row.state) == (
        "Set it with the long stake", 9, BenchState.READY,
    )  # fmt: skip
    assert f"in spite of this: {told}" in row.detail
    assert session.way_back.stuck() == ()
    tick(bench, tab)
    assert rows(bench)[tab].state is BenchState.DONE
    line = next(line for line in session.why(boss[1]).needs if line.other == tab)
    assert line.overruled
    assert "Set aside by the way back chosen" in line.text


def test_lived_with_a_step_is_left_out_and_comes_back_with_undo(closed):
    session, strap = closed.session, step_of(closed, "buckle_outer")
    total = len(session.derived.work.steps)
    session.way_back.choose(
        way(
            do(closed, "buckle_outer", means="live with it", left_out=True),
            means="live with it",
        )
    )
    assert not session.derived.work.has(strap)
    assert strap not in rows(closed)
    assert session.diagram().joints
    finish(closed)
    assert session.plan_face().sentence == f"All {total - 1} steps are done."
    while session.can_undo() != "way back: Drill out two rivets":
        session.undo()
    session.undo()
    assert rows(closed)[strap].state is BenchState.READY


def test_a_way_back_given_up_leaves_what_was_done_of_it(closed):
    session = closed.session
    session.way_back.choose(drilled_way(closed))
    (chosen,) = session.way_back.chosen()
    first, second = chosen.steps[:2]
    tick(closed, first)
    said = session.way_back.forget(chosen.id)
    assert said == "Given up: Drill out two rivets. What was done of it stands."
    assert session.way_back.chosen() == ()
    found = rows(closed)
    assert found[first].state is BenchState.DONE
    assert second not in found
    assert found[step_of(closed, DRILLED[0])].state is BenchState.READY
    assert found[step_of(closed, DRILLED[1])].state is BenchState.DONE
    assert session.way_back.forget(chosen.id) == "That way back is not followed any more."


def test_another_window_and_the_next_start_see_the_same(closed):
    other = closed.reopened()
    closed.session.way_back.choose(drilled_way(closed))
    assert other.read_along()
    assert other.way_back.chosen() == closed.session.way_back.chosen()
    first = closed.session.way_back.chosen()[0].steps[0]
    closed.session.done((first,))
    assert other.done((first,)) == "That was done already."
    assert other.checklist(Grouping.PIECE) == closed.session.checklist(Grouping.PIECE)
    again = closed.reopened()
    assert again.checklist(Grouping.PIECE) == closed.session.checklist(Grouping.PIECE)


def test_what_stands_unticked_is_ticked_as_it_is_told(bench):
    work_until(bench, StepKind.RIVET)
    rows_of = tuple(s for s in bench.ids(StepKind.RIVET) if "left_row" in s)
    mistake = Mistake(kind=MistakeKind.CLOSED, about=("left_row",))
    said = bench.session.way_back.tell(mistake)
    assert said == "Noted: closed too soon. 7 steps ticked with it."
    assert {rows(bench)[step].state for step in rows_of} == {BenchState.DONE}
    assert bench.session.way_back.mistakes() == (mistake,)
    bench.session.way_back.choose(drilled_way(bench))
    assert bench.session.way_back.mistakes() == ()
    bench.session.undo()
    assert bench.session.way_back.mistakes() == (mistake,)
    bench.session.undo()
    assert bench.session.way_back.mistakes() == ()


def test_kinds_of_mistakes_are_those_that_can_have_happened(bench):
    desk = bench.session.way_back
    assert desk.mistake_kinds() == tuple(MistakeKind)
    # Turned over, a petal is the same, and so is what hides the tab's rivets.
    assert {*desk.mistake_kinds(parts=("petal_left",))} == {*MistakeKind} - {MistakeKind.TWO_ALIKE}
    assert MistakeKind.TWO_ALIKE not in desk.mistake_kinds(parts=("boss",))
    (pack,) = bench.ids(StepKind.PACK)
    assert MistakeKind.CLOSED in desk.mistake_kinds((pack,))


def test_a_press_is_taken_back_from_under_later_ones_and_what_stands_on_it_is_told(bench):
    work_until(bench, StepKind.CUT)
    cut, *_ = bench.ids(StepKind.CUT)
    bevel = next(s for s in bench.ids(StepKind.BEVEL) if s.endswith(cut.rpartition("/")[2]))
    tick(bench, cut, bevel)
    said = bench.session.undo_step(cut)
    assert said.startswith("Taken back: done of Cut")
    assert said.endswith("Done after it, and standing: Bevel the edges of left petal.")
    assert rows(bench)[cut].state is BenchState.READY
    assert rows(bench)[bevel].state is BenchState.EARLY
    assert bench.session.undo_step("nothing") == "There is nothing to take back there."


def test_a_waived_fit_opens_the_rivets_and_shows_its_reason(bench):
    work_until(bench, StepKind.DRY_FIT)
    (fit,) = bench.ids(StepKind.DRY_FIT)
    assert "reason is kept" in bench.session.waive((fit,), " ")
    said = bench.session.waive((fit,), "Worn by the watch in spring.")
    assert said == "Waived: Dry-fit Elbow cop with pins. It counts as signed off."
    assert rows(bench)[fit].state is BenchState.DONE
    assert "Waived: Worn by the watch in spring." in bench.session.why(fit).detail
    assert bench.session.can_undo() == "waiver of Dry-fit Elbow cop with pins"
    (cut, *_) = bench.ids(StepKind.CUT)
    assert "nothing else can be waived" in bench.session.waive((cut,), "why not")


def test_a_step_of_a_way_back_is_timed_and_its_way_may_be_undone_under_it(closed):
    session = closed.session
    before = rows(closed)
    session.way_back.choose(drilled_way(closed))
    first = session.way_back.chosen()[0].steps[0]
    session.start((first,))
    closed.clock.advance(120)
    (timer,) = (row for row in session.timers() if row.step == first)
    assert (timer.title, timer.planned_min) == ("Drill out: Rivet left row, 6 of 7", 6)
    way_id = session.moment().derived.mending.ways[0].id
    assert session.undo_step(way_id).startswith("Taken back: way back: Drill out two rivets.")
    assert first not in [row.step for row in session.timers()]
    assert rows(closed) == before
    session.redo()
    assert rows(closed)[first].state is BenchState.RUNNING


def test_a_build_beside_is_planned_with_its_way_back(closed):
    """The plan of all builds in hand has the steps of a way back, whichever build is open."""
    session = closed.session
    session.way_back.choose(drilled_way(closed))
    session.set_order(session.build_id, None, None)
    steps = session.way_back.chosen()[0].steps
    planned, _ = standing_builds(closed.workshop, SHOP, closed.clock, origin_at=closed.clock.now())
    (beside,) = planned
    assert {*steps} <= {step.id for step in beside.in_hand.work.steps}
    assert not {*steps} & beside.in_hand.history.done.keys()


def test_a_hole_is_mended_before_what_goes_through_it(bench):
    work_until(bench, StepKind.RIVET)
    session, rivet = bench.session, step_of(bench, "left_row_2")
    hole = next(h for h in session.diagram().holes if h.joint == "left_row_2")
    about = (f"{hole.part}/{hole.id}",)
    session.way_back.tell(Mistake(kind=MistakeKind.WRONG_HOLE, about=about, mm=2.5))
    found = session.way_back.asking()()
    plugged = next(way for way in found.ways if way.means == "a hole plugged")
    session.way_back.choose(plugged)
    plug, wait = session.way_back.chosen()[0].steps
    bench.plan()
    spans = session.week().shown.spans()
    assert spans[plug][1] <= spans[wait][0] < spans[wait][1] <= spans[rivet][0]
    tick(bench, plug)
    assert rows(bench)[wait].state is BenchState.DRYING
    bench.clock.advance(60 * session.derived.work.step(wait).minutes)
    session.read_along()
    assert session.way_back.chosen() == ()
    session.done((rivet,))
    assert rows(bench)[rivet].state is BenchState.DONE


def test_a_way_back_that_turns_the_order_round_gets_an_order_that_holds(closed):
    """Its first step stands late in the build's own order, its last one early."""
    session = closed.session
    session.undo_step(step_of(closed, "left_row_7"))
    session.way_back.choose(
        way(do(closed, "left_row_7"), drill(closed, "boss_left"), do(closed, "boss_left"))
    )
    row, opened, boss = session.way_back.chosen()[0].steps
    place = session.derived.place
    assert place[row] < place[opened] < place[boss]
    assert not breaks(session.derived.order, binding(session.derived.relations))
