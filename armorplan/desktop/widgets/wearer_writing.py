"""What the wearer's page writes: fitted patterns into folders, and into the pattern what it follows."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QFileDialog, QWidget

from armorplan.app.wearer_fit import Asked
from armorplan.app.wearer_folder import FittedFolder
from armorplan.app.wearer_following import Following
from armorplan.desktop.wearer_desk import WearerDesk
from armorplan.desktop.widgets.wearer_form import WearerForm


class WearerWriting(QObject):
    """Asks where to, and has the desk write; ``told`` carries why something is not written."""

    told = Signal(str)

    def __init__(self, desk: WearerDesk, form: WearerForm, page: QWidget) -> None:
        super().__init__(page)
        self._desk, self._form, self._page = desk, form, page

    def fitted(self) -> None:
        """Ask for a folder, and write the fitted pattern in it."""
        title = self.tr("Choose a folder: the fitted pattern gets one of its own in it")
        self._chosen(title, self.write_into)

    def write_into(self, folder: Path) -> None:
        """Write the fitted pattern into a folder, or a new one within it, and keep the measures."""
        wearer = self._form.wearer()
        if not isinstance(wearer, str):
            self._desk.write(Asked(wearer=wearer, side=self._form.who.chosen_side), folder)

    def anew(self, chosen: FittedFolder) -> None:
        """Fit anew into a folder, by that wearer's measures as they are kept."""
        if not self._form.choose(chosen.wearer):
            words = self.tr("The measures of {0} are not among yours; keep them first.")
            self.told.emit(words.format(chosen.wearer_name))
            return
        wearer = self._form.former
        if wearer is not None:
            self._desk.write(Asked(wearer=wearer, side=chosen.side), chosen.folder)

    def follow(self, following: Following) -> None:
        """Write what follows into the pattern, or into a copy where it must not be changed."""
        view = self._desk.view
        if view is None:
            return
        why = view.needs_a_copy
        if not why:
            self._desk.follow(following, None)
            return
        title = self.tr("Folder for a copy. {0}").format(why)
        self._chosen(title, partial(self._desk.follow, following))

    def _chosen(self, title: str, then: Callable[[Path], None]) -> None:
        """Ask for a folder near the pattern; nothing is done where none is chosen."""
        near = str(self._desk.view.near) if self._desk.view else ""
        chosen = QFileDialog.getExistingDirectory(self._page, title, near)
        if chosen:
            then(Path(chosen))
