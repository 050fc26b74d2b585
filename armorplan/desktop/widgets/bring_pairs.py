"""Of several rows that are asked about at once one is laid on the other at a time; here one leafs."""

from collections.abc import Mapping

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSizePolicy, QWidget

from armorplan.desktop.widgets.announcing import announce
from armorplan.geometry.matching.model import RowMatch


class PairBar(QWidget):
    """``turned`` carries the match that is in hand, or ``None``."""

    turned = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_pairs")
        self._matches: tuple[RowMatch, ...] = ()
        self._names: Mapping[str, str] = {}
        self._at = 0
        self.words = QLabel(self)
        self.words.setObjectName("bring_pair_words")
        self.words.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.back = self._button("bring_pair_back", self.tr("<  ( , )"), ",", -1)
        self.on = self._button("bring_pair_on", self.tr("( . )  >"), ".", 1)
        across = QHBoxLayout(self)
        across.setContentsMargins(0, 0, 0, 0)
        across.addWidget(self.words, 1)
        across.addWidget(self.back)
        across.addWidget(self.on)
        self.hide()

    def _button(self, name: str, text: str, key: str, by: int) -> QPushButton:
        button = QPushButton(text, self)
        button.setObjectName(name)
        button.setAutoDefault(False)
        button.setShortcut(key)
        spoken = self.tr("Row before") if by < 0 else self.tr("Next row")
        button.setAccessibleName(spoken)
        button.setToolTip(spoken)
        button.clicked.connect(lambda: self.leaf(by))
        return button

    @property
    def match(self) -> RowMatch | None:
        """The match in hand."""
        return self._matches[self._at] if self._matches else None

    def show_matches(self, matches: tuple[RowMatch, ...], names: Mapping[str, str]) -> None:
        """Leaf through these; the one that was in hand stays so where it is among them."""
        held = self.match
        self._names = names
        keys = [match.key for match in matches]
        self._matches = matches
        self._at = keys.index(held.key) if held and held.key in keys else 0
        self.setVisible(bool(matches))
        for button in (self.back, self.on):
            button.setVisible(len(matches) > 1)
        self._show()

    def leaf(self, by: int) -> None:
        """Have the next one in hand, past the last one the first."""
        if self._matches:
            self._at = (self._at + by) % len(self._matches)
            self._show()

    def _show(self) -> None:
        match = self.match
        if match is not None:
            place = self.tr("{0} of {1}: ").format(self._at + 1, len(self._matches))
            text = self.tr("{first} with {second} laid on it, {holes} holes")
            first, second = (self._names.get(key, key) for key in (match.first, match.second))
            told = text.format(first=first, second=second, holes=len(match.pairs))
            self.words.setText((place if len(self._matches) > 1 else "") + told)
            self.words.setToolTip(self.words.text())
            announce(self.words, self.words.text())
        self.turned.emit(match)
