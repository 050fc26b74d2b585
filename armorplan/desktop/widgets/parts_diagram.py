"""The diagram of the parts: outlines, holes and fasteners, lit by what is chosen anywhere."""

from collections.abc import Iterable, Sequence

from PySide6.QtCore import QPoint, QRect, QRectF, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QListView, QWidget

from armorplan.app.rows import Diagram, DiagramJoint, Selection
from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.closing_desk import Closing, ClosingDesk
from armorplan.desktop.mark_words import MARK, shape_twins
from armorplan.desktop.part_words import JOINT, PART, diagram_rows
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.stack_words import stack_of
from armorplan.desktop.twin_model import TwinModel
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.closing_bar import ClosingBar
from armorplan.desktop.widgets.fastener_card import FastenerCard
from armorplan.desktop.widgets.parts_canvas import PartsCanvas
from armorplan.desktop.widgets.picture_pane import PicturePane

CORNER_PX = 8
BELOW_CARD_PX = 48
"""Room for the scale bar in the lower corners."""
MOST_HIGH, MOST_WIDE = 0.5, 0.5
"""A card takes so much of the picture's height, or says less; so much of its width, if it can."""


class PartsDiagram(PicturePane):
    """Shows the parts and tells the bridge which part or fastener is chosen."""

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__("parts_diagram", self._choose_key, parent)
        self._bridge = bridge
        self._diagram = Diagram(parts=(), holes=(), joints=())
        self._shapes: tuple[ShapeRow, ...] = ()
        self.canvas = PartsCanvas(self)
        self.canvas.setObjectName("parts_canvas")
        self.canvas.setAccessibleName(self.tr("Diagram of the parts"))
        self.canvas.setAccessibleDescription(
            self.tr(
                "Arrow keys walk between parts and fasteners, Page Down goes through all of them, "
                "Enter chooses, Escape chooses nothing. Plus and minus zoom, zero shows all, "
                "Shift with arrows moves the drawing."
            )
        )
        self.twin_model = TwinModel((self.tr("Part, fastener or what the shapes tell"),), self)
        self.twin = QListView(self)
        self.twin.setObjectName("parts_list")
        self.twin.setAccessibleName(self.tr("Parts and fasteners as a list"))
        self.twin.setModel(self.twin_model)
        self.twin.setSelectionMode(QListView.SelectionMode.ExtendedSelection)
        self.twin.setUniformItemSizes(True)
        self.closing_desk = ClosingDesk(bridge, self)
        self.closing_bar = ClosingBar(self)
        self.closing_bar.hide()
        self.hold(self.canvas, self.canvas, self.twin)
        self.put_below(self.closing_bar)
        self.card = FastenerCard(self.canvas)
        self.canvas.hands.chosen.connect(self._choose_key)
        self.canvas.hands.walked.connect(self.speak)
        self.canvas.zoomed.connect(self._place_card)
        self.watch(bridge)
        bridge.opened.connect(self.canvas.fit)
        self._follow_closing()
        self.refresh()

    def _follow_closing(self) -> None:
        desk, bar = self.closing_desk, self.closing_bar
        bar.moved.connect(desk.go)
        desk.begun.connect(bar.wait)
        desk.failed.connect(bar.fail)
        desk.shown.connect(self._show_closing)

    def show_closing(self, wanted: bool) -> None:
        """Show over the parts what is in reach along the order, with the bar to run along it."""
        self.closing_bar.setVisible(wanted)
        self.closing_desk.switch(wanted)
        if not wanted:
            self.canvas.show_closing(None)
        self.show_selection(self._bridge.selection)

    def bar_px(self) -> int:
        """Return how high the bar below the parts is; nothing while reach is not shown."""
        return self.closing_bar.high_px() if self.closing_desk.is_on else 0

    def step_closing(self, by: int) -> None:
        """Go so many steps along the order; what is not switched on says so."""
        if self.closing_desk.is_on:
            self.closing_bar.step(by)
        else:
            said = self.tr("Switch on 'Reach while it is closed up' (Ctrl+K) first.")
            self._bridge.said.emit(said)

    def _show_closing(self, closing: Closing) -> None:
        self.canvas.show_closing(closing)
        self.closing_bar.show_closing(closing)

    def refresh(self) -> None:
        """Ask for the rows anew and draw what has changed."""
        session, selection = self._bridge.session, self._bridge.selection
        diagram, shapes = session.diagram(), session.shapes()
        if (diagram, shapes) == (self._diagram, self._shapes):
            self.show_selection(selection)
            return
        self._diagram, self._shapes = diagram, shapes
        self.canvas.show_diagram(diagram, shapes, selection)
        self.twin_model.show((*diagram_rows(diagram), *shape_twins(shapes, diagram.marks)))
        self._tell_chosen(selection)

    def _choose_key(self, key: str) -> None:
        if key.startswith(PART):
            self._bridge.choose_part(key.removeprefix(PART))
        elif key.startswith(JOINT):
            self._bridge.choose_joint(key.removeprefix(JOINT))
        elif key.startswith(MARK):
            self._bridge.choose_measure(key.removeprefix(MARK))
        else:
            self._bridge.choose_steps(())

    def show_selection(self, selection: Selection) -> None:
        """Show what is chosen."""
        self.canvas.light(selection)
        self._tell_chosen(selection)

    def _tell_chosen(self, selection: Selection) -> None:
        parts, joints = selection.parts, selection.joints
        told = tuple(MARK + measure for measure in selection.measures)
        self.follow(told or (*(PART + p for p in parts), *(JOINT + j for j in joints)))
        chosen = [j for j in self._diagram.joints if j.id in joints] if len(joints) == 1 else []
        self.closing_desk.choose(chosen[0].id if chosen else "")
        if not chosen or self.closing_desk.is_on:  # then the bar below speaks of it
            self.card.hide()
            return
        self._show_card(chosen[0])

    def _show_card(self, joint: DiagramJoint) -> None:
        by_name = {part.name: part for part in self._diagram.parts}
        kinds = tuple(by_name[name].kind if name in by_name else "" for name in joint.stack)
        plain = tuple(by_name[n].plain_name or n if n in by_name else n for n in joint.stack)
        why = self._bridge.session.why(joint.step) if joint.step else None
        self.card.show_joint(joint, kinds, why, stack_of(joint.id, plain, self._shapes))
        self.card.keep_within(
            QSize(round(self.canvas.width() * MOST_WIDE), round(self.canvas.height() * MOST_HIGH))
        )
        self._place_card()
        announce(self.card, self.card.sentence(joint, why))

    def _place_card(self) -> None:
        """Put the card into the corner that hides least of what it speaks of."""
        if self.card.isHidden():
            return
        view, size = self.canvas.rect(), self.card.size()
        left, right = CORNER_PX, view.width() - size.width() - CORNER_PX
        top, low = CORNER_PX, view.height() - size.height() - BELOW_CARD_PX
        corners = (QPoint(right, top), QPoint(left, top), QPoint(right, low), QPoint(left, low))
        # Corners are taken to the drawing once, in place of its thousands of places to the view.
        boxes = [self.canvas.mapToScene(QRect(corner, size)).boundingRect() for corner in corners]
        hidden = _weights_within(boxes, self.canvas.weights_of(self._bridge.selection))
        self.card.move(corners[hidden.index(min(hidden))])

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place_card()


def _weights_within(boxes: Sequence[QRectF], spots: Iterable[tuple[Place, int]]) -> list[int]:
    """Return what the places within each box weigh together."""
    found = [0] * len(boxes)
    numbered = tuple(
        (at, (box.left(), box.top(), box.right(), box.bottom())) for at, box in enumerate(boxes)
    )
    for (x, y), weight in spots:
        for at, (left, top, right, low) in numbered:
            if left <= x <= right and top <= y <= low:
                found[at] += weight
    return found
