"""A changed part is tried again with its neighbours before it is fixed, and only that part."""

import pytest
from app.carrying_scene import finding_of, of_kind, opened, rewrite, seated
from app.way_scene import finish, rows, step_of, work_through
from folders_cli import copy_sample

from armorplan.app.rows import BenchState, Grouping
from armorplan.app.session import Session
from armorplan.ledger.state import derive
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.orders.recovery.model import Means
from armorplan.steps.model import StepKind
from armorplan.store.workshop_file import WorkshopFile


@pytest.fixture
def spoilt(bench):
    """The elbow cop with its left row begun, and its left petal spoilt."""
    order = bench.session.derived.order
    work_through(bench, order[: order.index(step_of(bench, "left_row_3"))])
    bench.session.way_back.tell(Mistake(kind=MistakeKind.SPOILT, about=("petal_left",)))
    return bench


def choose(bench, means):
    found = bench.session.way_back.asking()()
    way = next(way for way in found.ways if way.means == means)
    bench.session.way_back.choose(way)
    return bench.session.way_back.chosen()[0]


def test_a_part_made_anew_is_dry_fitted_again_before_it_is_riveted(spoilt):
    session, work = spoilt.session, spoilt.session.derived.work
    chosen = choose(spoilt, Means.REMAKE)
    work = session.derived.work
    (refit,) = (s for s in chosen.steps if work.step(s).kind is StepKind.DRY_FIT)
    assert work.step(refit).title == "Dry-fit left petal again with its neighbours"
    row = [s for s in spoilt.ids(StepKind.RIVET) if "/left_row_" in s]
    # Not even those of the row that never stood are offered before; the right row stands.
    assert {rows(spoilt)[step].state for step in row} == {BenchState.WAITING}
    assert rows(spoilt)[step_of(spoilt, "right_row_1")].state is BenchState.DONE
    ticked = finish(spoilt)
    assert ticked.index(refit) < min(ticked.index(step) for step in row)
    assert session.moment().ledger.record(refit).signed_off
    cut = next(s for s in ticked if s.endswith("/cut/petal_left"))
    dried = [s for s in chosen.steps if not work.step(s).attended]
    assert ticked.index(cut) < ticked.index(refit)
    assert {rows(spoilt)[s].state for s in dried} == {BenchState.DONE}
    assert session.moment().is_done
    ends = {step: session.moment().spans[step][1] for step in (*dried, refit)}
    assert max(ends[step] for step in dried) <= ends[refit]


def test_fixing_a_changed_part_before_its_trial_is_told_and_undone_to_the_start(spoilt):
    session = spoilt.session
    before = rows(spoilt)
    choose(spoilt, Means.REMAKE)
    free = next(s for s in spoilt.ids(StepKind.RIVET) if s.endswith("/left_row_3"))
    assert "is another than was tried before" in session.done((free,))
    assert rows(spoilt)[free].state is BenchState.EARLY
    session.undo()
    session.undo()
    assert rows(spoilt) == before


def test_after_every_entry_the_build_can_be_read(spoilt):
    """A machine that stops between any two entries leaves what the next start shows."""
    chosen = choose(spoilt, Means.REMAKE)
    for step in chosen.steps[:9]:
        spoilt.session.done((step,))
    spoilt.session.way_back.forget(chosen.id)
    spoilt.session.undo()
    spoilt.session.undo_step(chosen.steps[3])
    spoilt.session.done((chosen.steps[3],))
    events = spoilt.session.entries()
    session, ledger = spoilt.session, _Beginning(spoilt.workshop, events)
    for end in range(len(events) - 28, len(events) + 1, 2):
        ledger.end = end
        again = Session(session.build, session._bare, ledger, spoilt.clock, spoilt.new_id)
        found = again.checklist(Grouping.PIECE)
        assert len(found) > len(again.derived.work.steps)
        done = set(derive(events[:end]).done_order)
        assert {row.id for row in found if row.done_count and row.id in done} <= done
    assert again.checklist(Grouping.PIECE) == session.checklist(Grouping.PIECE)


class _Beginning:
    """A workshop file that holds the first entries of a build."""

    def __init__(self, workshop: WorkshopFile, events) -> None:
        self._workshop, self._events, self.end = workshop, events, len(events)

    def __getattr__(self, name):
        return getattr(self._workshop, name)

    def events(self, _build):
        return self._events[: self.end]


@pytest.fixture
def folder(tmp_path):
    return copy_sample(tmp_path)


def test_a_part_the_pattern_changes_after_its_fit_closes_what_fixes_it(folder, workshop, clock):
    first = opened(folder, workshop, clock)
    session = seated(first, workshop, clock)
    rivets = of_kind(first, StepKind.RIVET)
    order = first.derived.order
    session.done(tuple(step for step in order[: order.index(rivets[0])]))
    assert session.way_back.chosen() == ()
    rewrite(folder, 'cx="106.426"', 'cx="106.9"', name="elbow_cop.svg")
    second = opened(folder, workshop, clock)
    told = finding_of(second, "pattern-changed").text
    (name,) = second.difference.refits
    assert f"to be dry-fitted again before they are fixed: {name}" in told
    changed = seated(second, workshop, clock)
    (chosen,) = changed.way_back.chosen()
    (refit,) = chosen.steps
    assert changed.ready_steps()[0] == refit
    part = changed.derived.mending.part[refit]
    work, touching = changed.derived.work, changed.derived.assembly.joints_of(part)
    held = {work.setting(joint.id).id for joint in touching}
    ready = set(changed.ready_steps())
    assert held
    assert not held & ready
    assert ready - {refit}
    changed.done((refit,))
    assert changed.way_back.chosen() == ()
    assert held & set(changed.ready_steps())


@pytest.mark.parametrize("means", [Means.REMAKE, Means.HIDE])
def test_every_page_knows_the_steps_of_a_way_back(spoilt, means):
    session = spoilt.session
    chosen = choose(spoilt, means)
    assert {*chosen.steps} <= {s for node in session.step_graph().nodes for s in node.steps}
    for step in chosen.steps:
        why = session.why(step)
        assert why.title == session.derived.work.step(step).title
        assert session.choose_steps((step,)).parts
    track = session.tracing_reach()()
    assert {stop.step for stop in track.stops}.isdisjoint(session.derived.mending.opens)
    assert session.needs_csv()
    assert session.assembly_graph().nodes
    assert session.bench_card(chosen.steps[0]).step == chosen.steps[0]
    assert session.dryings() is not None
