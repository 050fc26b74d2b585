"""The twin rows of a picture as an item model."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPersistentModelIndex, Qt

from armorplan.desktop.twin_model import TwinModel, TwinRow

ROWS = tuple(
    TwinRow(key=f"part:{name}", cells=(name, "waits"), spoken=f"{name}, a lame, waits")
    for name in ("upper lame", "lower lame", "strap")
)


@pytest.fixture
def model(qapp):
    made = TwinModel(("Part", "State"))
    made.show(ROWS)
    return made


def test_it_is_a_sound_model(model, qtmodeltester):
    qtmodeltester.check(model)


def test_a_reader_hears_the_whole_row(model):
    spoken = model.index(1, 0).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == "lower lame, a lame, waits"
    assert model.index(1, 1).data() == "waits"
    assert model.headerData(1, Qt.Orientation.Horizontal) == "State"
    assert model.headerData(1, Qt.Orientation.Vertical) is None


def test_a_changed_row_keeps_the_others_in_place(model, qtbot):
    held = QPersistentModelIndex(model.index(2, 0))
    changed = (*ROWS[:2], replace(ROWS[2], cells=("strap", "done")))
    with qtbot.waitSignal(model.dataChanged) as told, qtbot.assertNotEmitted(model.modelReset):
        model.show(changed)
    assert told.args[0].row() == 2
    assert held.isValid()
    assert held.sibling(2, 1).data() == "done"


def test_other_rows_are_shown_anew(model, qtbot):
    with qtbot.waitSignal(model.modelReset):
        model.show(ROWS[:1])
    assert model.rowCount() == 1
    assert model.index_of("part:upper lame").row() == 0
    assert not model.index_of("part:strap").isValid()
    assert model.key_at(model.index(0, 0)) == "part:upper lame"
