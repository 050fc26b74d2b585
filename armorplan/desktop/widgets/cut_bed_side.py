"""A bed with its name, and the buttons that go to the one before and after."""

from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from armorplan.desktop.widgets.cut_bed_picture import BedPicture
from armorplan.needs.cutting.model import CutterBed


class BedSide(QWidget):
    """Shows the beds of a cut list one by one."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._beds: tuple[CutterBed, ...] = ()
        self.picture = BedPicture(self)
        self.title = QLabel(self)
        self.former = QPushButton(self.tr("Bed &before"), self)
        self.onward = QPushButton(self.tr("Bed &after"), self)
        self.title.setObjectName("cut_bed_title")
        self.title.setWordWrap(True)
        for button, name in ((self.former, "cut_former"), (self.onward, "cut_onward")):
            button.setObjectName(name)
            button.setAutoDefault(False)
        self._lay_out()
        self.picture.turned.connect(self._tell)
        self.former.clicked.connect(lambda: self.picture.step(-1))
        self.onward.clicked.connect(lambda: self.picture.step(1))
        self.show_beds(())

    def _lay_out(self) -> None:
        turning = QHBoxLayout()
        turning.addWidget(self.former)
        turning.addWidget(self.onward)
        turning.addStretch(1)
        down = QVBoxLayout(self)
        down.addWidget(self.title)
        down.addWidget(self.picture, 1)
        down.addLayout(turning)

    def show_beds(self, beds: tuple[CutterBed, ...]) -> None:
        """Show these, the same number as before where there is one."""
        self._beds = beds
        self.picture.show_beds(beds)

    def _tell(self, at: int) -> None:
        bed, count = self.picture.bed, len(self._beds)
        words = self.tr("{0} of {1}: {2}").format(at + 1, count, bed.title) if bed else ""
        self.title.setText(words)
        self.former.setEnabled(at > 0)
        self.onward.setEnabled(at + 1 < count)
