"""Does on the drawing table what its menus and keys ask for."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QObject, QRectF, Signal

from armorplan.app.draft import Draft, Refused
from armorplan.desktop.shape_edit_act import Needs
from armorplan.desktop.shape_edit_acts import ACTS
from armorplan.desktop.shape_edit_asks import Ask, sketched
from armorplan.desktop.shape_edit_choice import Choice
from armorplan.desktop.shape_edit_desk import TableDesk
from armorplan.desktop.shape_edit_pairs import free_row
from armorplan.desktop.shape_edit_scene import HOLE, PART, TableScene
from armorplan.desktop.widgets.shape_edit_asking import AskStrip
from armorplan.desktop.widgets.shape_edit_canvas import TableCanvas

Do = Callable[[], None]
NEAR_MM = 15.0
"""So much is shown around what is chosen when one goes near."""


class TableDoing(QObject):
    """What can be done now, and doing it.

    ``said`` carries a sentence, ``wanted`` what shall be chosen once an edit is made (nothing:
    what is new), ``fields_wanted`` the table whose fields shall have the keyboard, and
    ``place_wanted``, ``layers_wanted`` and ``findings_wanted`` ask for the keyboard for these.
    """

    said = Signal(str)
    wanted = Signal(object)
    layers_wanted = Signal()
    fields_wanted = Signal(str)
    place_wanted = Signal()
    findings_wanted = Signal()

    def __init__(
        self, desk: TableDesk, canvas: TableCanvas, asking: AskStrip, parent: QObject
    ) -> None:
        super().__init__(parent)
        self.desk, self.canvas, self.asking = desk, canvas, asking
        self._needs = {act.id: act.needs for act in ACTS}

    def acts(self) -> Mapping[str, Do]:
        """Return what each act of choosing does, by its slug."""
        return {
            "whole_row": self._choose_rows,
            "holes_of_part": self._choose_holes,
            "whole_part": self._choose_parts,
            "same_joint": self._choose_layers,
            "show_fields": lambda: self.fields_wanted.emit(""),
            "next_finding": self.findings_wanted.emit,
            "near": self._go_near,
        }

    # --- what there is ------------------------------------------------------------------------

    @property
    def scene(self) -> TableScene:
        """What is shown; only while something is."""
        if self.desk.scene is None:
            message = "nothing lies on the table"
            raise LookupError(message)
        return self.desk.scene

    @property
    def choice(self) -> Choice:
        """What is chosen."""
        return self.canvas.choice

    @property
    def parts(self) -> tuple[str, ...]:
        """Ids of the parts that are chosen, or that what is chosen lies in."""
        return self.choice.parts_under(self.scene)

    def can(self, act: str) -> bool:
        """Tell whether what an act needs is chosen."""
        if self.desk.scene is None:
            return False
        choice = self.choice
        there = {
            Needs.NOTHING: True,
            Needs.THING: bool(choice.keys),
            Needs.PART: bool(choice.parts_under(self.scene)),
            Needs.SPARE: bool(choice.spare),
            Needs.WHOLE_PART: bool(choice.parts),
            Needs.HOLE: bool(choice.holes),
            Needs.ONE_HOLE: len(choice.holes) == 1,
            Needs.HOLES: len(choice.holes) + len(choice.slots) > 1,
            Needs.JOINT: bool(choice.joints(self.scene)),
            Needs.AXIS: len(choice.forms) == 1,
        }
        return there[self._needs[act]]

    def choose(self, choice: Choice) -> None:
        """Choose, as the mouse does; where there is nothing to choose, what is chosen stays."""
        if choice.keys:
            self.canvas.choose(choice)
            self.canvas.chose.emit(choice)

    def edit(self, edit: Callable[[Draft], Draft | Refused], words: str) -> None:
        """Make an edit that ``words`` name in the undo menu."""
        self.desk.edit(edit, words)

    def ask(self, ask: Ask) -> None:
        """Ask in the strip below the drawing."""
        self.desk.commit()
        self.asking.begin(ask)
        self.sketch()

    def sketch(self) -> None:
        """Draw as ghosts what would be made of what is typed now."""
        ask = self.asking.ask
        self.canvas.show_ghosts(sketched(ask, self.asking.told()) if ask else ())

    def want_new(self) -> None:
        """Have what an edit adds chosen once it is there."""
        self.wanted.emit(())

    # --- choosing -----------------------------------------------------------------------------

    def _choose_rows(self) -> None:
        """Choose the rows worked as one; of holes in no joint, those that look like a row."""
        scene = self.scene
        free = [hole for hole in self.choice.holes if hole not in scene.through]
        found = (HOLE + one for hole in free for one in free_row(scene, hole))
        self.choose(self.choice.whole_rows(scene).with_keys(tuple(found)))

    def _choose_holes(self) -> None:
        parts = (self.scene.pattern.part(part) for part in self.parts)
        self.choose(Choice(tuple(HOLE + hole.id for part in parts for hole in part.holes)))

    def _choose_parts(self) -> None:
        self.choose(Choice(tuple(PART + part for part in self.parts)))

    def _choose_layers(self) -> None:
        joints = (self.scene.pattern.joint(joint) for joint in self.choice.joints(self.scene))
        holes = (HOLE + hole for joint in joints for hole in joint.stack)
        self.choose(Choice(tuple(dict.fromkeys(holes))))

    def _go_near(self) -> None:
        box = QRectF()
        for key in self.choice.keys:
            box = box.united(self.canvas.edge_of(key).boundingRect())
        self.canvas.fit_to(box.adjusted(-NEAR_MM, -NEAR_MM, NEAR_MM, NEAR_MM))
