"""Suggested rows that fit each other: shown as ghosts one by one, accepted or passed over."""

from collections.abc import Collection, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QListWidget, QPushButton, QVBoxLayout, QWidget

from armorplan.app.bringing.row_words import told_apart
from armorplan.desktop.jobs import Runner
from armorplan.desktop.shape_edit_over import Ghost
from armorplan.desktop.shape_edit_scene import TableScene
from armorplan.desktop.widgets.announcing import announce
from armorplan.geometry.matching.model import RowMatch
from armorplan.geometry.matching.suggesting import suggested
from armorplan.kernel.stopping import ShouldStop
from armorplan.pattern.parts import Part

LINES = 4


def _looked(
    parts: Sequence[Part], taken: Collection[str], should_stop: ShouldStop
) -> tuple[tuple[RowMatch, str], ...]:
    """Return the rows that may fit with their words, no two of which read alike."""
    found = suggested(parts, taken=taken, should_stop=should_stop)
    names = {part.id: part.name for part in parts}
    words = told_apart(found, names, {part.id: part for part in parts})
    return tuple(zip(found, words, strict=True))


class MatchPanel(QWidget):
    """Hidden until matches are looked for.

    ``pointed`` carries the match in hand (``None``: none any more), ``accepted`` one to be joined,
    ``failed`` why none could be looked for; ``began`` and ``left`` frame the looking.
    """

    pointed = Signal(object)
    accepted = Signal(object)
    failed = Signal(str)
    began = Signal()
    left = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("table_matches")
        self._matches: list[RowMatch] = []
        self._passed: set[str] = set()
        self._runner = Runner(self)
        self._runner.answered.connect(self._show)
        self._runner.failed.connect(lambda error: self.failed.emit(str(error)))
        self._head, self._why = QLabel(self), QLabel(self)
        self._why.setWordWrap(True)
        self._why.setObjectName("match_why")
        self.list = QListWidget(self)
        self.list.setObjectName("match_list")
        self.list.setAccessibleName(self.tr("Rows that fit each other, the likeliest first"))
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setMinimumHeight(self.fontMetrics().lineSpacing() * LINES)
        self.list.currentRowChanged.connect(self._point)
        self.list.itemActivated.connect(lambda _item: self.accept())
        row = QHBoxLayout()
        for name, text, slot in (
            ("match_accept", self.tr("&Join them …"), self.accept),
            ("match_pass", self.tr("&Not these"), self.pass_over),
            ("match_close", self.tr("Enough"), self.end),
        ):
            button = QPushButton(text, self)
            button.setObjectName(name)
            button.clicked.connect(slot)
            row.addWidget(button)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self._head)
        down.addWidget(self.list, 1)
        down.addWidget(self._why)
        down.addLayout(row)
        self.hide()

    def look(self, scene: TableScene) -> None:
        """Look for matches among the holes that are in no joint yet."""
        parts, taken = scene.pattern.parts, tuple(scene.through)
        self._head.setText(self.tr("Looking for rows that fit …"))
        self.list.clear()
        self._why.clear()
        self.show()
        self.began.emit()
        self._runner.ask(lambda _report, should_stop: _looked(parts, taken, should_stop))

    def _show(self, found: tuple[tuple[RowMatch, str], ...]) -> None:
        self._matches = [match for match, _ in found if match.key not in self._passed]
        self._head.setText(
            self.tr("{0} rows may fit; Enter joins, Delete passes over").format(len(self._matches))
            if self._matches
            else self.tr("No free rows fit each other.")
        )
        self.list.blockSignals(True)
        self.list.clear()
        for match, said in found:
            if match.key not in self._passed:
                self.list.addItem(self._line(match, said))
        self.list.blockSignals(False)
        self.list.setCurrentRow(0)
        self.list.setFocus()
        self._point(self.list.currentRow())

    def _line(self, match: RowMatch, said: str) -> str:
        is_likely = match.likely >= 0.5  # noqa: PLR2004 - half
        return f"{self.tr('likely') if is_likely else self.tr('perhaps')}: {said}"

    @property
    def match(self) -> RowMatch | None:
        """The match in hand."""
        at = self.list.currentRow()
        return self._matches[at] if 0 <= at < len(self._matches) else None

    def _point(self, _at: int) -> None:
        match = self.match
        self._why.setText(match.why if match else "")
        announce(self, match.why if match else self._head.text())
        self.pointed.emit(match)

    def accept(self) -> None:
        """Ask how the rows in hand are joined."""
        if self.match is not None:
            self.accepted.emit(self.match)

    def pass_over(self) -> None:
        """Take the match in hand off the list."""
        match, at = self.match, self.list.currentRow()
        if match is not None:
            self._passed.add(match.key)
            del self._matches[at]
            self.list.takeItem(at)
            self._point(self.list.currentRow())

    def end(self) -> None:
        """Hide the list and its ghosts."""
        self._runner.drop()
        self.hide()
        self.pointed.emit(None)
        self.left.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        match event.key():
            case Qt.Key.Key_Escape:
                self.end()
            case Qt.Key.Key_Delete:
                self.pass_over()
            case _:
                super().keyPressEvent(event)

    def close_jobs(self) -> bool:
        """Wait for what is being looked for; tell whether it ended in time."""
        return self._runner.close()


def match_ghost(scene: TableScene, match: RowMatch) -> Ghost:
    """Return the second part laid on the first by its holes, and the holes that would be joined."""
    pattern = scene.pattern
    pairs = tuple((pattern.hole(a).centre, pattern.hole(b).centre) for a, b in match.pairs)
    if match.fit is None:
        return Ghost(pairs=pairs)
    place = match.fit.place
    second = pattern.part(match.second)
    turn = (lambda at: (-at[0], at[1])) if match.mirrored else (lambda at: at)
    return Ghost(
        outline=tuple(place(turn(at)) for at in second.outline),
        holes=tuple((place(turn(hole.centre)), hole.diameter_mm) for hole in second.holes),
        pairs=pairs,
    )
