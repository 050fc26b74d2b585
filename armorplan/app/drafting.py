"""Where a draft comes from and where it goes: a pattern's folder, or what a build keeps of it."""

import os
from contextlib import suppress
from dataclasses import dataclass, replace
from itertools import chain, count
from pathlib import Path

from armorplan.app.draft import Bench, Draft, drafted, refused
from armorplan.files.saving import ToSave, all_saved, saved
from armorplan.files.source import PATTERN_FILE, from_texts, read_folder
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding
from armorplan.kernel.shipped import samples_folder
from armorplan.ledger.builds import BuildRecord

_CLOSING = (
    "Your changes are still in the window; they can be saved as a copy in another folder, too."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Home:
    """Where a draft was read from.

    Attributes:
        folder: the pattern's folder; ``None`` where only a build keeps it.
        saved_texts: what each file held when it was read or saved, by its name.
        said: why it cannot be saved where it came from; empty where it can.
    """

    folder: Path | None
    saved_texts: tuple[tuple[str, str], ...]
    said: str = ""

    def is_saved(self, draft: Draft) -> bool:
        """Tell whether the draft is what stands on the disk."""
        return draft.texts == self.saved_texts


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenDraft:
    """A draft with its home."""

    draft: Draft
    home: Home


def draft_of(build: BuildRecord, folder: Path | None, bench: Bench) -> OpenDraft:
    """Return a build's pattern as a draft: as its folder holds it now, else as the build keeps it.

    Args:
        build: the build at the bench.
        folder: where its pattern lies, as far as is known.
        bench: what it is read and derived with.
    """
    found = _read(build, folder, bench) if folder else None
    if folder and isinstance(found, Draft):
        said = _why_not_there(folder)
        return OpenDraft(draft=found, home=Home(folder=folder, saved_texts=found.texts, said=said))
    slug = build.id.rpartition("-")[0]
    draft = drafted(from_texts(slug, dict(build.pattern_files)), bench)
    said = f"This is the pattern as the build '{build.id}' keeps it: {found or 'its folder is not known'}."
    return OpenDraft(draft=draft, home=Home(folder=None, saved_texts=draft.texts, said=said))


def _read(build: BuildRecord, folder: Path, bench: Bench) -> Draft | str:
    """Return the draft of a folder, or why there is none."""
    try:
        draft = drafted(read_folder(folder), bench)
    except UnreadableError as error:
        return f"{folder} cannot be read ({error.findings[0].text.rstrip('.')})"
    if draft.entry("pattern", "").get("uuid") != build.pattern_uuid:
        return f"{folder} holds another pattern now, or one that is not valid"
    return draft


def _why_not_there(folder: Path) -> str:
    """Say why a folder is not written to; empty where it is."""
    if folder.resolve().is_relative_to(samples_folder().resolve()):
        return "This is a sample that came with Armorplan; it is saved as a copy."
    if not folder.is_dir():
        return "This is a bare drawing; it becomes a pattern folder, saved as a copy."
    if not os.access(folder, os.W_OK):
        return f"{folder} may only be read; the pattern is saved as a copy."
    return ""


def save(draft: Draft, home: Home) -> Home | Finding:
    """Write what changed of the draft into its folder, all of it or nothing.

    Nothing is written either where another program changed any file of the pattern meanwhile:
    tables and drawings name each other, so what is right by itself may be wrong together.

    Returns:
        The draft's home, or why nothing was written.
    """
    if home.folder is None or home.said:
        return refused(home.said, "Save a copy in a folder.", code="needs-a-copy").findings[0]
    former = dict(home.saved_texts)
    files = [
        ToSave(name=name, text=text, former=former.get(name))
        for name, text in sorted(draft.texts, key=lambda file: file[0] == PATTERN_FILE)
    ]
    refusal = all_saved(home.folder, files, closing=_CLOSING)
    return refusal or replace(home, saved_texts=draft.texts)


def copy_place(folder: Path, slug: str) -> Path:
    """Return where in a folder a copy goes: into an empty or new one itself, else beside the rest.

    A folder that cannot be looked into is returned as it is; saving there says why.
    """
    try:
        if not folder.exists() or next(folder.iterdir(), None) is None:
            return folder
        names = chain([slug], (f"{slug}_{number}" for number in count(2)))
    except OSError:
        return folder
    return next(folder / name for name in names if not (folder / name).exists())


def save_copy(draft: Draft, into: Path) -> Home | Finding:
    """Write all files of the draft into an empty or new folder; all or none."""
    try:
        is_new = not into.exists()
        into.mkdir(parents=True, exist_ok=True)
        taken = next(into.iterdir(), None)
    except OSError as error:
        why = error.strerror or "the system refused"
        text = f"{into} cannot be used: {why}."
        return refused(text, "Choose another folder.", code="cannot-write").findings[0]
    if taken is not None:
        return refused(
            f"{into} is not empty: it holds {taken.name}.",
            "Choose a new or an empty folder, so that nothing is mixed up.",
            code="folder-not-empty",
        ).findings[0]
    # The pattern file comes last: a folder without it is no pattern.
    last_first = sorted(draft.texts, key=lambda file: file[0] == PATTERN_FILE)
    for at, (name, text) in enumerate(last_first):
        (into / name).parent.mkdir(parents=True, exist_ok=True)
        refusal = saved(into, name, text, expected_hash=None, closing=_CLOSING)
        if refusal is not None:
            _take_back(into, [written for written, _ in last_first[:at]], is_new=is_new)
            return refusal
    return Home(folder=into, saved_texts=draft.texts)


def _take_back(into: Path, written: list[str], *, is_new: bool) -> None:
    with suppress(OSError):
        for name in written:
            (into / name).unlink()
        if is_new:
            into.rmdir()
