"""Beside the drawing: what is chosen, its numbers, its layers, and what the pattern says of it."""

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from armorplan.app.draft import Draft
from armorplan.app.draft_rows import heading
from armorplan.desktop.draft_model import Place
from armorplan.desktop.shape_edit_choice import Choice
from armorplan.desktop.shape_edit_layers import layers_of
from armorplan.desktop.shape_edit_scene import TableScene
from armorplan.desktop.shape_edit_words import choice_words
from armorplan.desktop.widgets.edit_fields import CalmBox
from armorplan.desktop.widgets.edit_form import EditForm
from armorplan.desktop.widgets.shape_edit_matches import MatchPanel
from armorplan.desktop.widgets.shape_edit_place import PlaceBox
from armorplan.desktop.widgets.shape_edit_stack import StackPanel


class TableSide(QWidget):
    """Shows what is chosen: words, numbers, layers, and the fields of one entry of the pattern."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("table_side")
        self._draft: Draft | None = None
        self._title, self._told = QLabel(self), QLabel(self)
        for label, name in ((self._title, "table_title"), (self._told, "table_told")):
            label.setObjectName(name)
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
        font = self._title.font()
        font.setBold(True)
        self._title.setFont(font)
        self.place, self.stack = PlaceBox(self), StackPanel(self)
        self.matches = MatchPanel(self)
        self.which = CalmBox(self)
        self.which.setObjectName("table_which")
        self.which.setAccessibleName(self.tr("What the pattern says of"))
        self.form = EditForm(self)
        self.form.setObjectName("table_form")
        self.down = QVBoxLayout(self)
        self.down.setContentsMargins(0, 0, 0, 0)
        above = (self.matches, self._title, self._told, self.place, self.stack, self.which)
        for widget in above:
            self.down.addWidget(widget)
        self.down.addWidget(self.form, 1)
        self.which.currentIndexChanged.connect(self._turn)
        self.matches.began.connect(lambda: self._make_room(is_tight=True))
        self.matches.left.connect(lambda: self._make_room(is_tight=False))

    def _make_room(self, *, is_tight: bool) -> None:
        """While matches are gone through, they have the room of the fields."""
        for widget in (self.which, self.form):
            widget.setVisible(not is_tight)
        self.down.setStretch(0, 1 if is_tight else 0)

    @property
    def entry(self) -> Place | None:
        """Table and entry whose fields are shown."""
        held = self.which.currentData()
        return held if isinstance(held, tuple) else None

    def show_choice(self, draft: Draft, scene: TableScene, choice: Choice) -> None:
        """Show what is chosen as a draft has it."""
        self._draft = draft
        title, told = choice_words(scene, choice)
        self._title.setText(title)
        self._told.setText(told)
        only = choice.holes[0] if len(choice.keys) == 1 and choice.holes else ""
        self.place.show_hole(scene.pattern.hole(only) if only else None)
        joints = choice.joints(scene)
        shelf = draft.bench.shelf
        self.stack.show_layers(layers_of(scene, shelf, joints[0]) if len(joints) == 1 else None)
        entries = tuple(e for e in choice.entries(scene) if draft.entry(*e))
        self._offer(draft, entries or (("pattern", ""),))

    def _offer(self, draft: Draft, entries: tuple[Place, ...]) -> None:
        former, held = self.entry, [self.which.itemData(at) for at in range(self.which.count())]
        if held != list(entries):
            blocker = QSignalBlocker(self.which)
            self.which.clear()
            for table, entry in entries:
                self.which.addItem(heading(draft, table, entry)[0], (table, entry))
            same = [at for at, entry in enumerate(entries) if entry == former]
            self.which.setCurrentIndex(same[0] if same else 0)
            blocker.unblock()
        self._turn()

    def _turn(self) -> None:
        if self._draft is not None:
            self.form.show_entry(self._draft, self.entry)

    def go(self, table: str) -> None:
        """Give the fields the keyboard: those of the first entry of a table, or those shown."""
        tables = [self.which.itemData(at)[0] for at in range(self.which.count())]
        if table in tables:
            self.which.setCurrentIndex(tables.index(table))
        self.form.first()
