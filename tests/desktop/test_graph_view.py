"""Both graphs: the shared choice, the walk by keys, labels, and a layout that stays."""

from itertools import pairwise

import pytest
from PySide6.QtCore import QPointF, Qt

from armorplan.app.rows import BenchState, GraphEdge, GraphNode, GraphRows
from armorplan.desktop.graph_layout import edge_key
from armorplan.desktop.picture_colours import Look
from armorplan.desktop.widgets.graph_canvas import READABLE, GraphCanvas
from armorplan.desktop.widgets.graph_view import GraphView

KINDS = ("assembly", "steps")


@pytest.fixture
def make(bridge, qtbot):
    def shown(kind):
        made = GraphView(bridge, kind=kind)
        qtbot.addWidget(made)
        made.resize(900, 600)
        made.show()
        made.activateWindow()
        qtbot.waitUntil(made.isActiveWindow)
        made.canvas.setFocus()
        return made

    return shown


def click(view, qtbot, key):
    view.canvas.reveal(key)
    x, y = view.canvas.places()[key]
    spot = view.canvas.mapFromScene(QPointF(x, y))
    qtbot.mouseClick(view.canvas.viewport(), Qt.MouseButton.LeftButton, pos=spot)


def test_a_tag_chooses_the_steps_of_its_tray(make, bridge, session, qtbot):
    view = make("steps")
    node = session.step_graph().nodes[3]
    click(view, qtbot, node.id)
    assert bridge.selection.steps == node.steps
    assert view.canvas.look_of(node.id) is Look.LIT
    assert view.canvas.look_of(session.step_graph().nodes[0].id) is Look.DIM


def test_a_tag_of_the_assembly_chooses_its_part(make, bridge, qtbot):
    view = make("assembly")
    click(view, qtbot, "piece_0.boss")
    assert bridge.selection.parts == ("piece_0.boss",)


def test_what_holds_two_parts_can_be_chosen_too(make, bridge, session, qtbot):
    view = make("assembly")
    edge = next(e for e in session.assembly_graph().edges if len(e.joints) > 1)
    click(view, qtbot, edge_key(edge))
    assert bridge.selection.joints == edge.joints
    assert set(bridge.selection.parts) == {edge.tail, edge.head}
    assert view.canvas.look_of(edge_key(edge)) is Look.LIT
    single = next(e for e in session.assembly_graph().edges if len(e.joints) == 1)
    click(view, qtbot, edge_key(single))
    assert bridge.selection.joints == single.joints
    assert bridge.selection.steps == session.choose_joint(single.joints[0]).steps


def test_a_choice_made_elsewhere_lights_both_graphs(make, bridge, session):
    assembly, steps = make("assembly"), make("steps")
    rivet = next(s for s in session.steps if s.joints)
    bridge.choose_steps((rivet.id,))
    lit = {key for key in steps.canvas.places() if steps.canvas.look_of(key) is Look.LIT}
    assert lit == {rivet.tray}
    lit = {key for key in assembly.canvas.places() if assembly.canvas.look_of(key) is Look.LIT}
    assert lit.issuperset(rivet.parts)
    assert any(key.startswith("edge:") for key in lit)
    bridge.choose_steps(())
    assert assembly.canvas.look_of("piece_0.boss") is Look.PLAIN


@pytest.mark.parametrize("kind", KINDS)
def test_the_keys_reach_everything_and_enter_chooses(make, bridge, qtbot, kind):
    view = make(kind)
    qtbot.keyClick(view.canvas, Qt.Key.Key_Home)
    walked = {view.canvas.hands.here}
    for _ in range(len(view.canvas.places())):
        qtbot.keyClick(view.canvas, Qt.Key.Key_PageDown)
        walked.add(view.canvas.hands.here)
    assert walked == set(view.canvas.places())
    qtbot.keyClick(view.canvas, Qt.Key.Key_Return)
    chosen = bridge.selection
    assert chosen.steps or chosen.parts
    qtbot.keyClick(view.canvas, Qt.Key.Key_Escape)
    assert not bridge.selection.steps


def test_arrows_follow_the_steps(make, session, qtbot):
    view = make("steps")
    first, second = session.step_graph().nodes[:2]
    view.canvas.hands.walk_to(first.id)
    qtbot.keyClick(view.canvas, Qt.Key.Key_Right)
    assert view.canvas.hands.here == second.id
    qtbot.keyClick(view.canvas, Qt.Key.Key_Left)
    assert view.canvas.hands.here == first.id


def test_a_change_of_state_moves_nothing(make, bridge, session):
    view = make("steps")
    view.canvas.zoom(0.7)
    before, scale = dict(view.canvas.places()), view.canvas.scale_now()
    bridge.done(session.step_graph().nodes[0].steps)
    assert view.canvas.places() == before
    assert view.canvas.scale_now() == scale
    row = view.twin_model.index(0, 0).data()
    assert BenchState.DONE.value in row


def test_a_long_build_opens_where_work_goes_on(make, bridge, session):
    nodes = session.step_graph().nodes
    for node in nodes[:4]:
        bridge.done(node.steps)
    view = make("steps")
    assert view.canvas.scale_now() >= 0.7
    assert view.canvas.first() == nodes[4].id
    tag = view.canvas.places()[nodes[4].id]
    assert view.canvas.viewport().rect().contains(view.canvas.mapFromScene(QPointF(*tag)))


@pytest.mark.parametrize("kind", KINDS)
def test_the_list_shares_the_choice_and_tells_what_hangs_on_what(
    make, bridge, qtmodeltester, kind
):
    view = make(kind)
    qtmodeltester.check(view.twin_model)
    view.twin.setVisible(True)
    view.twin.setFocus()
    index = view.twin_model.index(1, 0)
    view.twin.setCurrentIndex(index)
    assert view.canvas.look_of(view.twin_model.key_at(index)) is Look.LIT
    assert ("joined to" if kind == "assembly" else "after") in index.data()


def test_parts_lie_in_the_graph_as_in_the_drawing(make):
    places = make("assembly").canvas.places()
    top, middle, low = (places[f"piece_0.petal_{p}"] for p in ("top", "mid", "low"))
    assert top[1] < middle[1] < low[1]
    assert places["piece_0.boss"][0] < places["piece_1.boss"][0]


def test_a_part_joined_to_itself_shows_a_loop_with_its_label(qtbot):
    node = GraphNode(id="strap", label="buckle strap", kind="strap", state=BenchState.READY)
    loop = GraphEdge(tail="strap", head="strap", label="1 rivet", joints=("fold",))
    canvas = GraphCanvas(lambda colours, _node: colours.strap)
    qtbot.addWidget(canvas)
    canvas.show_graph(GraphRows(nodes=(node,), edges=(loop,), directed=False), {})
    assert canvas.edge_of(edge_key(loop)).boundingRect().center().y() < -40
    assert list(canvas.places()) == ["strap", "edge:strap|strap"]


def test_names_tell_the_two_graphs_apart(make):
    assembly, steps = make("assembly"), make("steps")
    assert assembly.canvas.accessibleName() != steps.canvas.accessibleName()
    assert assembly.objectName() != steps.objectName()
    assert assembly.twin.accessibleName()


def test_a_small_graph_opens_whole_and_a_large_one_readable(qtbot):
    def opened(count):
        nodes = tuple(
            GraphNode(id=f"t{n}", label=f"Tag {n}", kind="cut", state=BenchState.READY)
            for n in range(count)
        )
        pairs = pairwise(nodes)
        edges = tuple(GraphEdge(tail=a.id, head=b.id, label="") for a, b in pairs)
        canvas = GraphCanvas(lambda colours, _node: colours.strap)
        qtbot.addWidget(canvas)
        canvas.resize(300, 200)
        canvas.show()
        canvas.show_graph(GraphRows(nodes=nodes, edges=edges, directed=True), {})
        return canvas.scale_now()

    assert opened(15) < READABLE
    assert opened(16) == pytest.approx(READABLE)
