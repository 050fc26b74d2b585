"""Joints that are there, on the drawing table: one more layer, worked as a row, taken apart."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QCoreApplication

from armorplan.app.editing.joints import add_layer, drop_joints, make_row
from armorplan.desktop.shape_edit_asks import Ask, AskField
from armorplan.desktop.widgets.shape_edit_doing import TableDoing


def _tr(text: str) -> str:
    return QCoreApplication.translate("LayerActs", text)


class LayerActs:
    """What the menu of rows and joints does with joints that are there."""

    def __init__(self, doing: TableDoing) -> None:
        self._doing = doing

    def acts(self) -> Mapping[str, Callable[[], None]]:
        """Return what each act does, by its slug."""
        return {
            "add_layer": self._ask_layer,
            "make_row": self._ask_row,
            "drop_joints": self._drop,
            "go_layers": self._doing.layers_wanted.emit,
        }

    def _ask_layer(self) -> None:
        scene = self._doing.scene
        joints = self._doing.choice.joints(scene)
        free = [hole for hole in self._doing.choice.holes if hole not in scene.through]
        if len(joints) != 1 or len(free) != 1:
            self._doing.said.emit(_tr("Choose a hole of one joint, and one hole that is in none."))
            return
        count = len(scene.pattern.joint(joints[0]).stack)
        places = ((str(at), _tr("as layer {0}").format(at + 1)) for at in range(count + 1))
        self._doing.ask(
            Ask(
                id="add_layer",
                title=_tr("Take {0} into {1}").format(free[0], joints[0]),
                help=_tr("Layer 1 is the outermost."),
                fields=(AskField(name="at", label=_tr("lies"), words=tuple(places)),),
                then=lambda told: self._add_layer(joints[0], free[0], int(told["at"])),
            )
        )

    def _add_layer(self, joint: str, hole: str, at: int) -> None:
        words = _tr("layer of {0}").format(joint)
        self._doing.edit(lambda draft: add_layer(draft, joint, hole, at=at), words)

    def _ask_row(self) -> None:
        joints = self._doing.choice.joints(self._doing.scene)
        self._doing.ask(
            Ask(
                id="make_row",
                title=_tr("One row of {0} joints").format(len(joints)),
                fields=(AskField(name="name", label=_tr("called"), text=joints[0]),),
                then=lambda told: self._make_row(joints, told["name"].strip()),
            )
        )

    def _make_row(self, joints: tuple[str, ...], name: str) -> None:
        words = _tr("row {0}").format(name)
        self._doing.edit(lambda draft: make_row(draft, joints, name=name), words)

    def _drop(self) -> None:
        joints = self._doing.choice.joints(self._doing.scene)
        words = _tr("take apart {0}").format(", ".join(joints))
        self._doing.edit(lambda draft: drop_joints(draft, joints), words)
