"""Opens texts and numbers, or the drawing table, at what is chosen; keeps what is not saved yet."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QMessageBox, QWidget

from armorplan.app.autosave import KeptDrafts, LeftOver
from armorplan.app.draft import Draft
from armorplan.app.draft_at import entry_at, overruled_by, overruling
from armorplan.app.drafting import Home, save
from armorplan.desktop.bridge import Bridge, Questioned
from armorplan.desktop.draft_desk import DraftDesk, DraftReader
from armorplan.desktop.draft_keeping import DraftKeeping
from armorplan.desktop.draft_model import Place
from armorplan.desktop.jobs import Runner
from armorplan.desktop.opening import Opener, chosen_again
from armorplan.desktop.widgets.bringing_up import bring_up
from armorplan.desktop.widgets.draft_offer import offer
from armorplan.desktop.widgets.edit_page import EditPage
from armorplan.desktop.widgets.shape_edit_page import TablePage
from armorplan.relations.model import OWN
from armorplan.store.places import drafts_folder

Show = Callable[[], None]
PARTS_MOST = 3
"""A step at more parts than this is about none of them in particular."""


class EditDoor(QObject):
    """The way from the bench to the page and back: what is saved is laid on the bench again."""

    def __init__(
        self, bridge: Bridge, drafts: DraftReader | None, opener: Opener, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._drafts = drafts
        self._opener = opener
        self._window = parent
        self._page: EditPage | None = None
        self.table: TablePage | None = None
        self._then: Show | None = None
        self._again: Show = self.show_page
        """What asks anew for the page that was asked for last."""
        self._is_ours = False
        self._is_back = False
        self._returns: Path | None = None
        """Where the pattern that is on its way back to the bench was saved."""
        self._desk = DraftDesk(self)
        self._keeping = DraftKeeping(self._desk, KeptDrafts(drafts_folder()), self)
        self._keeping.told.connect(bridge.said)
        self._keeping.offered.connect(self._offer)
        self._desk.shown.connect(self._enter)
        self._desk.saved.connect(self._lay_out)
        self._reader = Runner(self)
        self._reader.answered.connect(self._desk.open)
        self._reader.failed.connect(self._tell_unreadable)
        opener.refused.connect(self._stay_out)
        bridge.opened.connect(self._look_again)
        bridge.questioned.connect(self._question)

    def show_page(self) -> None:
        """Open the page at the entry of what is chosen at the bench."""
        chosen, self._again = self._bridge.selection, self.show_page
        self._go(lambda: self._texts().go(entry_at(self._desk.draft, chosen)))

    def show_table(self) -> None:
        """Open the drawing table at the parts, or the joint, that are chosen at the bench."""
        chosen, self._again = self._bridge.selection, self.show_table
        parts = chosen.parts if len(chosen.parts) <= PARTS_MOST else ()
        sided = chosen.joints if len(chosen.joints) == 1 else parts
        about = tuple(dict.fromkeys(name.partition(".")[0] for name in sided))
        self._go(lambda: self._table().go(about))

    def _texts(self) -> EditPage:
        """Return the page of texts and numbers, in front."""
        if self._page is None:
            self._page = EditPage(self._desk, self._window)
            self._page.left.connect(self._say_kept)
            self._desk.tell()
        bring_up(self._page)
        return self._page

    def _table(self) -> TablePage:
        """Return the drawing table, in front."""
        if self.table is None:
            self.table = TablePage(self._desk, self._window)
            self.table.left.connect(self._say_kept)
        bring_up(self.table)
        return self.table

    def _question(self, asked: Questioned) -> None:
        """Open the page at a reason of one's own, or at the overruling of a rule's."""
        self._go(lambda: self._show_questioned(asked))

    def _show_questioned(self, asked: Questioned) -> None:
        page = self._texts()
        held = overruling(self._desk.draft, asked.rule, asked.step, asked.other)
        own: Place = ("relations", held["rule"])
        made = overruled_by(self._desk.draft, held)
        if asked.rule.startswith(OWN) and self._desk.draft.entry(*own):
            page.go(own)
        elif made:
            page.go(("overruled", made))
        else:
            page.begin_new("overruled", held=held)

    def _go(self, then: Show) -> None:
        """Read the pattern on the bench, unless it or something unsaved is open; then show it."""
        if self._drafts is None:
            return
        self._then = then
        if self._desk.is_open and (self._desk.is_dirty or self._is_ours):
            self._enter()
        else:
            work = self._drafts(self._bridge.session)
            self._reader.ask(lambda _report, _should_stop: work())

    def _enter(self, _draft: object = None) -> None:
        """Bring the page that was asked for to the front once its draft is there."""
        then, self._then = self._then, None
        if then is None:
            return
        self._is_ours = self._is_ours or not self._desk.is_dirty
        then()

    def _lay_out(self, folder: Path) -> None:
        """Lay what was saved on the bench; ticks and timers go on there."""
        self._returns = folder
        self._bridge.said.emit(self.tr("Saved in {0}.").format(folder))
        self._opener.open(folder, self._bridge.session.build_id)

    def _stay_out(self) -> None:
        self._returns = None

    def _look_again(self) -> None:
        """Another build is on the bench: what has nothing unsaved makes room for its pattern."""
        self._is_ours = self._is_back = self._returns is not None
        self._returns = None
        self._reader.drop()
        if self._then is not None:  # asked for of the former build, and not read yet
            self._again()
            return
        is_seen = any(page is not None and page.isVisible() for page in (self._page, self.table))
        if is_seen and not self._is_ours and not self._desk.is_dirty and self._drafts is not None:
            work = self._drafts(self._bridge.session)
            self._is_ours = True
            self._reader.ask(lambda _report, _should_stop: work())

    def way_back(self) -> tuple[str, ...]:
        """Return what was chosen when the pattern was saved, as far as it is still there."""
        if not self._is_back:
            return ()
        return chosen_again(self._bridge.session, self._bridge.left.steps)

    def _say_kept(self) -> None:
        if self._desk.is_dirty:
            self._bridge.said.emit(
                self.tr("Your changes to the pattern are kept, not saved yet: Ctrl+E shows them.")
            )

    def _offer(self, left: LeftOver) -> None:
        """Ask whether to go on with what was not saved when a window was ended."""
        offer(
            left,
            self._desk.draft.name,
            self._in_front(),
            lambda wanted: (self._keeping.take_up if wanted else self._keeping.let_go)(left),
        )

    def _tell_unreadable(self, error: object) -> None:
        self._then = None
        self._bridge.said.emit(self.tr("The pattern cannot be read: {0}").format(error))

    def may_leave(self) -> bool:
        """Tell whether the window may close; asks once where something is not saved."""
        if self._page is not None:
            self._page.form.commit()
        if self.table is not None:
            self.table.commit()
        if not self._desk.is_dirty:
            return True
        self._desk.settle()
        button = QMessageBox.StandardButton
        answer = QMessageBox.question(
            self._in_front(),
            self.tr("Not saved yet"),
            self.tr("'{0}' has changes that are not saved.").format(self._desk.draft.name),
            button.Save | button.Discard | button.Cancel,
            button.Save,
        )
        if answer == button.Save:
            return self._save_now()
        return answer == button.Discard

    def _save_now(self) -> bool:
        draft, page = self._desk.draft, self.table or self._page
        made = page.saving.version_edit()(draft) if page is not None else draft
        kept = save(made if isinstance(made, Draft) else draft, self._desk.home)
        if isinstance(kept, Home):
            return True
        self._go(self._save_in_front)
        return False

    def _save_in_front(self) -> None:
        """Save from the page one looks at; it asks for a folder where it has to."""
        is_table = self.table is not None and self.table.isVisible()
        page = self._table() if is_table else self._texts()
        page.saving.save()

    def _in_front(self) -> QWidget:
        """Return the page one looks at; the window where none is open."""
        pages = (page for page in (self.table, self._page) if page is not None)
        return next((page for page in pages if page.isVisible()), self._window)

    def close(self) -> None:
        """Close the page and wait for what it has begun."""
        if self._page is not None:
            self._page.close()
        if self.table is not None:
            self.table.close()
            self.table.close_jobs()
        self._keeping.close()
        self._desk.close()
        self._reader.close()
