"""Work in turns: a piece at a time, later work instead of earlier."""

from armorplan.desktop.widgets.turns import Turns


def test_pieces_are_done_in_order_a_turn_each(qtbot, qapp):
    done = []
    turns = Turns(qapp)
    turns.do([lambda: done.append(1), lambda: done.append(2)], after_ms=0)
    assert done == []
    qtbot.waitUntil(lambda: not turns.is_busy)
    assert done == [1, 2]


def test_new_work_takes_the_place_of_old_and_can_be_called_off(qtbot, qapp):
    done = []
    turns = Turns(qapp)
    turns.do([lambda: done.append("old")], after_ms=0)
    turns.do([lambda: done.append("new")], after_ms=0)
    qtbot.waitUntil(lambda: not turns.is_busy)
    assert done == ["new"]
    turns.do([lambda: done.append("never")], after_ms=0)
    turns.stop()
    qapp.processEvents()
    assert done == ["new"]
