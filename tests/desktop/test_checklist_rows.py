"""Filters of the checklist, without Qt."""

from desktop.fake_session import FakeSession

from armorplan.app.rows import BenchState, Grouping
from armorplan.desktop.checklist_rows import WORKABLE, is_step, shown_rows


def rows_of(session):
    return session.checklist(Grouping.PIECE)


def test_no_filter_changes_nothing(session: FakeSession):
    rows = rows_of(session)
    assert shown_rows(rows, ready_only=False, words="  ") is rows


def test_ready_only_keeps_workable_steps_and_what_stands_above(session: FakeSession):
    shown = shown_rows(rows_of(session), ready_only=True, words="")
    steps = [r for r in shown if is_step(r)]
    assert {r.id for r in steps} == set(session.ready_steps())
    ids = {r.id for r in shown}
    assert all(r.parent is None or r.parent in ids for r in shown)


def test_drying_counts_as_workable(session: FakeSession):
    rows = rows_of(session)
    dry = next(r for r in rows if is_step(r) and r.kind == "dry")
    session.start((dry.id,))
    shown = shown_rows(rows_of(session), ready_only=True, words="")
    assert dry.id in {r.id for r in shown}
    assert BenchState.DRYING in WORKABLE


def test_words_may_stand_in_the_title_or_above_it(session: FakeSession):
    shown = shown_rows(rows_of(session), ready_only=False, words="COLLAR strap bevel")
    steps = [r for r in shown if is_step(r)]
    assert [r.title for r in steps] == ["Bevel the arm strap"]
    assert shown[0].title == "Collar"


def test_words_that_fit_nothing_show_nothing(session: FakeSession):
    assert shown_rows(rows_of(session), ready_only=False, words="anchor") == ()
