"""The coming days: blocks can be chosen by mouse, key and table; nights, now and zoom."""

from dataclasses import replace
from datetime import timedelta

import pytest
from PySide6.QtCore import QPointF, Qt

from armorplan.app.chart_air import AirStretch
from armorplan.desktop.colours import LIGHT
from armorplan.desktop.picture_colours import mixed
from armorplan.desktop.theme import Mode, apply_theme
from armorplan.desktop.week_layout import midnight
from armorplan.desktop.widgets.week_blocks import BAND_TINT
from armorplan.desktop.widgets.week_room import LEAST_PX_AN_HOUR, MOST_PX_AN_HOUR
from armorplan.desktop.widgets.week_view import WeekView


@pytest.fixture
def view(qapp, bridge, qtbot):
    palette = qapp.palette()
    apply_theme(qapp, Mode.LIGHT)
    made = WeekView(bridge)
    qtbot.addWidget(made)
    made.resize(1000, 420)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    made.canvas.setFocus()
    yield made
    qapp.styleHints().setColorScheme(Qt.ColorScheme.Unknown)
    qapp.setPalette(palette)


def spot_of(view, key):
    canvas = view.canvas
    return (canvas.geometry_now.boxes[key].center() + canvas._offset()).toPoint()


def test_a_click_chooses_the_steps_of_a_block(view, bridge, qtbot):
    key = view.canvas.first()
    view.canvas.reveal(key)
    qtbot.mouseClick(view.canvas.viewport(), Qt.MouseButton.LeftButton, pos=spot_of(view, key))
    assert bridge.selection.steps == view.canvas.geometry_now.blocks[key].steps
    qtbot.keyClick(view.canvas, Qt.Key.Key_Escape)
    assert bridge.selection.steps == ()


def test_a_narrow_block_can_be_hit_beside_its_edge(view):
    geometry = view.canvas.geometry_now
    key, box = min(geometry.boxes.items(), key=lambda item: item[1].width())
    assert geometry.key_near(QPointF(box.right() + 9, box.center().y())) != ""
    assert geometry.key_near(QPointF(box.left() - 500, box.center().y() - 400)) == ""
    assert geometry.key_near(box.center()) == key


def test_the_keys_reach_every_block_and_enter_chooses(view, bridge, qtbot):
    qtbot.keyClick(view.canvas, Qt.Key.Key_Home)
    qtbot.keyClick(view.canvas, Qt.Key.Key_Home)
    places = view.canvas.places()
    walked = [view.canvas.hands.here]
    for _ in range(len(places) - 1):
        qtbot.keyClick(view.canvas, Qt.Key.Key_PageDown)
        walked.append(view.canvas.hands.here)
    assert walked == list(places)
    last = view.canvas.geometry_now.boxes[walked[-1]].translated(view.canvas._offset())
    assert view.canvas.viewport().rect().contains(last.center().toPoint())
    qtbot.keyClick(view.canvas, Qt.Key.Key_Return)
    assert bridge.selection.steps == view.canvas.geometry_now.blocks[walked[-1]].steps


def test_the_line_below_tells_what_holds_the_ring(view):
    key = view.canvas.first()
    view.canvas.hands.walk_to(key)
    block = view.canvas.geometry_now.blocks[key]
    said = view.findChild(object, "week_line").text()
    assert block.bars[0].title in said
    assert block.bars[0].lane in said
    assert block.state.value in said


def test_zooming_in_parts_blocks_and_keeps_the_instant_in_its_place(view):
    canvas = view.canvas
    blocks = len(canvas.geometry_now.blocks)
    at = canvas.geometry_now.instant(400 - canvas._offset().x())
    canvas.zoom(20, 400)
    assert len(canvas.geometry_now.blocks) > blocks
    again = canvas.geometry_now.instant(400 - canvas._offset().x())
    assert abs(again - at) < timedelta(minutes=1)
    canvas.zoom(1e6)
    assert canvas.geometry_now.px_an_hour == MOST_PX_AN_HOUR
    canvas.zoom(1e-9)
    assert canvas.geometry_now.px_an_hour == LEAST_PX_AN_HOUR


def test_zero_shows_all_days_and_shift_with_arrows_moves_them(view, qtbot):
    canvas = view.canvas
    qtbot.keyClick(canvas, Qt.Key.Key_0)
    assert canvas.horizontalScrollBar().maximum() == 0
    canvas.zoom(8)
    canvas.horizontalScrollBar().setValue(0)
    qtbot.keyClick(canvas, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert canvas.horizontalScrollBar().value() > 0


def test_nights_lie_behind_and_the_line_of_the_present_moves_on(view, clock):
    canvas = view.canvas
    canvas.fit()
    geometry, offset = canvas.geometry_now, canvas._offset()
    start_at, end_at = geometry.week.closed[0]
    # Off the lines of the hours, a little above the lower edge's word.
    night = geometry.x(start_at + (end_at - start_at) / 2) + offset.x() + 4
    image = canvas.viewport().grab().toImage()
    ratio = image.devicePixelRatio()
    low = geometry.tops[1] + offset.y() - 3
    assert image.pixelColor(round(night * ratio), round(low * ratio)).name() == LIGHT.night
    before = canvas.viewport().grab().toImage()
    clock.advance(90)
    view._move_now()
    assert canvas.viewport().grab().toImage() != before


def test_a_choice_made_elsewhere_is_lit_and_told(view, bridge, session):
    before = view.canvas.viewport().grab().toImage()
    step = session.steps[0]
    bridge.choose_steps((step.id,))
    assert view.canvas.viewport().grab().toImage() != before
    assert step.title in view.findChild(object, "week_line").text()


def test_the_table_has_every_bar_and_chooses_single_steps(view, bridge, session, qtmodeltester):
    model = view.twin_model
    qtmodeltester.check(model)
    assert model.rowCount() == len(session.chart().bars)
    heads = [model.headerData(c, Qt.Orientation.Horizontal) for c in range(model.columnCount())]
    assert heads == [
        "Start",
        "End",
        "Step",
        "Who or where",
        "State",
        "Build",
        "When it is dry",
    ]
    view.twin.setVisible(True)
    view.twin.setFocus()
    view.twin.setCurrentIndex(model.index(4, 2))
    assert bridge.selection.steps == (model.key_at(model.index(4, 0)),)
    bridge.choose_steps((session.steps[1].id,))
    rows = view.twin.selectionModel().selectedRows()
    assert [model.key_at(row) for row in rows] == [session.steps[1].id]


def test_a_new_plan_keeps_zoom_and_place(view, bridge, session):
    view.canvas.zoom(3)
    zoom, place = view.canvas.geometry_now.px_an_hour, view.canvas.horizontalScrollBar().value()
    bridge.done((session.steps[0].id,))
    assert view.canvas.geometry_now.px_an_hour == zoom
    assert view.canvas.horizontalScrollBar().value() == place


def test_the_first_midnight_is_the_shops(view):
    geometry = view.canvas.geometry_now
    assert geometry.origin_at == midnight(geometry.week.bars[0].start_at, geometry.zone)
    assert geometry.x(geometry.origin_at) == 0


def test_it_opens_a_little_before_the_present(view):
    canvas = view.canvas
    x = canvas.geometry_now.x(canvas.geometry_now.week.now_at) + canvas._offset().x()
    assert canvas.margin_px() <= x < canvas.viewport().width() / 3


def test_it_rests_while_hidden(view):
    assert view._beat.isActive()
    view.hide()
    assert not view._beat.isActive()


def test_everything_has_a_name(view):
    for widget in (view.canvas, view.twin, view.findChild(object, "week_view_larger")):
        assert widget.accessibleName()


NOTE = "ready Tue 14:20, likely; Tue 09:30 to 19:10; 5 h 10 min longer: the air is 80 % damp"


def with_nights(chart):
    """The chart with a note and a band on each drying, and a day and a night of air."""
    night_at = chart.now_at + timedelta(hours=8)
    return replace(
        chart,
        bars=tuple(
            b if b.attended else replace(b, note=NOTE, surely_at=b.end_at + timedelta(hours=6))
            for b in chart.bars
        ),
        air=(
            _air(chart.now_at - timedelta(days=2), night_at, 20, 50),
            _air(night_at, night_at + timedelta(days=9), 10, 80),
        ),
    )


def _air(start_at, end_at, temperature_c, humidity_pct):
    return AirStretch(
        start_at=start_at,
        end_at=end_at,
        temperature_c=temperature_c,
        humidity_pct=humidity_pct,
    )


@pytest.fixture
def nightly(view, bridge, monkeypatch):
    plain = bridge.session.chart
    monkeypatch.setattr(bridge.session, "chart", lambda: with_nights(plain()))
    view.refresh()
    return view


def test_what_dries_says_where_one_stands_when_it_is_ready_and_why(nightly):
    canvas = nightly.canvas
    key = next(k for k, b in canvas.geometry_now.blocks.items() if not b.attended)
    canvas.hands.walk_to(key)
    said = nightly.findChild(object, "week_line").text()
    assert said.replace("\N{NO-BREAK SPACE}", " ").endswith(NOTE)
    assert "80\N{NO-BREAK SPACE}%" in said
    model = nightly.twin_model
    notes = [model.index(row, 6).data() for row in range(model.rowCount())]
    assert NOTE in notes
    row = notes.index(NOTE)
    spoken = model.index(row, 0).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.endswith(NOTE)


def test_the_air_stands_in_a_strip_of_its_own_with_its_range_in_words(view, nightly):
    assert nightly.canvas.strip_px() > 0
    assert nightly.canvas.air_name() == "Air 10\N{EN DASH}20 °C"


def test_steady_air_takes_no_room(view):
    assert view.canvas.strip_px() == 0
    assert view.canvas.air_name() == ""


def test_the_band_behind_a_drying_is_drawn_and_paler_than_the_bar_s_edge(nightly):
    canvas = nightly.canvas
    canvas.fit()
    geometry = canvas.geometry_now
    block = max((b for b in geometry.blocks.values() if not b.attended), key=lambda b: b.end_at)
    assert block.surely_at == block.end_at + timedelta(hours=6)
    assert geometry.end_at >= block.surely_at
    canvas.reveal(block.key)
    box = geometry.boxes[block.key]
    middle = (geometry.x(block.end_at) + geometry.x(block.surely_at)) / 2
    spot = (QPointF(middle, box.top() + 6) + canvas._offset()).toPoint()
    image = canvas.viewport().grab().toImage()
    ratio = image.devicePixelRatio()
    shown = image.pixelColor(round(spot.x() * ratio), round(spot.y() * ratio)).name()
    assert shown == mixed(LIGHT.panel, LIGHT.state(block.state), BAND_TINT)
