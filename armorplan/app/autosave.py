"""What is edited and not saved yet is kept aside, and offered again when a program ended too soon."""

from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from uuid import UUID, uuid4

from armorplan.app.draft import Draft, drafted
from armorplan.app.drafting import Home, OpenDraft
from armorplan.files.draft_file import (
    KeptTexts,
    Presence,
    is_present,
    keep_texts,
    kept_texts,
)
from armorplan.files.saving import text_hash
from armorplan.files.source import from_texts

_TEXTS, _HERE = ".json", ".here"


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOver:
    """Changes that a program kept aside before it ended.

    Attributes:
        path: the file they are kept in.
        texts: name and text of each file of the pattern.
        at: when they were kept.
        is_old: the files on the disk are others by now than those the changes were made of.
    """

    path: Path
    texts: tuple[tuple[str, str], ...]
    at: datetime
    is_old: bool


class KeptDrafts:
    """Keeps the draft of one window aside: a folder a pattern, a file a window in it."""

    def __init__(self, folder: Path) -> None:
        """Take the folder that all drafts are kept under; it is made when it is needed."""
        self._folder = folder
        self._token = uuid4().hex
        self._presence: Presence | None = None
        self._uuid = ""

    def enter(self, opened: OpenDraft) -> bool:
        """Say that this window has a pattern open; tell whether another window has it open, too."""
        self.leave()
        self._uuid = _uuid(opened.draft)
        if not self._uuid:
            return False
        others = any(map(is_present, self._place.glob(f"*{_HERE}")))
        self._presence = Presence(self._place / f"{self._token}{_HERE}")
        self._presence.take()
        return others

    def keep(self, draft: Draft, home: Home) -> str:
        """Keep a draft aside, or nothing where it is saved; return why it could not be, or ''."""
        if not self._uuid or home.is_saved(draft):
            self.forget()
            return ""
        kept = KeptTexts(
            slug=draft.slug,
            folder=str(home.folder or ""),
            texts=draft.texts,
            saved={name: text_hash(text) for name, text in home.saved_texts},
        )
        return keep_texts(self._own, kept)

    def forget(self) -> None:
        """Keep nothing of this window's draft: it is saved, or nobody wants it."""
        if self._uuid:
            _take_away(self._own)
            self._tidy()

    def leave(self) -> None:
        """Say that this window has nothing open any more; what is kept stays."""
        if self._presence is not None:
            self._presence.leave()
            self._presence = None
            self._tidy()

    def left_over(self, opened: OpenDraft) -> tuple[LeftOver, ...]:
        """Return what programs that ended too soon kept of a pattern, the newest first.

        What is the same as the pattern that was opened, or can be read no more, is swept away.
        """
        uuid = _uuid(opened.draft)
        place = self._folder / uuid
        found = []
        for path in sorted(place.glob(f"*{_TEXTS}")) if uuid else ():
            if path.stem == self._token or is_present(path.with_suffix(_HERE)):
                continue
            _take_away(path.with_suffix(_HERE))
            kept = kept_texts(path)
            if kept is None or kept.texts == opened.draft.texts:
                _take_away(path)
            elif kept.folder == str(opened.home.folder or ""):
                found.append(_left_over(path, kept, opened.home))
        return tuple(sorted(found, key=lambda each: each.at, reverse=True))

    def drop(self, left: LeftOver) -> None:
        """Let what was left go: nobody wants it, or it is open again."""
        _take_away(left.path)

    @property
    def _place(self) -> Path:
        return self._folder / self._uuid

    @property
    def _own(self) -> Path:
        return self._place / f"{self._token}{_TEXTS}"

    def _tidy(self) -> None:
        """Take the pattern's folder away where nothing is in it."""
        with suppress(OSError):  # a folder that holds anything stays
            self._place.rmdir()


def _take_away(path: Path) -> None:
    with suppress(OSError):
        path.unlink()


def brought_back(opened: OpenDraft, left: LeftOver) -> OpenDraft:
    """Return a draft as it was left, at home where its pattern lies; it is not saved yet."""
    draft = drafted(from_texts(opened.draft.slug, dict(left.texts)), opened.draft.bench)
    return OpenDraft(draft=draft, home=opened.home)


def _left_over(path: Path, kept: KeptTexts, home: Home) -> LeftOver:
    now = {name: text_hash(text) for name, text in home.saved_texts}
    at = datetime.fromtimestamp(path.stat().st_mtime, UTC)
    return LeftOver(path=path, texts=kept.texts, at=at, is_old=now != kept.saved)


def _uuid(draft: Draft) -> str:
    """Return the pattern's UUID as a name of a folder; empty where it has none."""
    told = draft.entry("pattern", "").get("uuid")
    try:
        return str(UUID(told)) if isinstance(told, str) else ""
    except ValueError:
        return ""
