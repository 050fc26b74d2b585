"""The drawing table: the pattern's drawing beside the bench, to be changed where it lies."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QLabel, QSplitter, QVBoxLayout, QWidget

from armorplan.app.draft import Draft
from armorplan.app.draft_rows import FieldRow, typed_in
from armorplan.desktop.draft_desk import DraftDesk
from armorplan.desktop.shape_edit_desk import TableDesk
from armorplan.desktop.shape_edit_layers import Layers
from armorplan.desktop.widgets.closing_keys import ClosingKeys
from armorplan.desktop.widgets.edit_bar import EditBar, SaidLine
from armorplan.desktop.widgets.edit_saving import DraftSaving
from armorplan.desktop.widgets.shape_edit_asking import AskStrip
from armorplan.desktop.widgets.shape_edit_bends import BendActs
from armorplan.desktop.widgets.shape_edit_canvas import TableCanvas
from armorplan.desktop.widgets.shape_edit_doing import TableDoing
from armorplan.desktop.widgets.shape_edit_findings import TableFindings
from armorplan.desktop.widgets.shape_edit_ghosts import MatchActs
from armorplan.desktop.widgets.shape_edit_holes import HoleActs
from armorplan.desktop.widgets.shape_edit_joints import JointActs
from armorplan.desktop.widgets.shape_edit_layering import LayerActs
from armorplan.desktop.widgets.shape_edit_menus import TableMenus
from armorplan.desktop.widgets.shape_edit_naming import NameActs
from armorplan.desktop.widgets.shape_edit_parts import PartActs
from armorplan.desktop.widgets.shape_edit_pieces import PieceActs
from armorplan.desktop.widgets.shape_edit_rows import RowActs
from armorplan.desktop.widgets.shape_edit_showing import TableShowing
from armorplan.desktop.widgets.shape_edit_side import TableSide
from armorplan.desktop.widgets.shape_edit_sides import SideActs

_OF_JOINTS = (JointActs, LayerActs, RowActs)
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
        self._where, self._said = QLabel(self), SaidLine(self)
        self.canvas, self.side = TableCanvas(self), TableSide(self)
        self.asking, self.findings = AskStrip(self), TableFindings(self)
        self._bar = EditBar(self)
        self.saving = DraftSaving(drafts, self, self._bar, self._said, self.commit)
        self.doing = TableDoing(self.desk, self.canvas, self.asking, self)
        self.holes = HoleActs(self.doing)
        self.rows = MatchActs(self.doing, self.side.matches)
        # Held, since a signal does not keep what its slots belong to.
        others = (*_OF_JOINTS, PartActs, PieceActs, NameActs, BendActs, SideActs)
        self._groups = (self.holes, self.rows, *(group(self.doing) for group in others))
        acts = dict(self.doing.acts())
        for group in self._groups:
            acts.update(group.acts())
        self.menus = TableMenus(acts, self.doing.can, self.canvas, self)
        self.menus.lacking.connect(self._said.say)
        self.showing = TableShowing(
            self.desk, self.canvas, side=self.side, findings=self.findings, parent=self
        )
        self._lay_out()
        self._connect()
        self._connect_doing()
        ClosingKeys(self, has_ctrl_w=True)

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
        desk, side = self.desk, self.side
        self._drafts.shown.connect(self._follow)
        self.showing.said.connect(self._said.say)
        self.showing.shown.connect(self.rows.look_again)
        self.showing.chosen.connect(self.menus.offer)
        self.canvas.moved.connect(lambda by: desk.move(self.canvas.choice.holes, by))
        self.canvas.chose.connect(self.asking.drop)  # it was asked of what was chosen before
        self.canvas.spotted.connect(self.asking.take_spot)
        self.asking.began.connect(self._let_spot)
        self.asking.left.connect(self._end_ask)
        self.asking.changed.connect(self.doing.sketch)
        side.form.typed.connect(self._take_typed)
        side.place.told.connect(self.holes.put)
        side.place.refused.connect(self._said.say)
        side.stack.ordered.connect(self._order)
        side.matches.left.connect(self.canvas.setFocus)
        self.findings.left.connect(self.canvas.setFocus)

    def _connect_doing(self) -> None:
        doing, side = self.doing, self.side
        doing.said.connect(self._said.say)
        doing.wanted.connect(self.showing.want)
        doing.layers_wanted.connect(side.stack.go)
        doing.fields_wanted.connect(side.go)
        doing.place_wanted.connect(side.place.go)
        doing.findings_wanted.connect(self.findings.go)

    def commit(self) -> None:
        """Take in what is being typed or moved."""
        self.side.form.commit()
        self.side.place.commit()
        self.desk.commit()

    def go(self, about: tuple[str, ...]) -> None:
        """Give the drawing the keyboard, and choose what has these ids."""
        if about:
            self.showing.want_now(about)
        self._follow(self._drafts.draft)
        self.canvas.setFocus()

    def _follow(self, draft: Draft) -> None:
        if self.isVisible():
            self.saving.show_state(self._where, self.tr("Drawing table – {0}"))
            self.desk.read(draft)

    def _let_spot(self) -> None:
        self._said.say("")
        self.canvas.spots = self.asking.wants_spots
        self.canvas.hold_scale(is_held=True)
        self.findings.make_room(is_tight=True)

    def _end_ask(self) -> None:
        self.canvas.spots = False
        self.findings.make_room(is_tight=False)
        self.canvas.hold_scale(is_held=False)
        self.canvas.show_ghosts(())
        self.canvas.setFocus()

    def _take_typed(self, field: FieldRow, text: str) -> None:
        """Make an edit of a field as the page of texts does: refused where it makes errors."""
        self.desk.commit()
        words = self.tr("{0} of {1}").format(field.key.label, field.path[-2])
        self._drafts.edit(lambda draft: typed_in(draft, field, text), words, field.path)

    def _order(self, layers: Layers) -> None:
        self.desk.edit(layers.put, self.tr("layers of {0}").format(layers.joint))

    def close_jobs(self) -> None:
        """Make what waits, and wait for what is under way."""
        self.desk.close()
        self.side.matches.close_jobs()

    def closeEvent(self, event: QCloseEvent) -> None:
        self.commit()
        super().closeEvent(event)
        self.left.emit()
