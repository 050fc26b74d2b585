"""What the bridge tells the views, and when."""

from desktop.fake_session import FakeSession

from armorplan.app.rows import Selection
from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.bridge import Bridge


def test_a_done_step_is_told_once_and_said(bridge, session, qtbot):
    said = []
    bridge.said.connect(said.append)
    first = session.ready_steps()[0]
    with qtbot.waitSignals([bridge.changed, bridge.said]):
        bridge.done((first,))
    assert said == ["Done: Cut the lower petal"]


def test_selection_is_one_frozen_value_and_is_not_repeated(bridge, session):
    heard = []
    bridge.selected.connect(heard.append)
    step = session.steps[40].id
    bridge.choose_steps((step,))
    bridge.choose_steps((step,))
    assert len(heard) == 1
    assert isinstance(heard[0], Selection)
    assert heard[0].joints == session.steps[40].joints


def test_a_joint_chooses_its_step(bridge):
    bridge.choose_joint("piece_0.boss_0")
    assert bridge.selection.steps == ("watch/piece_0/none/rivet/boss",)
    assert set(bridge.selection.parts) == {"piece_0.boss", "piece_0.petal_mid"}


def test_another_build_silences_the_former(bridge, session):
    heard = []
    bridge.open(FakeSession.of(5))
    bridge.changed.connect(lambda: heard.append("changed"))
    session.done(session.ready_steps()[:1])
    assert heard == []
    bridge.done(bridge.session.ready_steps()[:1])
    assert heard == ["changed"]


def test_undo_and_redo_pass_through(bridge: Bridge, session: FakeSession):
    first = session.ready_steps()[0]
    bridge.done((first,))
    bridge.undo()
    assert first in session.ready_steps()
    bridge.redo()
    assert first not in session.ready_steps()


def test_a_measure_chooses_its_parts_and_joints_and_itself(bridge, session):
    session.shape_rows = (
        ShapeRow(
            id="rows:upper",
            topic="rows that meet",
            title="upper row",
            verdict="meet",
            text="The rows meet.",
            parts=("piece_0.petal_mid", "piece_0.petal_top"),
            joints=("piece_0.upper_0",),
        ),
    )
    bridge.choose_measure("rows:upper")
    assert bridge.selection == Selection(
        parts=("piece_0.petal_mid", "piece_0.petal_top"),
        joints=("piece_0.upper_0",),
        measures=("rows:upper",),
    )
    bridge.choose_measure("rows:gone")
    assert bridge.selection == Selection()
