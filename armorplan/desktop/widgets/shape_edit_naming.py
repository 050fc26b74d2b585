"""Other ids for holes, parts and bends on the drawing table."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QCoreApplication

from armorplan.app.editing.holes import rename_hole
from armorplan.app.editing.parts import rename
from armorplan.desktop.shape_edit_asks import Ask, AskField
from armorplan.desktop.widgets.shape_edit_doing import TableDoing


def _tr(text: str) -> str:
    return QCoreApplication.translate("NameActs", text)


class NameActs:
    """Calls a hole, a part or a bend otherwise."""

    def __init__(self, doing: TableDoing) -> None:
        self._doing = doing

    def acts(self) -> Mapping[str, Callable[[], None]]:
        """Return what the act does, by its slug."""
        return {"rename": self._ask_name}

    def _ask_name(self) -> None:
        """Ask for another id for a hole, else for the part or bend that is chosen."""
        choice = self._doing.choice
        held = (("", choice.holes), ("parts", choice.parts), ("forms", choice.forms))
        table, names = next(((table, names) for table, names in held if names), ("", ()))
        if not names:
            self._doing.said.emit(_tr("Choose a hole, a part or the line of a bend."))
            return
        self._doing.ask(
            Ask(
                id="rename",
                title=_tr("Another id for {0}").format(names[0]),
                help=_tr("Letters, digits, _ and -."),
                fields=(AskField(name="name", label=_tr("id"), text=names[0]),),
                then=lambda told: self._rename(table, names[0], told["name"].strip()),
            )
        )

    def _rename(self, table: str, was: str, name: str) -> None:
        self._doing.wanted.emit((name,))
        self._doing.edit(
            lambda draft: (
                rename(draft, table, was, name) if table else rename_hole(draft, was, name)
            ),
            _tr("call {0} {1}").format(was, name),
        )
