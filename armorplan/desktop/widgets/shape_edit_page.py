"""The drawing table: the pattern's drawing beside the bench, to be changed where it lies."""

from collections.abc import Mapping
from pathlib import Path

from PySide6.QtCore import QDir, Qt, Signal
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QFileDialog, QLabel, QSplitter, QVBoxLayout, QWidget

from armorplan.app.draft import Draft, Refused
from armorplan.app.draft_rows import FieldRow, typed_in
from armorplan.app.drafting import copy_place
from armorplan.desktop.draft_desk import DraftDesk
from armorplan.desktop.shape_edit_choice import Choice
from armorplan.desktop.shape_edit_desk import Read, TableDesk
from armorplan.desktop.shape_edit_layers import Layers
from armorplan.desktop.shape_edit_over import marks_of, moved_by
from armorplan.desktop.shape_edit_scene import TableScene
from armorplan.desktop.widgets.edit_bar import EditBar, SaidLine
from armorplan.desktop.widgets.shape_edit_asking import AskStrip
from armorplan.desktop.widgets.shape_edit_bends import BendActs
from armorplan.desktop.widgets.shape_edit_canvas import TableCanvas
from armorplan.desktop.widgets.shape_edit_doing import TableDoing
from armorplan.desktop.widgets.shape_edit_findings import TableFindings
from armorplan.desktop.widgets.shape_edit_ghosts import MatchActs
from armorplan.desktop.widgets.shape_edit_holes import HoleActs
from armorplan.desktop.widgets.shape_edit_joints import JointActs
from armorplan.desktop.widgets.shape_edit_menus import TableMenus
from armorplan.desktop.widgets.shape_edit_parts import PartActs
from armorplan.desktop.widgets.shape_edit_rows import RowActs
from armorplan.desktop.widgets.shape_edit_side import TableSide
from armorplan.desktop.widgets.shape_edit_sides import SideActs
from armorplan.kernel.findings import Finding

_SHARES_PX = (700, 360)
_SIZE_PX = (1120, 760)
_ROOM_PX = 40


class TablePage(QWidget):
    """A window of its own; ``left`` says that it was closed."""

    left = Signal()

    def __init__(self, drafts: DraftDesk, parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.setObjectName("table_page")
        self._drafts = drafts
        self.desk = TableDesk(drafts, self)
        self._wanted: tuple[str, ...] | None = None
        """What is chosen once the next state is shown; empty: what is new in it."""
        self._where, self._said = QLabel(self), SaidLine(self)
        self.canvas, self.side = TableCanvas(self), TableSide(self)
        self.asking, self.findings = AskStrip(self), TableFindings(self)
        self._bar = EditBar(self)
        self.doing = TableDoing(self.desk, self.canvas, self.asking, self)
        self.holes = HoleActs(self.doing)
        self.rows = MatchActs(self.doing, self.side.matches)
        # Held, since a signal does not keep what its slots belong to.
        others = (JointActs, RowActs, PartActs, BendActs, SideActs)
        self._groups = (self.holes, self.rows, *(group(self.doing) for group in others))
        acts = dict(self.doing.acts())
        for group in self._groups:
            acts.update(group.acts())
        self.menus = TableMenus(acts, self.doing.can, self.canvas, self)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        self._where.setObjectName("table_where")
        self._where.setWordWrap(True)
        across = QSplitter(Qt.Orientation.Horizontal, self)
        across.setChildrenCollapsible(False)
        across.addWidget(self.canvas)
        across.addWidget(self.side)
        across.setStretchFactor(0, 1)
        across.setSizes(list(_SHARES_PX))
        whole = QVBoxLayout(self)
        whole.setMenuBar(self.menus.bar)
        whole.addWidget(self._where)
        whole.addWidget(across, 1)
        for widget in (self.asking, self._said, self.findings, self._bar):
            whole.addWidget(widget)
        room = self.screen().availableSize()
        wide, high = _SIZE_PX
        self.resize(min(wide, room.width() - _ROOM_PX), min(high, room.height() - _ROOM_PX))

    def _connect(self) -> None:
        drafts, desk = self._drafts, self.desk
        drafts.shown.connect(self._follow)
        drafts.refused.connect(self._tell_refused)
        drafts.unsaved.connect(lambda told: self._said.say(f"{told.text} {told.remedy}"))
        desk.shown.connect(self._show)
        desk.moving.connect(self._show_moving)
        self.canvas.chose.connect(self._take_choice)
        self.canvas.moved.connect(lambda by: desk.move(self.canvas.choice.holes, by))
        self.canvas.spotted.connect(self.asking.take_spot)
        self.asking.began.connect(self._let_spot)
        self.asking.left.connect(self._end_ask)
        self.asking.changed.connect(self.doing.sketch)
        self.side.form.typed.connect(self._take_typed)
        self.side.place.told.connect(self.holes.put)
        self.side.stack.ordered.connect(self._order)
        self.side.matches.left.connect(self.canvas.setFocus)
        self.side.place.refused.connect(self._said.say)
        self.findings.pointed.connect(self._point)
        self.doing.said.connect(self._said.say)
        self.doing.wanted.connect(self.want)
        self.doing.layers_wanted.connect(self.side.stack.go)
        self.doing.fields_wanted.connect(self.side.go)
        self.doing.place_wanted.connect(self.side.place.go)
        self.doing.findings_wanted.connect(self.findings.go)
        self._acts = {
            "undo": drafts.undo,
            "redo": drafts.redo,
            "revert": drafts.back_to_saved,
            "save": self.save,
            "copy": self.ask_copy,
            "close": self.close,
        }
        self._bar.pressed.connect(self._press)

    def _press(self, name: str) -> None:
        """Take in what is being typed or moved, then do what was asked for."""
        self.commit()
        self._acts[name]()

    def commit(self) -> None:
        """Take in what is being typed or moved."""
        self.side.form.commit()
        self.side.place.commit()
        self.desk.commit()

    # --- showing ------------------------------------------------------------------------------

    def want(self, about: tuple[str, ...]) -> None:
        """Choose what has these ids once the next state is shown, as far as it is there."""
        self._wanted = about

    def go(self, about: tuple[str, ...]) -> None:
        """Give the drawing the keyboard, and choose what has these ids."""
        self._wanted = about or None
        self._follow(self._drafts.draft)
        self.canvas.setFocus()

    def _follow(self, draft: Draft) -> None:
        if self.isVisible():
            self._show_state(draft)
            self.desk.read(draft)

    def _show_state(self, draft: Draft) -> None:
        self.setWindowTitle(self.tr("Drawing table – {0}").format(draft.name) + "[*]")
        home, dirty = self._drafts.home, self._drafts.is_dirty
        self.setWindowModified(dirty)
        place = home.said or self.tr("In {0}").format(home.folder)
        self._where.setText(f"{place}  {self.tr('Not saved yet.') if dirty else ''}".rstrip())
        self._bar.show_state(self._drafts)

    def _show(self, found: Read) -> None:
        scene = found.scene
        if scene is not None:
            former = dict(self.canvas.places())
            self.canvas.show_scene(scene)
            self._choose_wanted(scene, former)
            self.side.show_choice(found.draft, scene, self.canvas.choice)
            self.rows.look_again()
        else:
            self._said.say(self.tr("It cannot be drawn until what is found below is mended."))
        self._show_found(found)
        if found.draft.told:
            self._said.say(" ".join(found.draft.told))
        self.menus.offer()

    def _choose_wanted(self, scene: TableScene, former: Mapping[str, object]) -> None:
        wanted, self._wanted = self._wanted, None
        if wanted is None:
            return
        new = tuple(key for key, _ in scene.places() if key not in former)
        choice = Choice(scene.keys_about(wanted) if wanted else new)
        if choice.keys:
            self.canvas.choose(choice)

    def _show_found(self, found: Read) -> None:
        """Show what is known to be found; more may come while all is being reckoned."""
        is_checking = found.draft.is_hasty
        self.findings.show_findings(found.findings, is_checking=is_checking)
        if found.scene is not None:
            self.canvas.show_marks(marks_of(found.scene, found.findings))

    def _show_moving(self, held: tuple[tuple[str, ...], tuple[float, float]]) -> None:
        scene = self.desk.scene
        if scene is not None:
            self.canvas.show_moved(moved_by(scene, *held))

    def _take_choice(self, choice: Choice) -> None:
        self._said.say("")
        self.desk.commit()
        if self.desk.scene is not None:
            self.side.form.commit()
            self.side.show_choice(self._drafts.draft, self.desk.scene, choice)
        self.menus.offer()

    def _point(self, finding: Finding) -> None:
        scene = self.desk.scene
        if scene is not None:
            choice = Choice(scene.keys_about(finding.about))
            self.canvas.choose(choice)
            self._take_choice(choice)

    def _let_spot(self) -> None:
        self.canvas.spots = self.asking.wants_spots
        self.findings.make_room(is_tight=True)

    def _end_ask(self) -> None:
        self.canvas.spots = False
        self.findings.make_room(is_tight=False)
        self.canvas.show_ghosts(())
        self.canvas.setFocus()

    # --- edits --------------------------------------------------------------------------------

    def _take_typed(self, field: FieldRow, text: str) -> None:
        words = self.tr("{0} of {1}").format(field.key.label, field.path[-2])
        self.desk.edit(lambda draft: typed_in(draft, field, text), words, field.path)

    def _order(self, layers: Layers) -> None:
        self.desk.edit(layers.put, self.tr("layers of {0}").format(layers.joint))

    def _tell_refused(self, about: object, refused: Refused) -> None:
        if not (isinstance(about, tuple) and self.side.form.show_refusal(about, refused.words)):
            self._said.say(refused.words)
        self._wanted = None
        if self.desk.scene is not None:  # what was shown as if it were taken goes back
            self.canvas.show_moved({})
            self.side.show_choice(self._drafts.draft, self.desk.scene, self.canvas.choice)

    # --- saving -------------------------------------------------------------------------------

    def save(self) -> None:
        """Write into the pattern's folder, or ask for one where it must not be written."""
        if self._drafts.home.said:
            self.ask_copy()
        else:
            self._drafts.save()

    def ask_copy(self) -> None:
        """Ask for a folder, and write the whole pattern into a folder of its own there."""
        asks = self.tr("Save a copy: choose the folder to keep it in")
        if folder := QFileDialog.getExistingDirectory(self, asks, QDir.homePath()):
            self._drafts.save(copy_place(Path(folder), self._drafts.draft.slug))

    def close_jobs(self) -> None:
        """Make what waits, and wait for what is under way."""
        self.desk.close()
        self.side.matches.close_jobs()

    def closeEvent(self, event: QCloseEvent) -> None:
        self.commit()
        super().closeEvent(event)
        self.left.emit()
