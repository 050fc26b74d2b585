"""Timers in sight: what is left, until when, what rings, and whose it is."""

import time
from dataclasses import replace
from datetime import timedelta

import pytest
from desktop.fake_timing import bell, ringing_once
from desktop.test_timers_model import row
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics

from armorplan.app.bells import BellKind
from armorplan.desktop.colours import LIGHT
from armorplan.desktop.theme import palette_of
from armorplan.desktop.timer_acts import Act, acts_of
from armorplan.desktop.timer_face import Standing
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.checklist_delegate import broken, small_font
from armorplan.desktop.widgets.timer_card import TimerCard
from armorplan.desktop.widgets.timer_painting import PAD_PX, REMEDY_LINES, card_size, needed_px
from armorplan.desktop.widgets.timer_strip import TimerStrip


@pytest.fixture
def strip(bridge, qtbot):
    ticker = Ticker(bridge)
    made = TimerStrip(bridge, ticker)
    qtbot.addWidget(made)
    made.setPalette(palette_of(LIGHT))
    made.resize(800, 80)
    made.show()
    yield made
    ticker.deleteLater()


def cards(strip):
    found = [c for c in strip.findChildren(TimerCard) if c.isVisible()]
    return sorted(found, key=lambda c: c.x())


def test_without_timers_it_says_how_to_start_one(strip, bridge, session):
    assert strip._none.isVisible()
    assert strip._set.isVisible()
    bridge.start(session.ready_steps()[:1])
    assert not strip._none.isVisible()


def test_in_a_low_window_it_is_one_line(strip, bridge, session):
    whole = strip.height()
    strip.make_room(is_low=True)
    assert strip.height() < whole / 2
    bridge.start(session.ready_steps()[:1])
    assert 48 <= strip.height() < whole
    assert cards(strip)[0].height() >= 48
    strip.make_room(is_low=False)
    assert strip.height() == whole


def test_soonest_due_comes_first_and_both_times_are_shown(strip, bridge, session, clock, qtbot):
    dry = next(s.id for s in session.steps if s.kind == "dry")
    bridge.start((dry,))
    clock.advance(1)
    bridge.start(session.ready_steps()[:1])
    qtbot.waitUntil(
        lambda: [c.text() for c in cards(strip)] == ["Cut the lower petal", "Dry the lower petal"]
    )
    first, second = (c.face() for c in cards(strip))
    assert (first.left, first.small) == ("6:00", ("until 08:07", ""))
    assert (second.left, second.small) == ("2:59:00", ("until 11:00", ""))


def test_a_band_is_shown_under_the_likely_time(strip, session, clock):
    at = clock.now() + timedelta(minutes=60)
    timer = row(due_at=at, surely_at=at + timedelta(minutes=95), drying=True)
    session.timing.more = (ringing_once(timer),)
    strip._ticker.refresh()
    card = cards(strip)[0]
    assert card.face().small == ("until 09:00", "surely by 10:35")
    assert card.accessibleName() == "Dry the strap, drying, until 09:00, surely by 10:35"
    assert card.accessibleDescription() == ""


def test_a_paused_timer_says_so(strip, bridge, session, clock):
    step = session.ready_steps()[:1]
    bridge.start(step)
    clock.advance(2)
    bridge.pause(step)
    card = cards(strip)[0]
    assert (card.face().left, card.face().small[0]) == ("4:00", "paused")
    assert card.standing() is Standing.PAUSED


def ring(strip, session, clock, kind):
    at = clock.now() + timedelta(minutes=1)
    session.timing.more = (ringing_once(row(due_at=at), kind),)
    strip._ticker.refresh()
    clock.advance(4)
    strip._ticker.tick()
    return cards(strip)[0]


@pytest.mark.parametrize("kind", list(BellKind))
def test_what_rings_says_so_in_words_shape_and_ground(strip, session, clock, kind):
    words = {
        BellKind.DUE: ("was due 08:01", "time is up"),
        BellKind.OPENS: ("open since 08:01", "can begin now"),
        BellKind.CLOSES: ("closes 08:01", "begin, it closes"),
        BellKind.WATCH: ("look due 08:01", "look and turn"),
        BellKind.LATE: ("late since 08:01", "late, see to it"),
    }
    when, word = words[kind]
    card = ring(strip, session, clock, kind)
    assert card.standing() is Standing.RINGS
    assert (card.face().left, card.face().small) == ("for 3 min", (word, when))
    assert card.accessibleName() == f"Dry the strap, {word}, {when}"
    assert card.accessibleDescription() == "Dry the strap: go and see to it."
    image = card.grab().toImage()
    assert image.pixelColor(image.width() // 2, 4).name() == LIGHT.alarm


def test_by_turns_it_is_filled_and_edged_and_says_the_same(strip, session, clock):
    card = ring(strip, session, clock, BellKind.DUE)
    strip.show_brightness(is_bright=False)
    strip._ticker.tick()
    image = card.grab().toImage()
    assert image.pixelColor(image.width() // 2, 5).name() == LIGHT.panel
    assert image.pixelColor(image.width() // 2, 1).name() == LIGHT.alarm
    assert card.face().small == ("time is up", "was due 08:01")


def test_in_one_line_what_rings_still_says_what_for(strip, session, clock):
    strip.make_room(is_low=True)
    card = ring(strip, session, clock, BellKind.WATCH)
    assert card.face().title == "look and turn: Dry the strap"


def test_a_window_that_closes_soon_rings_and_counts_down_to_its_end(strip, session, clock):
    at = clock.now() + timedelta(minutes=1)
    timer = row(due_at=at)
    soon = replace(
        ringing_once(timer, BellKind.CLOSES, about_at=at + timedelta(minutes=10)), due_at=at
    )
    session.timing.more = (soon,)
    strip._ticker.refresh()
    clock.advance(2)
    strip._ticker.tick()
    card = cards(strip)[0]
    assert (card.face().left, card.face().small) == ("9:00", ("begin, it closes", "closes 08:11"))
    assert card.standing() is Standing.RINGS


def test_what_never_dries_in_this_air_says_so(strip, session):
    session.timing.more = (row(due_at=None, drying=True, meaning="Bring it where it is warmer."),)
    strip._ticker.refresh()
    card = cards(strip)[0]
    assert (card.face().left, card.face().small[0]) == ("not dry", "in this air")
    assert card.accessibleName() == "Dry the strap, drying, not dry, in this air"
    assert "warmer" in card.toolTip()


def test_what_was_answered_stays_in_sight_and_is_filled_no_more(strip, session, clock):
    card = ring(strip, session, clock, BellKind.DUE)
    assert strip._quiet.isVisible()
    session.timing.hush(card.row.id)
    assert card.standing() is Standing.ANSWERED
    assert card.face().is_filled is False
    assert card.accessibleName() == "Dry the strap, heard, was due 08:01"
    assert not strip._quiet.isVisible()


def test_the_spoken_name_does_not_change_with_each_second(strip, bridge, session, clock):
    bridge.start(session.ready_steps()[:1])
    name = cards(strip)[0].accessibleName()
    clock.advance(1 / 60)
    strip._ticker.tick()
    assert (
        cards(strip)[0].accessibleName() == name == "Cut the lower petal, under way, until 08:06"
    )


def test_another_builds_timer_bears_its_name(strip, session, clock):
    at = clock.now() + timedelta(minutes=60)
    timer = row(due_at=at, build="collar-2", build_title="Collar")
    session.timing.more = (ringing_once(timer),)
    strip._ticker.refresh()
    assert cards(strip)[0].face().title == "Collar: Dry the strap"


def test_a_card_tells_that_it_was_pressed_by_mouse_and_keys(strip, session, clock, qtbot):
    chosen = []
    strip.asked.connect(lambda asked: chosen.append((asked.act, asked.row.id)))
    session.timing.more = (ringing_once(row()),)
    strip._ticker.refresh()
    card = cards(strip)[0]
    qtbot.mouseClick(card, Qt.MouseButton.LeftButton)
    qtbot.keyClick(card, Qt.Key.Key_Return)
    qtbot.keyClick(card, Qt.Key.Key_Space)
    assert chosen == [(Act.GO, "a|1")] * 3


def three(session, strip):
    session.timing.more = tuple(
        ringing_once(row(id=str(n), due_at=row().due_at + timedelta(days=n), free=n == 1))
        for n in range(3)
    )
    strip._ticker.refresh()
    return cards(strip)


def test_arrows_walk_and_the_tab_key_comes_to_one_card_only(strip, session, qtbot):
    first, second, last = three(session, strip)
    strip.focus_first()
    for key, expected in (
        (Qt.Key.Key_Right, second),
        (Qt.Key.Key_End, last),
        (Qt.Key.Key_Right, last),
        (Qt.Key.Key_Left, second),
        (Qt.Key.Key_Home, first),
    ):
        qtbot.keyClick(strip.window().focusWidget(), key)
        assert strip.window().focusWidget() is expected
    strong = [c for c in (first, second, last) if c.focusPolicy() == Qt.FocusPolicy.StrongFocus]
    assert strong == [first]


def test_the_keyboard_goes_on_to_a_neighbour_where_its_timer_ends(strip, session, qtbot):
    _, second, last = three(session, strip)
    second.setFocus()
    session.timing.stop_timer("1")
    strip._ticker.refresh()
    assert strip.window().focusWidget() is last


def test_what_can_be_done_with_a_timer_is_in_its_menu(strip, session, clock, qtbot):
    asked = []
    strip.asked.connect(lambda told: asked.append((told.act, told.row.id)))
    _, free, other = three(session, strip)
    assert [a.text() for a in free.menu().actions()] == [
        "Go there",
        "5 minutes more",
        "Pause, or go on",
        "Stop this timer",
    ]
    free.menu().actions()[3].trigger()
    qtbot.keyClick(free, Qt.Key.Key_Delete)
    qtbot.keyClick(free, Qt.Key.Key_Plus)
    assert asked == [(Act.STOP, "1"), (Act.STOP, "1"), (Act.MORE, "1")]
    assert [a.text() for a in other.menu().actions()] == ["Go there", "Pause, or go on"]


def test_a_drying_is_told_dry_or_damp_from_its_card_a_window_and_a_build_elsewhere_are_not(
    strip, session, clock
):
    drying = row(drying=True)
    assert acts_of(ringing_once(drying), rings=True) == (Act.GO, Act.HUSH, Act.DRY, Act.DAMP)
    assert acts_of(ringing_once(drying, BellKind.CLOSES), rings=False) == (Act.GO,)
    assert acts_of(replace(drying, build="collar-2"), rings=False) == (Act.GO,)


def test_cards_that_stay_are_kept_and_those_that_ended_go(strip, bridge, session):
    first, second = session.ready_steps()[:2]
    bridge.start((first,))
    bridge.start((second,))
    kept = next(c for c in cards(strip) if c.row.step == second)
    bridge.done((first,))
    assert cards(strip) == [kept]


def test_many_timers_scroll_instead_of_being_cut(strip, bridge, session, qtbot):
    low = strip.height()
    bridge.start(session.ready_steps()[:8])
    assert strip.height() > low
    assert strip.cards.horizontalScrollBar().maximum() > 0


def test_few_timers_share_the_room_and_of_many_none_is_cut(strip, session, clock, qtbot):
    three(session, strip)
    usual = card_size(strip.font()).width()
    strip.resize(2400, 80)
    qtbot.waitUntil(lambda: cards(strip)[0].width() == round(1.6 * usual))
    strip.resize(560, 80)
    qtbot.waitUntil(lambda: cards(strip)[0].width() < usual)
    first, second, last = cards(strip)
    assert first.width() >= needed_px(first.font(), first.face())
    for card in (first, second):
        qtbot.waitUntil(lambda c=card: c.visibleRegion().boundingRect().width() == c.width())
    assert last.visibleRegion().isEmpty()


def test_what_rings_stands_before_what_was_heard_or_is_due_sooner(strip, session, clock, qtbot):
    at = clock.now() + timedelta(minutes=1)
    closes = ringing_once(
        row(id="z", due_at=at), BellKind.CLOSES, about_at=at + timedelta(minutes=10)
    )
    session.timing.more = (
        closes,
        ringing_once(row(id="heard", due_at=at)),
        ringing_once(row(id="soon", due_at=at + timedelta(minutes=3))),
    )
    strip._ticker.refresh()
    clock.advance(1)
    strip._ticker.tick()
    session.timing.hush("heard")
    clock.advance(0.1)
    strip._ticker.tick()
    qtbot.waitUntil(lambda: [c.row.id for c in cards(strip)] == ["z", "heard", "soon"])
    session.timing.hush("z")
    strip._ticker.refresh()
    qtbot.waitUntil(lambda: [c.row.id for c in cards(strip)] == ["heard", "z", "soon"])


def window_that_opens(clock):
    at = clock.now() + timedelta(minutes=1)
    timer = row(due_at=at, title="Begin in time: Dish the boss")
    closes = bell(timer, BellKind.CLOSES, at + timedelta(minutes=5))
    closes = replace(closes, about_at=at + timedelta(minutes=15))
    return replace(timer, bells=(bell(timer, BellKind.OPENS, at), closes))


def test_a_window_says_when_it_closes_before_it_opens_and_when_it_does(strip, session, clock):
    session.timing.more = (window_that_opens(clock),)
    strip._ticker.refresh()
    card = cards(strip)[0]
    assert card.face().small == ("opens 08:01", "closes 08:16")
    assert "opens 08:01, closes 08:16" in card.accessibleName()
    clock.advance(2)
    strip._ticker.tick()
    assert card.face().small == ("can begin now", "closes 08:16")


def test_a_missed_window_says_what_to_do_in_place_of_its_times(strip, session, clock):
    told = "Case it again: sponge it and wait until its colour comes back."
    session.timing.more = (replace(row(due_at=clock.now(), remedy=told), kind=BellKind.LATE),)
    session.timing.more = (ringing_once(session.timing.more[0], BellKind.LATE),)
    strip._ticker.refresh()
    clock.advance(3)
    strip._ticker.tick()
    card = cards(strip)[0]
    face = card.face()
    assert face.remedy == f"Late since 08:00. {told}"
    box_px = needed_px(card.font(), face) - QFontMetrics(card.font()).ascent() - 4 * PAD_PX - 4
    assert card.width() >= needed_px(card.font(), face)
    lines = broken(face.remedy, QFontMetrics(small_font(card.font())), box_px, REMEDY_LINES)
    assert " ".join(lines) == face.remedy


def test_a_hundred_timers_are_told_in_a_tick_of_a_few_milliseconds(strip, session, clock):
    at = clock.now() + timedelta(hours=1)
    session.timing.more = tuple(
        ringing_once(row(id=str(n), due_at=at + timedelta(minutes=n))) for n in range(100)
    )
    strip._ticker.refresh()
    made = strip.findChildren(TimerCard)
    session.timing.standing = strip._ticker.rows
    spent = []
    for _ in range(10):
        clock.advance(1 / 60)
        began = time.thread_time()
        strip._ticker.tick()
        spent.append(time.thread_time() - began)
    assert sorted(spent)[4] < 0.010
    assert strip.findChildren(TimerCard) == made
    assert sum(not c.visibleRegion().isEmpty() for c in made) < 6


def test_a_drying_in_hand_is_offered_two_buttons(strip):
    asked = []
    strip.dry_asked.connect(asked.append)
    strip.offer_look(is_on=True)
    assert strip._dry.height() >= 48
    strip._dry.click()
    strip._damp.click()
    assert asked == [True, False]
    strip.offer_look(is_on=False)
    assert not strip._dry.isVisible()


def test_a_card_that_begins_to_ring_out_of_sight_is_brought_into_sight(strip, session, clock):
    at = clock.now() + timedelta(minutes=1)
    soon = ringing_once(row(id="soon", due_at=at))
    session.timing.more = (
        *(ringing_once(row(id=str(n), due_at=at + timedelta(hours=n))) for n in range(1, 9)),
        replace(soon, title="Soon"),
    )
    strip._ticker.refresh()
    bar = strip.cards.horizontalScrollBar()
    bar.setValue(bar.maximum())
    clock.advance(1)
    strip._ticker.tick()
    assert bar.value() == 0
