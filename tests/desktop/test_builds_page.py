"""The page of the builds in hand, over the invented session and a small plan of two builds."""

from dataclasses import dataclass, replace
from datetime import UTC, datetime

import pytest
from desktop.fake_session import FakeSession
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from schedule.promise.promise_scenes import MAKER, MONDAY_AT, after, hands, plan_of, problem_of

from armorplan.app.in_hand import InHand, WeekPlan
from armorplan.app.promises import Asked
from armorplan.app.shown_plan import ShownPlan
from armorplan.desktop import odds_desk
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.odds_desk import OddsDesk
from armorplan.desktop.widgets.builds_page import BuildsPage
from armorplan.schedule.problem import Job

DUE_AT = datetime(2026, 11, 30, 14, 0, tzinfo=UTC)
PROBLEM = problem_of(
    [hands("cut", 300, spread=0.3, cause="hands: cut"), hands("sew", 120)],
    [after("cut", "sew")],
    (MAKER,),
    jobs=(
        Job(id="watch-1", title="The cop", activities=("cut",), due_min=840, weight=2),
        Job(id="collar", title="The collar", activities=("sew",)),
    ),
)
PLAN = plan_of(cut=(480, 780, "maker"), sew=(780, 900, "maker"))
COP = InHand(build="watch-1", title="The cop", due_at=DUE_AT, weight=2, is_open=True)
COLLAR = InHand(build="collar", title="The collar")
BADGE = InHand(build="badge", title="The badge", in_hand=False)


@dataclass
class HandSession(FakeSession):
    """The invented session with three builds, two of them in hand."""

    builds: tuple[InHand, ...] = (BADGE, COLLAR, COP)
    agreed: tuple = ()

    def in_hand(self):
        return self.builds

    def set_order(self, build, due_at, ready_at, weight=1, in_hand=True):
        self.agreed = (build, due_at, ready_at, weight, in_hand)
        told = {"due_at": due_at, "ready_at": ready_at, "weight": weight, "in_hand": in_hand}
        self.builds = tuple(replace(b, **told) if b.build == build else b for b in self.builds)
        self._hear()
        return "That is agreed."


@pytest.fixture
def session(clock):
    shown = ShownPlan(plan=PLAN, origin_at=MONDAY_AT)
    made = HandSession.of(92)
    made.week_plan = WeekPlan(problem=PROBLEM, shown=shown)
    return made


@pytest.fixture
def page(qtbot, monkeypatch, session, clock):
    monkeypatch.setattr(odds_desk, "SETTLE_MS", 0)
    desk = OddsDesk()
    made = BuildsPage(Bridge(session, clock), desk)
    qtbot.addWidget(made)
    made.show()
    qtbot.waitUntil(lambda: "1000 times" in made.standing.text())
    yield made
    made.close()
    desk.close()


def cells(page, row):
    return [page.rows.index(row, column).data() for column in range(page.rows.columnCount())]


def choose(page, row):
    page.table.setCurrentIndex(page.rows.index(row, 0))


def test_each_build_stands_in_a_row_with_its_odds_in_words_too(page):
    cop, collar, badge = (cells(page, row) for row in range(3))
    assert cop[:5] == [
        "The cop",
        "in hand, open here",
        "Mon 30 Nov 14:00",
        "2",
        "Mon 30 Nov 13:00",
    ]
    assert cop[5].startswith("perhaps: ")
    assert "% ±" in cop[5]
    assert collar[:4] == ["The collar", "in hand", "no date", "1"]
    assert badge[:4] == ["The badge", "laid aside", "no date", "1"]
    assert badge[4:] == [""] * 5
    assert page.standing.text().startswith(
        "2 in hand, 1 laid aside. The least to spare before a date has “The cop”: 1 h. The plan "
        "was gone through 1000"
    )
    spoken = page.rows.index(0, 0).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.startswith("The cop. Standing: in hand, open here. Due: Mon 30 Nov 14:00")


def test_what_is_said_of_a_build_follows_the_choice(page):
    assert page.told.toPlainText().startswith("The earliest date to promise at 80 %: Mon 30 Nov ")
    assert "How long hands take to cut (1 step): were that sure" in page.told.toPlainText()
    assert "% of the runs, ± " in page.told.toPlainText()
    assert " %. The plan leaves 1 h before it is due." in page.told.toPlainText()
    choose(page, 2)
    assert page.told.toPlainText() == "It is laid aside: take it in hand to have it planned."


def test_dates_are_agreed_on_by_key(page, session):
    assert page.fields.due.text() == "2026-11-30 14:00"
    page.fields.due.setText("2026-12-04 17:30")
    page.fields.weight.setValue(3)
    QTest.keyClick(page.fields.agree, Qt.Key.Key_Space)
    due_at = datetime(2026, 12, 4, 17, 30, tzinfo=UTC)
    assert session.agreed == ("watch-1", due_at, None, 3, True)
    assert cells(page, 0)[2:4] == ["Fri 4 Dec 17:30", "3"]
    assert page.standing.text() == "That is agreed."


def test_a_build_is_taken_in_hand_and_the_choice_stays_with_it(page, session):
    choose(page, 2)
    assert not page.fields.in_hand.isChecked()
    page.fields.in_hand.setChecked(True)
    QTest.keyClick(page.fields.due, Qt.Key.Key_Return)
    assert session.agreed == ("badge", None, None, 1, True)
    assert page.rows.key_at(page.table.currentIndex()) == "badge"
    assert (
        page.told.toPlainText() == "Its odds are told once there is a plan and they are reckoned."
    )


def test_a_date_that_is_none_changes_nothing_and_is_told(page, session):
    page.fields.due.setText("soon")
    page.fields.agree.click()
    assert session.agreed == ()
    assert page.standing.text().startswith("'soon' is no date.")


def test_what_is_typed_stays_while_better_plans_come(page, session):
    page.fields.due.setText("2026-12-0")
    session._hear()
    assert page.fields.due.text() == "2026-12-0"


def test_other_odds_are_reckoned_and_told(qtbot, page):
    page.odds.setValue(95)
    qtbot.waitUntil(lambda: "at 95 %" in page.told.toPlainText())
    assert page.rows.rowCount() == 3


def test_the_plan_is_kept_as_promised(page, session):
    page.keep.click()
    assert session.week_plan.promised is session.week_plan.shown
    assert page.standing.text() == "The plan as it stands is kept as promised."


def test_better_plans_that_keep_coming_do_not_keep_the_odds_away(qtbot, monkeypatch, session):
    monkeypatch.setattr(odds_desk, "SETTLE_MS", 0)
    desk, told = OddsDesk(), []
    desk.told.connect(told.append)
    week = session.week_plan
    later = plan_of(cut=(500, 800, "maker"), sew=(800, 920, "maker"))
    better = replace(week, shown=replace(week.shown, plan=later))
    # As soon as the first is begun the second is there.
    desk.busy.connect(lambda _busy: desk.ask(better, "UTC", Asked()))
    desk.ask(week, "UTC", Asked())
    qtbot.waitUntil(lambda: bool(told) and not desk.is_busy)
    planned = [row.planned_at for promised in told for row in promised.builds[:1]]
    assert planned[0] < planned[-1]
    assert told[-1].builds[0].causes
    count = len(told)
    desk.ask(replace(week, shown=replace(week.shown, plan=later)), "UTC", Asked())
    assert not desk.is_busy
    assert len(told) == count
    desk.close()


def test_without_a_plan_there_are_no_odds_and_no_promise(qtbot, clock, session):
    session.week_plan = None
    desk = OddsDesk()
    page = BuildsPage(Bridge(session, clock), desk)
    qtbot.addWidget(page)
    page.show()
    assert not page.keep.isEnabled()
    assert not desk.is_busy
    assert cells(page, 0)[4:] == [""] * 5
    page.close()
    desk.close()


def test_every_control_has_a_name_that_is_spoken(page):
    controls = (page.table, page.odds, page.told, page.fields.due, page.fields.ready)
    assert all(control.accessibleName() for control in (*controls, page.fields.weight))


@pytest.mark.parametrize("wide", [1000, 1260])
def test_the_columns_fit_and_what_is_left_out_stands_in_words(qtbot, page, wide):
    page.resize(wide, 560)
    qtbot.waitUntil(lambda: page.width() == wide)
    table = page.table
    shown = [c for c in range(page.rows.columnCount()) if not table.isColumnHidden(c)]
    assert {0, 2, 4, 5, 7, 8} <= set(shown)
    assert table.horizontalHeader().length() <= table.viewport().width()
    assert table.columnWidth(0) >= 160
    assert all(table.columnWidth(c) >= table.sizeHintForColumn(c) for c in shown if c)
    assert "(50 %)" in page.told.toPlainText()
    page.resize(2200, 560)
    qtbot.waitUntil(lambda: page.width() == 2200)
    assert not any(table.isColumnHidden(c) for c in range(page.rows.columnCount()))


def test_an_empty_date_says_what_that_means_and_looks_like_no_date(page):
    assert page.fields.due.placeholderText() == "no date"
    assert page.fields.ready.placeholderText() == "at any time"
    assert page.fields.ready.toolTip().startswith("Written as 2026-12-16 17:30")
