"""Parts put to other pieces on the drawing table, and outlines that become parts."""

from collections.abc import Callable, Mapping, Sequence

from PySide6.QtCore import QCoreApplication

from armorplan.app.editing.parts import add_part, put_to_piece
from armorplan.desktop.shape_edit_asks import Ask, AskField, Told
from armorplan.desktop.shape_edit_over import Ghost
from armorplan.desktop.widgets.shape_edit_doing import TableDoing
from armorplan.pattern.parts import PartKind
from armorplan.pattern.pattern import Pattern


def _tr(text: str) -> str:
    return QCoreApplication.translate("PieceActs", text)


def _names(pattern: Pattern, parts: Sequence[str]) -> str:
    return ", ".join(pattern.part(part).name for part in parts)


class PieceActs:
    """What the menu of parts does with pieces and with outlines that are no part yet."""

    def __init__(self, doing: TableDoing) -> None:
        self._doing = doing

    def acts(self) -> Mapping[str, Callable[[], None]]:
        """Return what each act does, by its slug."""
        return {"put_to_piece": self._ask_piece, "add_part": self._ask_part}

    def _ask_piece(self) -> None:
        pattern, parts = self._doing.scene.pattern, self._doing.parts
        now = {pattern.part(part).piece for part in parts}
        others = [piece for piece in pattern.pieces if {piece.id} != now]
        self._doing.ask(
            Ask(
                id="put_to_piece",
                title=_tr("{0} to another piece").format(_names(pattern, parts)),
                help=_tr("What is joined for good is best one piece: dyed and tried on as one."),
                fields=(
                    AskField(
                        name="piece",
                        label=_tr("goes to"),
                        words=(*((one.id, one.name) for one in others), ("", _tr("a new piece"))),
                    ),
                    AskField(name="name", label=_tr("a new one is called"), may_lack=True),
                ),
                then=lambda told: self._put_to_piece(parts, told),
            )
        )

    def _put_to_piece(self, parts: tuple[str, ...], told: Told) -> None:
        piece, name = told["piece"], told["name"].strip()
        words = _tr("piece of {0}").format(", ".join(parts))
        self._doing.edit(lambda draft: put_to_piece(draft, parts, piece, name=name), words)

    def _ask_part(self) -> None:
        """Ask what an outline becomes; what lies around it, else most parts here, is offered."""
        pattern, name = self._doing.scene.pattern, self._doing.choice.spare[0]
        spare = self._doing.scene.spare_outline(name)
        materials, pieces = dict.fromkeys(p.material for p in pattern.parts), pattern.pieces
        self._doing.ask(
            Ask(
                id="add_part",
                title=_tr("The outline {0} becomes a part").format(name),
                fields=(
                    AskField(name="name", label=_tr("called"), text=name.replace("_", " ")),
                    AskField(
                        name="kind",
                        label=_tr("is a"),
                        words=tuple((one.value, _tr(one.value)) for one in PartKind),
                    ),
                    AskField(
                        name="piece",
                        label=_tr("of the piece"),
                        words=tuple((one.id, one.name) for one in pieces),
                    ),
                    AskField(
                        name="leather",
                        label=_tr("of"),
                        words=tuple((one, one) for one in materials),
                    ),
                ),
                then=lambda told: self._add_part(name, told),
                sketch=lambda _told: (Ghost(outline=spare.ring),),
            )
        )

    def _add_part(self, outline: str, told: Told) -> None:
        self._doing.wanted.emit((outline,))
        self._doing.edit(
            lambda draft: add_part(
                draft,
                outline,
                name=told["name"].strip(),
                piece=told["piece"],
                kind=PartKind(told["kind"]),
                material=told["leather"],
            ),
            _tr("part {0}").format(outline),
        )
