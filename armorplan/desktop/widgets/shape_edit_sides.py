"""Edits of left and right on the drawing table: a piece drawn for the other side is turned over."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QCoreApplication

from armorplan.app.editing.mirror import turned_over
from armorplan.desktop.widgets.shape_edit_doing import TableDoing


def _tr(text: str) -> str:
    return QCoreApplication.translate("SideActs", text)


class SideActs:
    """What the menu of left and right does."""

    def __init__(self, doing: TableDoing) -> None:
        self._doing = doing

    def acts(self) -> Mapping[str, Callable[[], None]]:
        """Return what each act does, by its slug."""
        return {
            "turn_over": self._turn_over,
            "made_sides": lambda: self._doing.fields_wanted.emit("pieces"),
        }

    @property
    def _piece(self) -> str:
        return self._doing.scene.pattern.part(self._doing.parts[0]).piece

    def _turn_over(self) -> None:
        piece = self._piece
        parts = self._doing.scene.pattern.parts
        self._doing.wanted.emit(tuple(part.id for part in parts if part.piece == piece))
        words = _tr("turn over {0}").format(piece)
        self._doing.edit(lambda draft: turned_over(draft, piece), words)
