"""Ways back where more than one thing went wrong, or all was done already; mistakes looked up first."""

import pytest
from app.conftest import SHOP, Bench, ids
from app.way_scene import do, drill, follow, rows, step_of, tick, way, work_through
from clocks import FakeClock

from armorplan.app.opening import open_build
from armorplan.app.rows import BenchState
from armorplan.app.session import Session
from armorplan.app.way_back_rows import WayBackMove
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.ledger import acting
from armorplan.ledger.events import EventKind
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind, mistake_text
from armorplan.orders.recovery.model import Means
from armorplan.steps.model import StepKind


@pytest.fixture
def packed(bench):
    """The elbow cop with all its steps done."""
    work_through(bench, bench.session.derived.order)
    return bench


def spoil(bench, *parts):
    for part in parts:
        bench.session.way_back.tell(Mistake(kind=MistakeKind.SPOILT, about=(part,), mm=9.0))


def choose(bench, means, title=""):
    found = bench.session.way_back.asking()()
    best = next(w for w in found.ways if w.means == means and title in w.title)
    bench.session.way_back.choose(best)
    return bench.session.way_back.chosen()[-1]


def titles(bench, steps):
    work = bench.session.derived.work
    return [work.step(step).title for step in steps]


def assert_each_new_part_is_tried_before_it_is_fixed(bench, ticked):
    """Between the last cut of a part and the first joint that holds it for good stands its trial."""
    session, found = bench.session, 0
    work, part_of = session.derived.work, session.derived.mending.part
    for trial, part in part_of.items():
        cuts = [at for at, s in enumerate(ticked) if s.endswith(f"/cut/{part}")]
        joints = session.derived.assembly.joints_of(part)
        fixing = {work.setting(j.id).id for j in joints if j.joint.kind.is_permanent}
        fixed = [at for at, step in enumerate(ticked) if step in fixing]
        if cuts:
            found += 1
            after = [at for at in fixed if at > max(cuts)]
            assert max(cuts) < ticked.index(trial) < min(after)
    assert found


def test_two_mistakes_on_neighbours_set_no_rivet_twice_and_try_both_parts(packed):
    spoil(packed, "petal_left", "petal_middle")
    choose(packed, Means.REMAKE, "middle petal anew")
    ticked = follow(packed)
    names = titles(packed, ticked)
    assert len(names) == len(set(names))
    assert_each_new_part_is_tried_before_it_is_fixed(packed, ticked)


def test_the_trial_comes_after_the_part_was_last_cut_anew(packed):
    """A way back that fixes the part on the way and cuts it anew later, as older entries tell it."""
    cut = step_of(packed, "petal_right", StepKind.CUT)
    remake = WayBackMove(
        id="remake", opens=True, title="Cut it anew", means=Means.REMAKE, clears=(cut,), minutes=9
    )
    again = do(packed, "petal_right", StepKind.CUT)
    fixed = (drill(packed, "right_row_7"), do(packed, "right_row_7"))
    packed.session.way_back.choose(way(*fixed, remake, again))
    (chosen,) = packed.session.way_back.chosen()
    (trial,) = packed.session.derived.mending.part
    assert chosen.steps.index(trial) > chosen.steps.index(cut)


def test_where_the_fit_itself_comes_too_late_the_new_part_is_tried_all_the_same(bench):
    (fit,) = bench.ids(StepKind.DRY_FIT)
    work_through(bench, [step for step in bench.session.derived.order if step != fit])
    spoil(bench, "petal_right")
    choose(bench, Means.REMAKE)
    assert_each_new_part_is_tried_before_it_is_fixed(bench, follow(bench))


def test_a_second_mistake_on_a_way_back_repeats_nothing_of_the_first(packed):
    spoil(packed, "petal_left")
    first = choose(packed, Means.REMAKE)
    tick(packed, *first.steps[:9])
    spoil(packed, "petal_middle")
    second = choose(packed, Means.REMAKE)
    names = titles(packed, second.steps)
    assert not [t for t in names if t.endswith("alone") and ("rill" in t or "once more" in t)]
    assert_each_new_part_is_tried_before_it_is_fixed(packed, follow(packed))


def test_what_was_closed_already_and_a_way_opens_is_not_opened_twice(packed):
    """It stands till the way is there; told so, it asks for no drilling of its own."""
    spoil(packed, "petal_left")
    choose(packed, Means.REMAKE)
    rivet = step_of(packed, "left_row_7")
    packed.session.way_back.tell(Mistake(kind=MistakeKind.CLOSED, about=(rivet,)))
    spoil(packed, "petal_right")
    chosen = choose(packed, Means.REMAKE)
    mending = packed.session.derived.mending
    assert all(rivet not in mending.opens.get(step, ()) for step in chosen.steps)


def test_what_is_done_a_third_time_says_so_once(packed):
    for _ in range(2):
        spoil(packed, "petal_left")
        work_through(packed, choose(packed, Means.REMAKE).steps)
    spoil(packed, "petal_left")
    found = packed.session.way_back.asking()()
    said = [move.title for one in found.ways for move in one.moves]
    assert any(title.endswith(" again") for title in said)
    assert not [title for title in said if title.count(" again") > 1]


def test_what_is_only_done_once_more_is_no_press_before_the_drill(packed):
    spoil(packed, "petal_left")
    first, *others = choose(packed, Means.REMAKE).steps
    assert "once more" not in " ".join(titles(packed, (first, *others)))
    assert titles(packed, (first,))[0].startswith("Drill out")
    (pack,) = packed.ids(StepKind.PACK)
    assert rows(packed)[pack].state is BenchState.WAITING
    tick(packed, first)
    assert packed.session.moment().ledger.record(pack).done_at is None
    packed.session.undo()
    assert packed.session.moment().ledger.record(pack).done_at is not None


def test_what_is_done_once_more_after_a_late_drying_is_opened_by_the_next_step_by_hand(packed):
    """A drying that is over is never ticked by itself: nothing would open the packing."""
    session, rivet = packed.session, step_of(packed, "left_row_7")
    (pack,), work = packed.ids(StepKind.PACK), session.derived.work
    dye = packed.ids(StepKind.DYE)[0]
    drying = work.following(dye)[0]
    session.undo_step(rivet)
    opens = WayBackMove(id="pack", opens=True, title="To be done once more", clears=(pack,))
    late = WayBackMove(id="dry", opens=False, title="Late", step=drying.id)
    again = do(packed, pack.rpartition("/")[2], StepKind.PACK)
    session.way_back.choose(way(opens, late, do(packed, "left_row_7"), again))
    opening = session.derived.mending.opens
    assert opening == {rivet: (pack,)}
    assert follow(packed) == [rivet, pack]


def test_a_wait_at_the_end_is_ticked_once_its_time_is_up(packed):
    spoil(packed, "petal_left")
    hide, wait = choose(packed, Means.HIDE).steps
    tick(packed, hide)
    assert packed.session.ready_steps() == ()
    assert not packed.session.moment().is_done
    packed.clock.advance(60 * packed.session.derived.work.step(wait).minutes)
    packed.session.read_along()
    assert packed.session.ready_steps() == (wait,)
    packed.session.done((wait,))
    assert packed.session.moment().is_done


def test_of_a_way_back_given_up_each_move_done_stands_whichever_it_was(packed):
    spoil(packed, "petal_left")
    chosen = choose(packed, Means.REMAKE)
    second = chosen.steps[1]
    tick(packed, second)
    packed.session.way_back.forget(chosen.id)
    assert rows(packed)[second].state is BenchState.DONE


def test_a_way_back_that_a_later_one_may_rest_on_is_not_given_up(packed):
    spoil(packed, "petal_left")
    first = choose(packed, Means.REMAKE)
    spoil(packed, "petal_middle")
    second = choose(packed, Means.REMAKE)
    desk = packed.session.way_back
    assert desk.forget(first.id).startswith(f"Not given up: '{second.title}' was chosen later")
    assert first.id in {one.id for one in desk.chosen()}
    assert desk.forget(second.id).startswith("Given up")
    assert desk.forget(first.id).startswith("Given up")


def test_a_mistake_that_cannot_be_looked_up_is_not_kept(bench):
    session = bench.session
    said = session.way_back.tell(Mistake(kind=MistakeKind.ROW_OFF, about=("petal_left",)))
    assert said.startswith("Not kept: 'petal_left' is a part, not a row.")
    assert session.way_back.mistakes() == ()
    assert not session.can_undo()


def test_one_kept_before_is_passed_over_told_and_not_settled(bench):
    """A pattern changed on the disk has no such hole any more."""
    session = bench.session
    gone = Mistake(kind=MistakeKind.WRONG_HOLE, about=("petal_left/gone",))
    about = bench.ids(StepKind.CUT)[0]
    press = session.press()
    session.keep(acting.tell(EventKind.MISTAKE, about, mistake_text(gone), press), "")
    spoil(bench, "petal_left")
    found = session.way_back.asking()()
    assert "Passed over, a wrong hole: " in found.told
    assert "no hole 'gone'" in found.told
    session.way_back.choose(found.ways[0])
    assert session.way_back.mistakes() == (gone,)


@pytest.fixture(scope="module")
def _lames(tmp_path_factory):
    from armorplan.store.workshop_file import WorkshopFile

    path = tmp_path_factory.mktemp("lames") / "workshop.sqlite"
    clock = FakeClock()
    workshop = WorkshopFile.open(path, clock)
    folder = samples_folder() / "three_lames"
    opened = open_build(folder, workshop, read_shelf(), SHOP, clock=clock)
    session = Session(opened.build, opened.derived, workshop, clock, ids())
    yield Bench(path=path, clock=clock, workshop=workshop, session=session)
    workshop.close()


@pytest.fixture
def lames(_lames):
    """Three lames just begun; what a test does is taken back after it."""
    yield _lames
    while _lames.session.can_undo():
        _lames.session.undo()


@pytest.mark.parametrize("kind", [StepKind.GLUE, StepKind.FORM, StepKind.DYE])
def test_what_is_closed_already_starts_its_drying(lames, kind):
    session, wet = lames.session, lames.ids(kind)[0]
    drying = [step.id for step in session.derived.work.following(wet)]
    session.way_back.tell(Mistake(kind=MistakeKind.CLOSED, about=(wet,)))
    states = session.moment().states
    assert drying
    assert {states.of(step) for step in drying} == {BenchState.DRYING}
    assert {*drying} <= {timer.step for timer in session.timers()}
    session.undo()
    assert not session.moment().timers


def test_a_fit_that_is_told_as_done_is_signed_off(lames):
    session, fit = lames.session, lames.ids(StepKind.DRY_FIT)[0]
    session.way_back.tell(Mistake(kind=MistakeKind.CLOSED, about=(fit,)))
    assert session.moment().ledger.record(fit).signed_off


def test_going_on_by_what_is_closed_already_ticks_what_had_dried(lames):
    session, wet = lames.session, lames.ids(StepKind.GLUE)[0]
    work, index = session.derived.work, session.derived.index
    (drying, *_) = work.following(wet)
    session.done((wet,))
    lames.clock.advance(60 * drying.minutes)
    relation = index.relations[index.by_first[index.number[drying.id]][0]]
    (then, *_) = {relation.then} if hasattr(relation, "then") else relation.of
    session.way_back.tell(Mistake(kind=MistakeKind.CLOSED, about=(then,)))
    assert session.moment().ledger.record(drying.id).done_at is not None


def test_of_a_glued_joint_no_wrong_hole_and_no_row_is_offered(lames):
    (glue, *_) = lames.ids(StepKind.GLUE)
    offered = lames.session.way_back.mistake_kinds((glue,))
    assert MistakeKind.CLOSED in offered
    assert not {MistakeKind.WRONG_HOLE, MistakeKind.ROW_OFF} & set(offered)
    rivet = lames.ids(StepKind.RIVET)[0]
    assert MistakeKind.WRONG_HOLE in lames.session.way_back.mistake_kinds((rivet,))
    assert step_of(lames, rivet.rpartition("/")[2]) == rivet
