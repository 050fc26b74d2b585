"""A changed pattern makes a new build that takes over what still holds; the former one stays."""

import pytest
from app.carrying_scene import SHOP, finding_of, of_kind, opened, rewrite, seated, state_of
from folders_cli import copy_sample

from armorplan.app.carrying import carried
from armorplan.app.opening import build_named, resume_build
from armorplan.app.same_work import tail
from armorplan.kernel.errors import WorkshopError
from armorplan.kernel.findings import Severity
from armorplan.ledger.records import StepStatus
from armorplan.steps.model import StepKind


@pytest.fixture
def folder(tmp_path):
    return copy_sample(tmp_path)


def test_ticks_and_timers_go_on_and_what_differs_is_told(folder, workshop, clock):
    first = opened(folder, workshop, clock)
    session = seated(first, workshop, clock)
    cuts = of_kind(first, StepKind.CUT)
    session.done(tuple(cuts[:-1]))
    session.start((cuts[-1],))
    clock.advance(90)
    rewrite(folder, "coats = 2", "coats = 3")
    second = opened(folder, workshop, clock)
    state = state_of(second, workshop)
    assert [record.status for record in state.records].count(StepStatus.DONE) == len(cuts) - 1
    clock.advance(60)
    timers = {row.step: row for row in seated(second, workshop, clock).timers()}
    running = f"{second.build.id}/{tail(cuts[-1])}"
    assert timers[running].elapsed_s == 150
    told = second.difference
    assert told is not None
    assert (len(told.ticked), len(told.running)) == (len(cuts) - 1, 1)
    assert len(told.new) == 2
    assert told.gone == told.left == ()
    assert told.added
    finding = finding_of(second, "pattern-changed")
    assert finding.severity is Severity.NOTE
    assert f"{len(cuts) - 1} ticks carried over, 1 under way" in finding.text
    assert "new steps:" in finding.text


def test_the_former_build_stays_as_it_was(folder, workshop, clock):
    first = opened(folder, workshop, clock)
    seated(first, workshop, clock).done(tuple(of_kind(first, StepKind.CUT)))
    before = workshop.events(first.build.id)
    rewrite(folder, 'name = "left petal"', 'name = "port petal"')
    opened(folder, workshop, clock)
    again = resume_build(build_named(workshop.builds(), first.build.id), SHOP)
    assert workshop.events(first.build.id) == before
    assert again.derived.order == first.derived.order
    assert again.derived.pattern.parts[0].name == "left petal"


def test_undo_goes_back_into_what_was_carried_over(folder, workshop, clock):
    first = opened(folder, workshop, clock)
    session = seated(first, workshop, clock)
    cut, other = of_kind(first, StepKind.CUT)[:2]
    session.done((cut,))
    session.done((other,))
    session.undo()
    rewrite(folder, "coats = 2", "coats = 3")
    second = opened(folder, workshop, clock)
    here = seated(second, workshop, clock)
    assert len(state_of(second, workshop).done_order) == 1
    here.redo()
    assert len(state_of(second, workshop).done_order) == 2
    here.undo()
    here.undo()
    assert state_of(second, workshop).done_order == ()


def test_a_tick_whose_work_is_gone_or_another_stays_and_is_told(folder, workshop, clock):
    first = opened(folder, workshop, clock)
    session = seated(first, workshop, clock)
    dyes = of_kind(first, StepKind.DYE)
    session.done(tuple(dyes))
    rewrite(folder, 'colour = "', 'colour = "other ')
    second = opened(folder, workshop, clock)
    told = second.difference
    assert told is not None
    assert told.ticked == ()
    assert len(told.left) >= len(dyes)
    finding = finding_of(second, "pattern-changed")
    assert "they stay in the former build" in finding.text
    assert finding.severity is Severity.WARNING


def test_other_minutes_and_dropped_reasons_are_told(folder, workshop, clock):
    first = opened(folder, workshop, clock)
    rewrite(folder, 'tooling = "lantern border"\n', "")
    second = opened(folder, workshop, clock)
    told = second.difference
    assert told is not None
    assert any("ool" in title for title in told.gone)
    assert told.dropped
    assert told.left == ()
    finding = finding_of(second, "pattern-changed")
    assert finding.severity is Severity.NOTE
    assert "Nothing is ticked in it" in finding.text
    assert f"--build {first.build.id}" in finding.remedy


def test_an_edit_taken_back_finds_the_work_done_meanwhile(folder, workshop, clock):
    first = opened(folder, workshop, clock)
    seated(first, workshop, clock).done((of_kind(first, StepKind.CUT)[0],))
    rewrite(folder, "coats = 2", "coats = 3")
    second = opened(folder, workshop, clock)
    rewrite(folder, "coats = 3", "coats = 2")
    assert opened(folder, workshop, clock).build.id == first.build.id
    rewrite(folder, "coats = 2", "coats = 3")
    assert opened(folder, workshop, clock).build.id == second.build.id
    clock.advance(60)
    seated(second, workshop, clock).done((of_kind(second, StepKind.CUT)[1],))
    rewrite(folder, "coats = 3", "coats = 2")
    third = opened(folder, workshop, clock)
    assert third.build.id == "elbow_cop-3"
    assert len(state_of(third, workshop).done_order) == 2


def test_a_variant_in_another_folder_goes_its_own_way(folder, tmp_path, workshop, clock):
    first = opened(folder, workshop, clock)
    seated(first, workshop, clock).done((of_kind(first, StepKind.CUT)[0],))
    (tmp_path / "other").mkdir()
    variant = copy_sample(tmp_path / "other")
    rewrite(variant, "coats = 2", "coats = 3")
    second = opened(variant, workshop, clock)
    clock.advance(60)
    seated(second, workshop, clock).done((of_kind(second, StepKind.CUT)[1],))
    assert opened(folder, workshop, clock).build.id == first.build.id
    assert opened(variant, workshop, clock).build.id == second.build.id
    rewrite(folder, "coats = 2", "coats = 1")
    third = opened(folder, workshop, clock)
    assert third.difference is not None
    assert third.difference.former == first.build.id
    assert (first.folder, second.folder, third.folder) == (folder, variant, folder)


def test_a_former_build_that_cannot_be_read_any_more_is_named(
    folder, workshop, clock, monkeypatch
):
    first = opened(folder, workshop, clock)
    seated(first, workshop, clock).done((of_kind(first, StepKind.CUT)[0],))
    rewrite(folder, "coats = 2", "coats = 3")

    def refuse(*_asked: object) -> None:
        raise WorkshopError("of another form")

    monkeypatch.setattr("armorplan.app.opening.resume_build", refuse)
    second = opened(folder, workshop, clock)
    assert state_of(second, workshop).records == ()
    finding = finding_of(second, "pattern-changed")
    assert "elbow_cop-1" in finding.text


def test_an_entry_of_a_step_nobody_knows_is_left(folder, workshop, clock):
    first = opened(folder, workshop, clock)
    session = seated(first, workshop, clock)
    session.done((of_kind(first, StepKind.CUT)[0],))
    (event,) = workshop.events(first.build.id)
    odd = type(event)(**{k: getattr(event, k) for k in event.__slots__} | {"step": "elbow_cop-1"})
    assert carried((odd,), first.derived, first.derived, build="x-1") == ()


def test_another_order_gives_other_minutes_and_leaves_ticks_and_timers(folder, workshop, clock):
    """A tab made to wait for both rows lies inside the cop: it takes longer, nothing else does."""
    first = opened(folder, workshop, clock)
    session = seated(first, workshop, clock)
    tail_of = {tail(step): step for step in of_kind(first, StepKind.RIVET)}
    at = "elbow_cop/single/rivet/"
    session.done((tail_of[f"{at}left_row_1"],))
    session.start((tail_of[f"{at}tab_top"],))
    clock.advance(120)
    with (folder / "pattern.toml").open("a", encoding="utf-8") as file:
        for tab in ("tab_top", "tab_bottom"):
            for row in ("left_row_7", "right_row_7"):
                file.write(
                    f"\n[relations.{tab}_{row}]\nfirst = 'rivet/{row}'\nthen = 'rivet/{tab}'\n"
                    "force = 'cannot'\nwhy = 'The tab comes late.'\n"
                )
    second = opened(folder, workshop, clock)
    state = state_of(second, workshop)
    now = second.build.id
    assert state.record(f"{now}/{at}left_row_1").status is StepStatus.DONE
    assert state.record(f"{now}/{at}tab_top").status is StepStatus.RUNNING
    (timer,) = (t for t in seated(second, workshop, clock).timers() if t.step.endswith("tab_top"))
    step = second.derived.work.step(f"{now}/{at}tab_top")
    assert timer.elapsed_s == 120
    assert timer.planned_min == step.minutes
    assert second.derived.times["tab_bottom"].minutes > first.derived.times["tab_bottom"].minutes
    told = second.difference
    assert told is not None
    assert (len(told.ticked), len(told.running), told.left) == (1, 1, ())
    longer = {each.title for each in told.retimed}
    exact = {
        step.title
        for step in second.derived.work.of_kind(StepKind.RIVET)
        if abs(
            second.derived.exact_min(step)
            - first.derived.exact_min(first.derived.work.step(f"{first.build.id}/{tail(step.id)}"))
        )
        >= 0.25
    }
    assert longer <= exact
    assert any("lace tab" in title for title in longer)
