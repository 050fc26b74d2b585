"""The tree of measures: topics with counts, lines that come, go and change by id."""

from dataclasses import replace

from desktop.fake_shapes import many_shapes, some_shapes
from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt

from armorplan.app.rows import Selection
from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.shapes_choice import (
    LOOK,
    RULE_TOPICS,
    about_rule,
    gravest_first,
    topics_to_open,
)
from armorplan.desktop.shapes_model import COUNTS_ROLE, SHAPE_ROLE, ShapesModel
from armorplan.desktop.shapes_words import STANDINGS
from armorplan.geometry.measures import Topic
from armorplan.rules.registry import rule_named


def lines(model):
    found = []
    for at in range(model.rowCount()):
        heading = model.index(at, 0)
        rows = [
            model.index(n, 0, heading).data(SHAPE_ROLE) for n in range(model.rowCount(heading))
        ]
        found.append((heading.data(), [row.id for row in rows]))
    return found


def test_it_keeps_to_what_qt_asks_of_a_model(qtmodeltester):
    model = ShapesModel()
    model.show(some_shapes())
    qtmodeltester.check(model, force_py=True)
    model.show(some_shapes()[1:3])
    model.show(many_shapes(20))
    qtmodeltester.check(model, force_py=True)


def test_topics_are_headings_with_counts_of_all_lines(qapp):
    model = ShapesModel()
    rows = some_shapes()
    model.show(rows[:1], rows)
    heading = model.index(0, 0)
    assert heading.data() == "Rows that meet"
    assert heading.data(COUNTS_ROLE) == "1 to look at, 1 sound"
    assert model.rowCount(heading) == 1
    line = model.index(0, 0, heading)
    spoken = "to look at: left row: middle petal on upper petal, hole 3 is 2.0 mm out"
    assert line.data(Qt.ItemDataRole.AccessibleTextRole) == spoken


def test_only_the_line_that_changed_is_told(qapp, qtbot):
    model = ShapesModel()
    rows = some_shapes()
    model.show(rows)
    kept = QPersistentModelIndex(model.index_of("lames:elbow"))
    told, moved = [], []
    model.dataChanged.connect(lambda first, *_: told.append(model.row_at(first)))
    model.rowsInserted.connect(lambda *_: moved.append("in"))
    model.rowsRemoved.connect(lambda *_: moved.append("out"))
    mended = replace(rows[0], verdict="meet", severity="")
    model.show((mended, *rows[1:]))
    assert [row for row in told if row] == [mended]
    assert moved == []
    assert model.row_at(kept).id == "lames:elbow"


def test_lines_come_and_go_where_they_belong(qapp):
    model = ShapesModel()
    rows = some_shapes()
    model.show((rows[1], rows[3]))
    kept = QPersistentModelIndex(model.index_of("posts:upper_0"))
    model.show(rows)
    assert lines(model) == [
        ("Rows that meet", ["rows:left", "rows:right"]),
        ("Bends", ["bends:cuff"]),
        ("Fasteners and posts", ["posts:upper_0"]),
        ("Lames", ["lames:elbow"]),
    ]
    assert model.row_at(kept).id == "posts:upper_0"
    model.show((rows[1], rows[0], rows[4]))
    assert lines(model) == [
        ("Rows that meet", ["rows:right", "rows:left"]),
        ("Lames", ["lames:elbow"]),
    ]
    assert not kept.isValid()
    model.show(())
    assert model.rowCount() == 0


def test_topics_that_change_places_are_shown_in_the_new_order(qapp):
    model = ShapesModel()
    rows = some_shapes()
    model.show(rows)
    model.show((rows[4], rows[0]))
    assert lines(model) == [("Lames", ["lames:elbow"]), ("Rows that meet", ["rows:left"])]


def test_an_index_that_outlived_its_line_says_nothing(qapp):
    model = ShapesModel()
    model.show(some_shapes())
    old = model.index_of("rows:right")
    model.show(some_shapes()[2:])
    assert model.row_at(old) is None
    assert model.data(old) is None
    assert model.parent(old) == QModelIndex()
    assert model.index_of("rows:right") == QModelIndex()


def test_the_gravest_of_a_topic_comes_first_and_topics_stay_where_they_are():
    rows = some_shapes()
    told = gravest_first(rows)
    assert sorted(row.id for row in told) == sorted(row.id for row in rows)
    assert list(dict.fromkeys(r.topic for r in told)) == list(dict.fromkeys(r.topic for r in rows))
    for topic in {row.topic for row in rows}:
        ranks = [STANDINGS.index(row.severity) for row in told if row.topic == topic]
        assert ranks == sorted(ranks, reverse=True)
        grave = [row.id for row in told if row.topic == topic and row.severity == ranks[0]]
        assert grave == [r.id for r in rows if r.topic == topic and r.severity == ranks[0]]


def test_topics_with_faults_are_opened_and_all_of_them_where_nothing_is_at_fault():
    rows = some_shapes()
    faulty = {row.topic for row in rows if row.severity in LOOK}
    assert faulty
    assert topics_to_open(rows) == faulty
    sound = [replace(row, severity="") for row in rows]
    assert topics_to_open(sound) == {row.topic for row in rows}


def test_a_rule_leads_to_the_measure_it_rests_on():
    rows = (
        ShapeRow(id="rows:a", topic="rows that meet", title="", verdict="", text="", steps=("s",)),
        ShapeRow(id="bends:a", topic="bends", title="", verdict="", text="", steps=("s",)),
        ShapeRow(id="bends:b", topic="bends", title="", verdict="", text="", steps=("t",)),
    )
    chosen = Selection(steps=("t",), measures=("rows:a",))
    assert about_rule(rows, chosen, "bend-before-rivets") == "bends:b"
    assert about_rule(rows, chosen, "lames-from-cop") == ""
    assert all(rule_named(code) for code in RULE_TOPICS)
    assert set(RULE_TOPICS.values()) <= {topic.value for topic in Topic}
