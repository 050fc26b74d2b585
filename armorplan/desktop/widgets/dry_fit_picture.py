"""The picture within the dry fit: what the line in hand is about, the pins of its round by their numbers."""

from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QHBoxLayout, QWidget

from armorplan.app.dry_fit_rows import PieceFit
from armorplan.app.rows import Selection
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.dry_fit_lines import Line, LineKind
from armorplan.desktop.widgets.bench_picture import BenchPicture

LIST_SHARE, PICTURE_SHARE = 3, 2


class DryFitPicture(BenchPicture):
    """Looked at, not handled: the pages of the window may lie hidden behind the dry fit."""

    def __init__(self, bridge: Bridge, parent: QWidget) -> None:
        super().__init__(bridge, parent)
        self._panel = parent
        self.setObjectName("dry_fit_picture")
        self.setAccessibleName(self.tr("Parts that the line in hand is about"))

    def beside(self, widget: QWidget) -> QHBoxLayout:
        """Return the picture at the right of what it belongs to."""
        row = QHBoxLayout()
        row.addWidget(widget, LIST_SHARE)
        row.addWidget(self, PICTURE_SHARE)
        return row

    def show_line(self, fit: PieceFit, line: Line, lit: Selection) -> None:
        """Show what a line lights, within its fit; of a pin the numbers of all of its round."""
        self.show_lit(lit, round(QFontMetricsF(self._panel.font()).height()))
        self.number(_numbers(fit, line))


def _numbers(fit: PieceFit, line: Line) -> tuple[tuple[str, int], ...]:
    if line.kind is not LineKind.PIN:
        return ()
    pins = next((on.pins for on in fit.rounds if line.key.startswith(f"pin:{on.number}:")), ())
    return tuple((pin.joint, pin.number) for pin in pins)
