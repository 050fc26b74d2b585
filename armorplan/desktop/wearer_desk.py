"""Fitting in the window: everything slow off its thread, answers by signals."""

from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from armorplan.app.draft import Refused
from armorplan.app.wearer_desk import WearerCore, WearerView, Written
from armorplan.app.wearer_fit import Asked
from armorplan.app.wearer_following import Following
from armorplan.app.wearer_model import Fitted
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.draft_desk import DraftReader
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.workshop.wearers import Wearer


class _Done(NamedTuple):
    """The view after something was done, what is said of it, and the folder to lay on the bench."""

    view: WearerView
    words: str
    folder: Path | None = None


class WearerDesk(QObject):
    """Reads the pattern at the bench, fits, keeps wearers, writes folders.

    ``shown`` carries the view, ``found`` what a fitting came to (``Fitted`` or ``Refused``), ``told``
    a sentence, and ``wrote`` the folder of what was fitted, or of the copy that says what follows.
    """

    shown = Signal(object)
    found = Signal(object)
    told = Signal(str)
    wrote = Signal(object)

    def __init__(
        self, bridge: Bridge, core: WearerCore, drafts: DraftReader, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._bridge, self._core, self._drafts = bridge, core, drafts
        self.view: WearerView | None = None
        self._reader, self._fitter, self._writer = Runner(self), Runner(self), Runner(self)
        self._reader.answered.connect(self._show)
        self._fitter.answered.connect(self.found)
        self._writer.answered.connect(self._take)
        for runner in (self._reader, self._fitter, self._writer):
            runner.failed.connect(lambda error: self.told.emit(str(error)))

    @property
    def is_busy(self) -> bool:
        """Tell whether something is still reckoned or written."""
        return any(r.is_busy for r in (self._reader, self._fitter, self._writer))

    def read(self) -> None:
        """Read the pattern of the build at the bench, and the wearers there are."""
        opening = self._drafts(self._bridge.session)

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            return self._core.view(opening())

        self._reader.ask(work)

    def fit(self, asked: Asked) -> None:
        """Fit the pattern to a wearer; only the newest answer is told."""
        view = self.view
        if view is not None:

            def work(_report: Report, _should_stop: ShouldStop) -> Fitted | Refused:
                return self._core.fit(view, asked)

            self._fitter.ask(work)

    def keep(self, wearer: Wearer) -> None:
        """Keep a wearer in the maker's own file."""
        view, core = self.view, self._core
        if view is not None:
            words = self.tr("Kept among your wearers, in {0}.").format(core.file)
            self._writer.ask(lambda _report, _should_stop: _Done(core.keep(view, wearer), words))

    def follow(self, following: Following, into: Path | None) -> None:
        """Write into the pattern what its parts follow; into a copy of it where a folder is given."""
        view, core = self.view, self._core
        if view is None:
            return

        def work(_report: Report, _should_stop: ShouldStop) -> _Done:
            made = core.follow(view, following, into)
            folder = made.opened.home.folder
            words = self.tr("Written into the pattern, in {0}.").format(folder)
            return _Done(made, words, folder if into else None)

        self._writer.ask(work)

    def write(self, asked: Asked, folder: Path) -> None:
        """Write the fitted pattern into a folder, and keep the measures."""
        view, core = self.view, self._core
        if view is None:
            return

        def work(_report: Report, _should_stop: ShouldStop) -> _Done:
            made = core.write(view, asked, folder)
            return _Done(made.view, self._written(made, asked.wearer), made.folder)

        self._writer.ask(work)

    def _written(self, made: Written, wearer: Wearer) -> str:
        words = self.tr("Version {0} for {1} is written in {2} and lies on the bench.").format(
            made.version, wearer.name, made.folder
        )
        kept = made.why_not_kept or self.tr("The measures are kept in {0}.").format(
            self._core.file
        )
        return " ".join((words, kept, *made.learned))

    def look(self, near: Path) -> None:
        """Look in a folder for what was fitted there."""
        view = self.view
        if view is not None:
            self._reader.ask(lambda _report, _should_stop: self._core.look(view, near))

    def _show(self, view: WearerView) -> None:
        self.view = view
        self.shown.emit(view)

    def _take(self, done: _Done) -> None:
        self._show(done.view)
        self.told.emit(done.words)
        if done.folder is not None:
            self.wrote.emit(done.folder)

    def forget(self) -> None:
        """Hear no more of what is reckoned for the build that was shown."""
        self._reader.drop()
        self._fitter.drop()
        self.view = None

    def close(self) -> None:
        """Wait for what is still under way."""
        for runner in (self._reader, self._fitter, self._writer):
            runner.close()
