"""Edits of left and right on the drawing table: turned over, folded into one, drawn apart."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QCoreApplication

from armorplan.app.editing.mirror import turned_over
from armorplan.app.editing.pairing import paired
from armorplan.app.editing.twin_pieces import twin_of
from armorplan.app.editing.unpairing import unpaired
from armorplan.desktop.shape_edit_asks import Ask, AskField, Told
from armorplan.desktop.widgets.shape_edit_doing import TableDoing
from armorplan.pattern.parts import Piece

_PAIR = 2


def _tr(text: str) -> str:
    return QCoreApplication.translate("SideActs", text)


def _says_right(piece: Piece) -> bool:
    """Tell whether a piece is called the right one, as drawing left and right apart calls it."""
    return piece.id.endswith("_right") or piece.name.endswith("(right)")


class SideActs:
    """What the menu of left and right does."""

    def __init__(self, doing: TableDoing) -> None:
        self._doing = doing

    def acts(self) -> Mapping[str, Callable[[], None]]:
        """Return what each act does, by its slug."""
        return {
            "turn_over": self._turn_over,
            "pair": self._ask_pair,
            "unpair": self._unpair,
            "made_sides": lambda: self._doing.fields_wanted.emit("pieces"),
        }

    def _pieces(self) -> tuple[Piece, ...]:
        """Return the pieces of what is chosen, each once."""
        pattern = self._doing.scene.pattern
        held = {pattern.part(part).piece for part in self._doing.parts}
        return tuple(piece for piece in pattern.pieces if piece.id in held)

    def _turn_over(self) -> None:
        piece = self._pieces()[0]
        parts = self._doing.scene.pattern.parts
        self._doing.wanted.emit(tuple(part.id for part in parts if part.piece == piece.id))
        words = _tr("turn over {0}").format(piece.name)
        self._doing.edit(lambda draft: turned_over(draft, piece.id), words)

    def _ask_pair(self) -> None:
        """Ask which piece is drawn as the left one and which as the right one, with a mirror suggested."""
        pattern = self._doing.scene.pattern
        single = [piece for piece in pattern.pieces if not piece.mirrored]
        if len(single) < _PAIR:
            self._doing.said.emit(_tr("There are no two pieces here that are each made once."))
            return
        chosen = [piece for piece in self._pieces() if not piece.mirrored]
        first = (chosen or single)[0]
        if len(chosen) == _PAIR:
            self._ask_of(*chosen)
            return
        self._doing.desk.aside(
            lambda: twin_of(pattern, first.id), lambda twin: self._ask_of(first, twin)
        )

    def _ask_of(self, one: Piece, other: Piece | None) -> None:
        single = [p for p in self._doing.scene.pattern.pieces if not p.mirrored]
        help_text = _tr("The left drawing stays; what differs is told.")
        if other is None:
            none = _tr("No other piece is drawn as the mirror of {0}.").format(one.name)
            help_text = f"{none} {help_text}"
            other = next(piece for piece in single if piece != one)
        left, right = (other, one) if _says_right(one) and not _says_right(other) else (one, other)
        named = tuple((piece.id, piece.name) for piece in single)
        self._doing.ask(
            Ask(
                id="pair",
                title=_tr("Two drawn pieces become one, made left and right"),
                help=help_text,
                fields=(
                    AskField(name="left", label=_tr("left is"), text=left.id, words=named),
                    AskField(name="right", label=_tr("right is"), text=right.id, words=named),
                ),
                then=self._pair,
            )
        )

    def _pair(self, told: Told) -> None:
        left, right = told["left"], told["right"]
        if left == right:
            self._doing.said.emit(_tr("Choose two different pieces."))
            return
        words = _tr("fold {0} into {1}").format(right, left)
        self._doing.edit(lambda draft: paired(draft, {left: right}), words)

    def _unpair(self) -> None:
        piece = self._pieces()[0]
        self._doing.want_new()
        words = _tr("draw left and right of {0} apart").format(piece.name)
        self._doing.edit(lambda draft: unpaired(draft, piece.id), words)
