"""Lines of the shapes that take a while: reckoned once they are chosen, off the window's thread."""

from collections.abc import Callable, Iterable
from dataclasses import replace

from PySide6.QtCore import QObject, Signal

from armorplan.app.rows import Selection
from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop


class LaterRows(QObject):
    """Holds what such lines came to; ``told`` when one of them says something else than before."""

    told = Signal()

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._asked: ShapeRow | None = None
        self._shown: dict[ShapeRow, ShapeRow] = {}
        self._runner = Runner(self)
        self._runner.answered.connect(self._take)
        self._runner.failed.connect(self._fail)
        bridge.opened.connect(self._forget)

    def as_known(self, rows: Iterable[ShapeRow]) -> tuple[ShapeRow, ...]:
        """Return rows with what is known by now of those that take a while."""
        return tuple(self._shown.get(row, row) if row.later else row for row in rows)

    def ask(self, rows: Iterable[ShapeRow], row_id: str) -> None:
        """Have a row reckoned if it takes a while and is neither known nor on its way."""
        row = next((row for row in rows if row.id == row_id), None)
        if row is None or row.later is None:
            return
        if row in self._shown:
            self._light(self._shown[row])
            return
        self._asked = row
        self._show(
            replace(row, verdict=self.tr("being reckoned"), text=self.tr("Being reckoned …"))
        )
        self._runner.ask(_reckoning(row.later))

    def close(self) -> bool:
        """Leave what is on its way; tell whether it ended in time."""
        return self._runner.close()

    def _show(self, row: ShapeRow) -> None:
        if self._asked is not None:
            self._shown[self._asked] = row
            self.told.emit()

    def _take(self, row: ShapeRow) -> None:
        self._show(row)
        self._asked = None
        self._light(row)

    def _light(self, row: ShapeRow) -> None:
        """Light what a row that is still chosen speaks of, now that it is known."""
        lit = Selection(steps=row.steps, parts=row.parts, joints=row.joints, measures=(row.id,))
        if self._bridge.selection.measures == lit.measures and self._bridge.selection != lit:
            self._bridge.select(lit)

    def _fail(self, error: Exception) -> None:
        if self._asked is not None:
            said = str(error) or type(error).__name__
            self._show(replace(self._asked, verdict=self.tr("not reckoned"), text=said))
        self._asked = None

    def _forget(self) -> None:
        self._runner.drop()
        self._asked = None
        self._shown.clear()


def _reckoning(later: Callable[[], ShapeRow]) -> Callable[[Report, ShouldStop], ShapeRow]:
    return lambda _report, _stop: later()
