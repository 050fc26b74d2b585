"""Finds the folder of each build at the bench, so that its pattern can be edited there."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from armorplan.app.draft import Bench
from armorplan.app.drafting import OpenDraft, draft_of
from armorplan.app.opening import Opened
from armorplan.app.session import Session
from armorplan.app.session_protocol import BenchSession
from armorplan.ledger.builds import BuildRecord
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Shop


class Drafts:
    """Reads the pattern of a session's build as a draft; fulfils ``draft_desk.DraftReader``."""

    def __init__(self, shelf: Callable[[], Shelf], shop: Callable[[], Shop]) -> None:
        self._shelf = shelf
        self._shop = shop
        self._folders: dict[str, Path | None] = {}

    def know(self, opened: Opened) -> None:
        """Remember where a build's pattern lies."""
        self._folders[opened.build.id] = opened.folder

    def __call__(self, session: BenchSession) -> Callable[[], OpenDraft]:
        """Return what reads the pattern, in any thread."""
        if not isinstance(session, Session):
            message = "only a build of the workshop has a pattern"
            raise TypeError(message)
        build = session.build
        return partial(self._read, build, self._folders.get(build.id))

    def _read(self, build: BuildRecord, folder: Path | None) -> OpenDraft:
        return draft_of(build, folder, Bench(shelf=self._shelf(), shop=self._shop()))
