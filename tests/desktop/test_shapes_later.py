"""A line of the shapes that takes a while is reckoned once it is chosen, and the window stays quick."""

from dataclasses import replace
from threading import Event, get_ident

import pytest
from desktop.fake_session import FakeSession
from desktop.fake_shapes import some_shapes

from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.widgets.shapes_page import ShapesView
from armorplan.kernel.errors import ArmorplanError

SLOW = ShapeRow(
    id="reach:firm",
    topic="reach",
    title="how firm",
    verdict="reckoned when asked",
    text="It takes a while.",
    joints=("piece_0.upper_0", "piece_0.upper_1"),
)


class Reckoning:
    """What a row is reckoned by: waits until it is let go on."""

    def __init__(self, outcome):
        self.go_on, self.threads, self._outcome = Event(), [], outcome

    def __call__(self):
        self.threads.append(get_ident())
        assert self.go_on.wait(10)
        if isinstance(self._outcome, Exception):
            raise self._outcome
        return self._outcome


@pytest.fixture
def shown(bridge, session, qtbot):
    views = []

    def make(outcome):
        slow = Reckoning(outcome)
        session.shape_rows = (*some_shapes(), replace(SLOW, later=slow))
        view = ShapesView(bridge)
        views.append(view)
        qtbot.addWidget(view)
        view.show()
        qtbot.waitExposed(view)
        return view, slow

    yield make
    for view in views:
        assert view.later.close()


def choose(view, row_id):
    view.list.setCurrentIndex(view.model.index_of(row_id))


def test_nothing_is_reckoned_before_it_is_chosen(shown, qtbot):
    view, slow = shown(SLOW)
    choose(view, "rows:left")
    qtbot.wait(50)
    assert not slow.threads


def test_it_is_reckoned_in_another_thread_and_then_told_and_lit(shown, bridge, qtbot):
    known = replace(SLOW, verdict="2 flips", text="Two flip.", joints=("piece_0.upper_1",))
    view, slow = shown(known)
    choose(view, SLOW.id)
    assert "Being reckoned" in view.detail.text.toPlainText()
    slow.go_on.set()
    qtbot.waitUntil(lambda: "Two flip." in view.detail.text.toPlainText(), timeout=5000)
    assert slow.threads != [get_ident()]
    assert bridge.selection.joints == ("piece_0.upper_1",)
    choose(view, "rows:left")
    choose(view, SLOW.id)
    assert bridge.selection.joints == ("piece_0.upper_1",)
    assert len(slow.threads) == 1


def test_of_another_build_nothing_of_it_is_told(shown, bridge, qtbot):
    view, slow = shown(replace(SLOW, text="Two flip."))
    choose(view, SLOW.id)
    other = FakeSession.of(30)
    other.shape_rows = (*some_shapes(), replace(SLOW, later=Reckoning(SLOW)))
    bridge.open(other)
    slow.go_on.set()
    qtbot.wait(100)
    assert all("Two flip." not in row.text for row in view.rows)


def test_why_it_cannot_be_reckoned_is_told(shown, qtbot):
    view, slow = shown(ArmorplanError("The drawing is gone."))
    choose(view, SLOW.id)
    slow.go_on.set()
    qtbot.waitUntil(lambda: "The drawing is gone." in view.detail.text.toPlainText(), timeout=5000)
