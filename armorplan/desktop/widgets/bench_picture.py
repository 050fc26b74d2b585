"""The parts of the step in hand, lit and near: the diagram of the parts without its buttons."""

from dataclasses import replace

from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QWidget

from armorplan.app.rows import Diagram, Selection
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.bench_numbers import write_numbers
from armorplan.desktop.widgets.bench_writing import letters
from armorplan.desktop.widgets.parts_canvas import PartsCanvas

NAME_SHARE = 0.62
"""Names on the parts are so much of the other letters: the title says them in full."""
NEAR_SHARE = 0.7
"""What takes less than this share of the whole picture is brought near."""


class BenchPicture(PartsCanvas):
    """Shows what a step touches; it is looked at, not handled."""

    def __init__(self, bridge: Bridge, parent: QWidget) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._numbers: tuple[tuple[str, int], ...] = ()
        self._shown: tuple[Diagram | None, Selection] = (None, Selection())
        self.setObjectName("bench_picture")
        self.setAccessibleName(self.tr("Parts of this step"))
        self._bar.hide()
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)

    def show_lit(self, lit: Selection, px: int) -> None:
        """Show the parts as they stand now, some of them lit, beside letters of ``px`` pixels."""
        font = letters(self.font(), round(px * NAME_SHARE))
        is_new = font != self.font()
        if is_new:
            self.setFont(font)
        diagram = self._bridge.session.diagram()
        was, was_lit = self._shown
        if was is None or (diagram.parts, diagram.holes) != (was.parts, was.holes):
            self.show_diagram(replace(diagram, marks=()))
        elif diagram != was:
            # The parts stay: only heads have changed, and what is lit is drawn below.
            self.drawing.take(diagram, self.font())
        if is_new or diagram != was or lit != was_lit:
            self._shown = diagram, lit
            self.light(lit)
            self._come_near(lit.parts)

    def number(self, numbers: tuple[tuple[str, int], ...]) -> None:
        """Write numbers beside joints, such as the order in which their pins go in."""
        if numbers != self._numbers:
            self._numbers = numbers
            self.viewport().update()

    def drawForeground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """Write the numbers over the picture, in letters of the view whatever the zoom."""
        super().drawForeground(painter, rect)
        if self._numbers:
            heads = self.drawing.heads()
            at = {n: QPointF(*heads[j]) for j, n in self._numbers if j in heads}
            write_numbers(painter, self, {n: self.mapFromScene(spot) for n, spot in at.items()})

    def _come_near(self, parts: tuple[str, ...]) -> None:
        """Bring near the piece that the parts are of, or the parts alone where that is enough."""
        drawing = self.drawing
        known = tuple(part for part in parts if part in drawing.items)
        whole = drawing.bounds()
        near = drawing.box_of(drawing.mates(known)) if known else QRectF()
        is_small = not near.isEmpty() and (
            min(near.width() / whole.width(), near.height() / whole.height()) < NEAR_SHARE
        )
        wanted = near if is_small else QRectF()
        if wanted != self.near:
            self.fit_to(wanted)
