"""What is said of one part by itself: its name, kind, leather, and the piece it goes with."""

from collections.abc import Sequence

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QComboBox, QLineEdit, QWidget

from armorplan.app.bringing.answering import Fact
from armorplan.desktop.bring_view import PartFacts
from armorplan.desktop.widgets.edit_fields import CalmBox
from armorplan.desktop.widgets.flow import Flow, named_field
from armorplan.geometry.brought.model import Shape
from armorplan.pattern.parts import PartKind

NAME_PX, PIECE_PX, LEATHER_PX = 110, 110, 150


class PartBar(Flow):
    """Keeps its room, so that nothing jumps where no part is chosen.

    ``said`` carries the key of a part, the fact and the words; ``left`` gives the keys back.
    """

    said = Signal(str, object, str)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_part_bar")
        self._key = ""
        self._facts: PartFacts | None = None
        self.name, self.piece = QLineEdit(self), QLineEdit(self)
        self.kind, self.leather = CalmBox(self), CalmBox(self)
        for kind in PartKind:
            self.kind.addItem(kind.value.capitalize(), kind.value)
        self._add_fields()
        self.name.returnPressed.connect(lambda: self._say_line(Fact.NAME, self.name))
        self.piece.returnPressed.connect(lambda: self._say_line(Fact.PIECE, self.piece))
        self.kind.activated.connect(lambda: self._say_box(Fact.KIND, self.kind))
        self.leather.activated.connect(lambda: self._say_box(Fact.MATERIAL, self.leather))
        self.show_part(None, None)

    def _add_fields(self) -> None:
        for field, name, words, spoken, wide in (
            (self.name, "bring_name", self.tr("&Name (N)"), self.tr("Name of the part"), NAME_PX),
            (self.kind, "bring_kind", self.tr("Kind (K)"), self.tr("Kind of the part"), 0),
            (
                self.leather,
                "bring_leather",
                self.tr("Leather (L)"),
                self.tr("What the part is cut from"),
                LEATHER_PX,
            ),
            (
                self.piece,
                "bring_piece",
                self.tr("Piece (G)"),
                self.tr("Piece the part goes with"),
                PIECE_PX,
            ),
        ):
            field.setObjectName(name)
            field.setAccessibleName(spoken)
            field.setToolTip(spoken)
            if wide:
                field.setFixedWidth(wide)
            self.add(named_field(words, field, self))

    # --- what is chosen -----------------------------------------------------------------------

    @property
    def key(self) -> str:
        """The part of which something can be said; empty: none is chosen."""
        return self._key

    def show_leathers(self, leathers: Sequence[tuple[str, str]]) -> None:
        """Offer these leathers."""
        with QSignalBlocker(self.leather):
            self.leather.clear()
            for key, words in leathers:
                self.leather.addItem(words, key)

    def show_part(self, part: Shape | None, facts: PartFacts | None) -> None:
        """Say what holds of a part; without one nothing can be said."""
        is_same = part is not None and part.key == self._key
        self._key, self._facts = (part.key if part else ""), facts
        self.name.setReadOnly(part is None)
        for field in (self.kind, self.leather, self.piece):
            field.setEnabled(facts is not None)
        for line, text in (
            (self.name, part.name if part else ""),
            (self.piece, facts.piece if facts else ""),
        ):
            if not (is_same and line.hasFocus() and line.isModified()):
                line.setText(text)
        _show(self.kind, facts.kind if facts else "")
        _show(self.leather, facts.leather if facts else "")

    def begin(self, fact: Fact) -> bool:
        """Give the keys to what says a fact; where there is no part nothing is typed, and False returned."""
        fields: dict[Fact, QWidget] = {
            Fact.KIND: self.kind,
            Fact.MATERIAL: self.leather,
            Fact.PIECE: self.piece,
        }
        field = fields.get(fact, self.name)
        if not field.isEnabled():
            field = self.name
        field.setFocus(Qt.FocusReason.ShortcutFocusReason)
        if isinstance(field, QLineEdit):
            field.selectAll()
        elif isinstance(field, QComboBox):
            field.showPopup()
        return bool(self._key) and (fact is Fact.NAME or self._facts is not None)

    # --- what is said -------------------------------------------------------------------------

    def _say_line(self, fact: Fact, line: QLineEdit) -> None:
        line.setModified(False)
        if line.text().strip():
            self._say(fact, line.text().strip())

    def _say_box(self, fact: Fact, box: QComboBox) -> None:
        self._say(fact, str(box.currentData()))

    def _say(self, fact: Fact, words: str) -> None:
        about = self._key if fact is Fact.NAME or self._facts is None else self._facts.part
        if about:
            self.said.emit(about, fact, words)
        self.left.emit()


def _show(box: QComboBox, key: str) -> None:
    """Have a choice in hand without telling; one that is not offered is added as it stands."""
    with QSignalBlocker(box):
        if key and box.findData(key) < 0:
            box.addItem(key.replace("_", " ").replace(":", ", "), key)
        box.setCurrentIndex(box.findData(key) if key else -1)
