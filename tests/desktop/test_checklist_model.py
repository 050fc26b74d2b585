"""The checklist model keeps indexes through every change and tells only what changed."""

import random
from dataclasses import replace

import pytest
from desktop.fake_session import FakeSession
from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt

from armorplan.app.rows import ChecklistRow, Grouping
from armorplan.desktop.checklist_model import ROW_ROLE, ChecklistModel, Column
from armorplan.desktop.checklist_rows import shown_rows
from armorplan.desktop.checklist_tree import runs


@pytest.fixture
def model(bridge, qtmodeltester):
    made = ChecklistModel(bridge)
    made.show(bridge.session.checklist(Grouping.PIECE))
    return made


def read(model: ChecklistModel, parent: QModelIndex | None = None) -> list[ChecklistRow]:
    """Read all rows back through the indexes, parents before children."""
    above = parent or QModelIndex()
    out = []
    for at in range(model.rowCount(above)):
        index = model.index(at, 0, above)
        assert model.parent(index) == above
        out.append(model.data(index, ROW_ROLE))
        out.extend(read(model, index))
    return out


def test_it_is_a_sound_model(model, bridge, qtmodeltester):
    qtmodeltester.check(model, force_py=True)
    bridge.done(bridge.session.ready_steps()[:3])
    model.show(bridge.session.checklist(Grouping.PIECE))
    model.show(bridge.session.checklist(Grouping.DAY))
    model.show(())


def test_rows_come_back_as_shown(model, session):
    assert tuple(read(model)) == session.checklist(Grouping.PIECE)


def test_a_tick_tells_only_the_rows_that_changed(model, session):
    told = []
    structure = []
    model.dataChanged.connect(
        lambda a, b: told.extend(
            model.index(r, 0, a.parent()).data(ROW_ROLE).id for r in range(a.row(), b.row() + 1)
        )
    )
    for signal in (model.rowsInserted, model.rowsRemoved, model.modelReset, model.layoutChanged):
        signal.connect(lambda *_: structure.append("changed"))
    before = {r.id: r for r in read(model)}
    session.done(session.ready_steps()[:1])
    model.show(session.checklist(Grouping.PIECE))
    after = {r.id: r for r in read(model)}
    assert set(told) == {i for i, row in after.items() if row != before[i]}
    assert 0 < len(told) < 8
    assert structure == []


def test_nothing_is_told_where_nothing_changed(model, session):
    told = []
    model.dataChanged.connect(lambda *_: told.append("data"))
    model.show(session.checklist(Grouping.PIECE))
    assert told == []


def test_persistent_indexes_follow_their_rows(model, session):
    step = session.steps[60].id
    kept = QPersistentModelIndex(model.index_of(step))
    rows = session.checklist(Grouping.PIECE)
    gone = {rows[2].id, rows[3].id}
    model.show(tuple(r for r in rows if r.id not in gone and r.parent not in gone))
    assert kept.data(ROW_ROLE).id == step
    model.show(rows)
    assert kept.data(ROW_ROLE).id == step


def test_any_change_of_order_and_kind_ends_at_the_wanted_rows(model, session, qtmodeltester):
    seed = random.Random(7)  # noqa: S311 - a fixed shuffle, no secret
    rows = session.checklist(Grouping.PIECE)
    for _ in range(25):
        kept = [r for r in rows if r.kind == "heading" or seed.random() < 0.8]
        ids = {r.id for r in kept}
        kept = [r for r in kept if r.parent is None or r.parent in ids]
        wanted = shuffled_siblings(kept, seed)
        model.show(wanted)
        assert tuple(read(model)) == wanted
    qtmodeltester.check(model, force_py=True)


def shuffled_siblings(rows: list[ChecklistRow], seed: random.Random) -> tuple[ChecklistRow, ...]:
    under: dict[str | None, list[ChecklistRow]] = {}
    for row in rows:
        under.setdefault(row.parent, []).append(row)

    def walk(parent):
        siblings = under.get(parent, [])
        seed.shuffle(siblings)
        for row in siblings:
            yield row
            yield from walk(row.id)

    return tuple(walk(None))


def test_a_step_that_moves_to_another_day_is_found_there(model, session):
    rows = session.checklist(Grouping.DAY)
    model.show(rows)
    moving = next(r for r in rows if r.parent == rows[0].id)
    days = [r for r in rows if r.parent is None]
    moved = [replace(r, parent=days[1].id) if r.id == moving.id else r for r in rows]
    at = moved.index(next(r for r in moved if r.id == days[1].id))
    moved.insert(at, moved.pop(moved.index(next(r for r in moved if r.id == moving.id))))
    model.show(tuple(moved))
    assert model.index_of(moving.id).parent().data(ROW_ROLE).id == days[1].id


def test_many_changes_are_one_reset(bridge, qtbot):
    session = FakeSession.of(2000)
    model = ChecklistModel(bridge)
    rows = session.checklist(Grouping.PIECE)
    model.show(rows)
    with qtbot.waitSignal(model.modelReset):
        model.show(shown_rows(rows, ready_only=False, words="lower"))


def test_a_screen_reader_hears_step_state_time_and_cautions(model, session):
    dye = next(s for s in session.steps if s.kind == "dye")
    heard = model.index_of(dye.id).data(Qt.ItemDataRole.AccessibleTextRole)
    assert heard.startswith("Dye the lower petal, waits: Punch the lower petal, 7 min,")
    assert "Ventilate" in heard


def test_the_time_column_shows_what_is_left_and_until_when(model, bridge, session, clock):
    dry = next(s for s in session.steps if s.kind == "dry")
    session.start((dry.id,))
    clock.advance(170)
    model.show(session.checklist(Grouping.PIECE))
    shown = model.index_of(dry.id, Column.TIME).data()
    assert shown == "10:00 left until 11:00"
    clock.advance(13)
    assert model.index_of(dry.id, Column.TIME).data() == "due for 3 min was due 11:00"


def test_a_paused_timer_stands_still(model, session, clock):
    first = session.ready_steps()[0]
    session.start((first,))
    clock.advance(2)
    session.pause((first,))
    clock.advance(30)
    model.show(session.checklist(Grouping.PIECE))
    assert model.index_of(first, Column.TIME).data() == "4:00 left stands still"


def test_headers_have_names(model):
    across = Qt.Orientation.Horizontal
    assert [model.headerData(c, across) for c in Column] == ["Step", "Time"]


def test_runs_join_neighbours():
    assert list(runs([0, 1, 2, 5, 7, 8])) == [(0, 2), (5, 5), (7, 8)]
    assert list(runs([])) == []
