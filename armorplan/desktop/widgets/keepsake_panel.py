"""What is kept of a step, a part or the build: notes, measurements and photos, and keeping more."""

from pathlib import Path

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QGuiApplication, QImage, QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.entries import NOT_RECORDED
from armorplan.app.keepsake_shelf import Photo
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.keepsake_desk import KeepsakeDesk, png_of
from armorplan.desktop.keepsake_words import UNITS, Subject, kept_words, number_of, subjects_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.keepsake_photo import PhotoPane
from armorplan.desktop.widgets.way_back_lists import BIG_TARGET_PX, TARGET_PX
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.keepsakes import Keepsake, KeepsakeKind

PICTURES = "*.jpg *.jpeg *.png *.webp *.heic *.avif *.tif *.tiff *.gif *.bmp"


class Kept(QListWidget):
    """``withdrawn`` says that the chosen one is to be shown no more (Delete)."""

    withdrawn = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Delete:
            self.withdrawn.emit()
        else:
            super().keyPressEvent(event)


class KeepsakePanel(QWidget):
    """Enter keeps what is typed: a note, or a measurement where a number stands beside it.

    ``left`` says that the panel is done with.
    """

    left = Signal()

    def __init__(
        self, bridge: Bridge, *, big: bool = False, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("keepsakes")
        self._bridge = bridge
        self._target_px = BIG_TARGET_PX if big else TARGET_PX
        self._subjects: tuple[Subject, ...] = ()
        self._shown: tuple[Keepsake, ...] = ()
        self.desk = KeepsakeDesk(bridge, self)
        self.of = QComboBox(self)
        self.kept = Kept(self)
        self.photo = PhotoPane(self)
        self.text = QLineEdit(self)
        self.value = QLineEdit(self)
        self.unit = QComboBox(self)
        self.keep = QPushButton(self.tr("&Keep"), self)
        self.file = QPushButton(self.tr("&Photo from a file …"), self)
        self.paste = QPushButton(self.tr("P&aste a photo"), self)
        self.said = QLabel(self)
        self._nothing = QLabel(self.tr("Nothing is kept of it yet."), self)
        self.file.setVisible(not big)
        self._name_all()
        self._lay_out()
        self._connect()

    def _name_all(self) -> None:
        for widget, name, spoken in (
            (self.of, "keepsake_of", self.tr("Kept of")),
            (self.kept, "keepsake_list", self.tr("What is kept")),
            (self.text, "keepsake_text", self.tr("Note, or what was measured or photographed")),
            (self.value, "keepsake_value", self.tr("Number that was measured")),
            (self.unit, "keepsake_unit", self.tr("Its unit")),
            (self.keep, "keepsake_keep", self.tr("Keep")),
            (self.file, "keepsake_file", self.tr("Photo from a file")),
            (self.paste, "keepsake_paste", self.tr("Paste a photo")),
            (self.said, "keepsake_said", ""),
        ):
            widget.setObjectName(name)
            widget.setAccessibleName(spoken)
            widget.setMinimumHeight(0 if widget is self.said else self._target_px)
        self._nothing.setObjectName("keepsake_nothing")
        self._nothing.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.kept.setWordWrap(True)
        self.kept.setAlternatingRowColors(True)
        self.kept.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.text.setPlaceholderText(self.tr("Note, or what was measured"))
        self.value.setPlaceholderText(self.tr("Number"))
        self.unit.setEditable(True)
        self.unit.addItems(UNITS)
        self.said.setWordWrap(True)
        self.of.setSizeAdjustPolicy(
            QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        )
        for button in (self.keep, self.file, self.paste):
            button.setAutoDefault(False)

    def _lay_out(self) -> None:
        measured, photos = QHBoxLayout(), QHBoxLayout()
        for widget, share in ((self.value, 2), (self.unit, 1), (self.keep, 2)):
            measured.addWidget(widget, share)
        for button in (self.file, self.paste):
            photos.addWidget(button, 1)
        whole = QVBoxLayout(self)
        whole.addWidget(self.of)
        whole.addWidget(self.kept, 2)
        whole.addWidget(self._nothing, 2)
        whole.addWidget(self.photo, 3)
        whole.addWidget(self.text)
        whole.addLayout(measured)
        whole.addLayout(photos)
        whole.addWidget(self.said)

    def _connect(self) -> None:
        self.of.currentIndexChanged.connect(self.refresh)
        self.kept.currentRowChanged.connect(self._show_photo)
        self.kept.withdrawn.connect(self._withdraw)
        for line in (self.text, self.value):
            line.returnPressed.connect(self._keep)
        self.keep.clicked.connect(self._keep)
        self.file.clicked.connect(self._ask_file)
        self.paste.clicked.connect(self._paste)
        QShortcut(QKeySequence("Ctrl+Shift+V"), self).activated.connect(self._paste)
        self.desk.kept.connect(self._say_kept)
        self.desk.refused.connect(self._say)
        self.desk.read.connect(self._take_photo)
        self._bridge.selected.connect(self._follow_seen)
        self._bridge.opened.connect(self._follow_seen)

    # --- what is kept ------------------------------------------------------------------------

    def begin(self) -> None:
        """Show what is kept of what is chosen."""
        self._follow()
        self.text.setFocus()

    def _follow_seen(self) -> None:
        """Follow what is chosen while one looks; put away, it waits until it is begun again."""
        if self.isVisible():
            self._follow()

    def _follow(self) -> None:
        self._subjects = subjects_of(self._bridge.session, self._bridge.selection)
        with QSignalBlocker(self.of):
            self.of.clear()
            self.of.addItems([one.name for one in self._subjects])
        self.refresh()

    def refresh(self) -> None:
        """Read what is kept anew."""
        if not self._subjects:
            return
        about = self._subjects[max(self.of.currentIndex(), 0)].about
        try:
            self._shown = self._bridge.session.keepsakes.all(about)
        except WorkshopError as error:
            self._shown = ()
            self._say(str(error))
        now, zone = self._bridge.clock.now(), self._bridge.zone
        with QSignalBlocker(self.kept):
            self.kept.clear()
            for one in self._shown:
                self.kept.addItem(QListWidgetItem(kept_words(one, now, zone)))
        self.kept.setVisible(bool(self._shown))
        self._nothing.setVisible(not self._shown)
        self.kept.setCurrentRow(len(self._shown) - 1)
        if not self._shown:
            self._show_photo()

    def _chosen(self) -> Keepsake | None:
        row = self.kept.currentRow()
        return self._shown[row] if 0 <= row < len(self._shown) else None

    def _show_photo(self) -> None:
        one = self._chosen()
        is_photo = one is not None and one.kind is KeepsakeKind.PHOTO
        self.photo.setVisible(is_photo)
        if one is None or not is_photo:
            return
        amiss = self._bridge.session.keepsakes.amiss(one)
        self.photo.say(amiss or self.tr("Reading the photo …"))
        if not amiss:
            self.desk.show(one)

    def _take_photo(self, seq: int, image: QImage) -> None:
        one = self._chosen()
        if one is not None and one.seq == seq:
            self.photo.show_image(image, one.text)

    # --- keeping more ------------------------------------------------------------------------

    def _keep(self) -> None:
        keepsakes = self._bridge.session.keepsakes
        about = self._subjects[max(self.of.currentIndex(), 0)].about
        typed = self.value.text().strip()
        if not typed:
            self._say_kept(keepsakes.note(about, self.text.text()))
            return
        value = number_of(typed)
        if value is None:
            self._say(self.tr("'{0}' is no number. Write one, such as 42.5.").format(typed))
            self.value.setFocus()
            return
        unit = self.unit.currentText()
        self._say_kept(keepsakes.measurement(about, value, unit, self.text.text()))

    def _ask_file(self) -> None:
        kinds = self.tr("Pictures ({0})").format(f"{PICTURES} {PICTURES.upper()}")
        file, _ = QFileDialog.getOpenFileName(self, self.tr("Keep a photo"), "", kinds)
        if file:
            self._copy(Path(file))

    def _paste(self) -> None:
        """Keep the picture that was copied elsewhere, or the picture file."""
        board = QGuiApplication.clipboard()
        files = [Path(url.toLocalFile()) for url in board.mimeData().urls() if url.isLocalFile()]
        image = board.image()
        if files:
            self._copy(files[0])
        elif not image.isNull():
            self._copy(png_of(image))
        else:
            self._say(self.tr("No picture was copied. Copy one elsewhere, then paste it here."))

    def _copy(self, photo: Photo) -> None:
        self.said.setText(self.tr("Copying the photo …"))
        about = self._subjects[max(self.of.currentIndex(), 0)].about
        self.desk.copy(about, photo, self.text.text())

    def _withdraw(self) -> None:
        one = self._chosen()
        if one is not None:
            self._say_kept(self._bridge.session.keepsakes.withdraw(one))

    def _say(self, sentence: str) -> None:
        self.said.setText(sentence)
        announce(self.said, sentence)

    def _say_kept(self, sentence: str) -> None:
        """Tell what came of keeping; what is kept leaves the fields free for more."""
        self._say(sentence)
        self._bridge.said.emit(sentence)
        if not sentence.startswith(NOT_RECORDED):
            self.text.clear()
            self.value.clear()
            self.refresh()
            self._bridge.changed.emit()

    def close_jobs(self) -> None:
        """Wait for what is still copied."""
        self.desk.close()
