"""Findings are told with remedy and place, and light what they speak of."""

from dataclasses import replace

import pytest
from desktop.fake_session import FakeSession

from armorplan.app.rows import Selection
from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.widgets.findings_view import FindingsView
from armorplan.kernel.findings import Finding, Place, Severity

WARNING = Finding(
    code="post-length",
    severity=Severity.WARNING,
    text="The stack under the boss is 9.2 mm.",
    remedy="Skive the boss to 2 mm.",
    about=("piece_0.boss_0", "piece_0.boss"),
)
ERROR = Finding(
    code="rows-miss",
    severity=Severity.ERROR,
    text="Holes 3 and 4 miss by 2.3 mm.",
    remedy="Move hole 4 by 2.3 mm.",
    about=("piece_0.petal_mid.lower_3",),
    place=Place(file="pattern.toml", line=41),
)


@pytest.fixture
def view(bridge, qtbot):
    made = FindingsView(bridge)
    qtbot.addWidget(made)
    return made


def test_it_is_hidden_where_all_is_well(view):
    assert view.isHidden()


def test_errors_come_first_with_word_remedy_and_place(view):
    view.show_findings((WARNING, ERROR))
    assert not view.isHidden()
    told = [view.list.item(i).text() for i in range(2)]
    assert told[0].endswith(
        "error: Holes 3 and 4 miss by 2.3 mm. Move hole 4 by 2.3 mm.  (pattern.toml:41)"
    )
    assert "warning: The stack under the boss is 9.2 mm." in told[1]
    assert view._head.text() == "Found – to mend before building: 1, to look at: 1"


def test_it_is_as_high_as_its_lines_need(view, qtbot):
    view.resize(1600, 300)
    view.show()
    view.show_findings((ERROR, WARNING))
    wide = view.list.height()
    view.resize(360, 300)
    assert view.list.height() > wide
    view.show_findings((ERROR,) * 50)
    assert view.list.height() < 200


def test_where_there_is_little_room_it_folds_to_its_heading(view, qtbot):
    view.resize(600, 300)
    view.show()
    view.show_findings((ERROR, WARNING))
    view.make_room(is_tight=True)
    assert not view.list.isVisible()
    assert view._head.isVisible()
    view.go()
    assert view.list.isVisible()
    view.make_room(is_tight=True)
    assert view.list.isVisible()
    view.fold.click()
    assert not view.list.isVisible()
    view.make_room(is_tight=False)
    assert view.list.isVisible()


def test_choosing_one_lights_what_it_speaks_of(view, bridge):
    view.show_findings((ERROR, WARNING))
    view.list.setCurrentRow(1)
    assert bridge.selection == Selection(parts=("piece_0.boss",), joints=("piece_0.boss_0",))
    view.list.setCurrentRow(0)
    assert bridge.selection == Selection(parts=("piece_0.petal_mid",))


def test_choosing_one_chooses_what_the_shapes_tell_of_it(view, bridge, session):
    sound = ShapeRow(id="rows:a", topic="", title="", verdict="", text="")
    session.shape_rows = (sound, replace(sound, id="rows:b", findings=(ERROR,)))
    view.show_findings((ERROR, WARNING))
    view.list.setCurrentRow(0)
    assert bridge.selection.measures == ("rows:b",)
    assert bridge.selection.parts == ("piece_0.petal_mid",)
    view.list.setCurrentRow(1)
    assert bridge.selection.measures == ()


def test_another_build_brings_its_own_findings(view, bridge):
    bridge.open(FakeSession.of(5, findings=(ERROR,)))
    assert view.list.count() == 1
    bridge.open(FakeSession.of(5))
    assert view.isHidden()


def test_a_refused_folder_is_named_above_the_builds_own_findings(view, bridge):
    bridge.open(FakeSession.of(5, findings=(WARNING,)))
    before = bridge.selection
    view.show_refused("collar", (ERROR,))
    told = [view.list.item(i).text() for i in range(view.list.count())]
    assert told[0].startswith("collar – ✖ error: Holes 3 and 4 miss")
    assert told[1].startswith("▲ warning: The stack under the boss")
    assert view._head.text() == "Not opened: collar.  Found – to look at: 1"
    view.list.setCurrentRow(0)
    assert bridge.selection == before
    bridge.open(FakeSession.of(5))
    assert view.isHidden()


def test_notes_alone_leave_the_room_to_the_build(bridge, qtbot):
    view = FindingsView(bridge)
    qtbot.addWidget(view)
    view.resize(600, 400)
    note = Finding(code="said", severity=Severity.NOTE, text="So it is. " * 9, remedy="Nothing.")
    view.show_findings((note,) * 9)
    low = view.list.height()
    view.show_findings((replace(note, severity=Severity.WARNING), *(note,) * 8))
    assert view.list.height() > low


def test_in_other_air_its_findings_are_shown(view, bridge):
    bridge.session.findings = (WARNING,)
    bridge.aired.emit()
    assert view.list.count() == 1


def test_what_the_shop_tells_comes_and_goes_with_the_problem(view, bridge):
    bridge.session.findings = (WARNING,)
    bridge.changed.emit()
    assert view.list.count() == 1
    view.list.setCurrentRow(0)
    bridge.changed.emit()
    assert view.list.currentRow() == 0
    bridge.session.findings = ()
    bridge.changed.emit()
    assert view.isHidden()


def test_what_was_refused_stays_told_while_the_shop_tells_something_new(view, bridge):
    view.show_refused("collar", (ERROR,))
    bridge.session.findings = (WARNING,)
    bridge.changed.emit()
    told = [view.list.item(i).text() for i in range(view.list.count())]
    assert told[0].startswith("collar – ")
    assert told[1].startswith("▲ warning: The stack under the boss")
