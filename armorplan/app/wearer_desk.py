"""Fitting at the bench: the build's pattern, its measures, the wearers there are, and what was fitted."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from armorplan.app.draft import Draft, Refused
from armorplan.app.drafting import OpenDraft, copy_place, save, save_copy
from armorplan.app.wearer_again import LEARNED, with_learned
from armorplan.app.wearer_fit import Asked, fitted
from armorplan.app.wearer_folder import (
    FittedFolder,
    Place,
    fitted_in,
    place_for,
    write_fitted,
)
from armorplan.app.wearer_following import Following, following_of, with_following
from armorplan.app.wearer_model import Fitted
from armorplan.app.wearer_shelf import keep_wearer, kept_wearers
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PatternFiles, from_texts
from armorplan.files.wearer_rows import ReadWearers
from armorplan.kernel.errors import ArmorplanError, FaultyPatternError
from armorplan.kernel.findings import Finding
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.measures import BodyMeasure
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.wearers import Wearer


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedMeasure:
    """A measure that parts of the pattern follow, and what the pattern was drawn for in mm."""

    measure: BodyMeasure
    drawn_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WearerView:
    """What the page shows before anybody is fitted.

    Attributes:
        files: of the pattern, as its folder holds it now.
        measures: those that its parts follow.
        following: which part follows which, and what each was.
        known: all measures of the catalogue.
        read: the wearers of the maker's own file.
        near: the folder in which fitted patterns are looked for first.
        found: what lies there of this pattern, fitted to somebody.
    """

    opened: OpenDraft
    files: PatternFiles
    name: str
    uuid: str
    version: int
    measures: tuple[AskedMeasure, ...]
    following: Following
    known: tuple[BodyMeasure, ...]
    read: ReadWearers
    near: Path
    found: tuple[FittedFolder, ...]

    @property
    def needs_a_copy(self) -> str:
        """Why what its parts follow cannot be written where the pattern lies; empty where it can."""
        return self.opened.home.said


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """A fitted pattern that was written.

    Attributes:
        why_not_kept: why the measures could not be kept; empty where they were.
        learned: what of the former version's corrections is kept, and what is not.
        view: with the wearers and folders as they are now.
    """

    folder: Path
    version: int
    why_not_kept: str
    learned: tuple[str, ...]
    view: WearerView


class WearerCore:
    """Reads, fits and writes; everything but its making may take a moment and is for any thread."""

    def __init__(self, shelf: Callable[[], Shelf], file: Path) -> None:
        """Take what reads the catalogues, and where the maker's own wearers lie."""
        self._shelf = shelf
        self.file = file

    def view(self, opened: OpenDraft) -> WearerView:
        """Return what there is of a pattern and of wearers.

        Raises:
            UnreadableError: the pattern or the file of wearers has faults.
        """
        shelf, draft = self._shelf(), opened.draft
        files = from_texts(draft.slug, dict(draft.texts))
        read = read_pattern(files, shelf)
        if read.pattern is None:
            raise FaultyPatternError(read.findings)
        pattern = read.pattern
        followed = {m for s in pattern.scalings for m in (s.along, s.around)}
        known = {measure.id: measure for measure in shelf.measures}
        near = _near(opened.home.folder)
        return WearerView(
            opened=opened,
            files=files,
            name=pattern.name,
            uuid=pattern.uuid,
            version=pattern.version,
            measures=tuple(
                AskedMeasure(measure=known[one.id], drawn_mm=one.mm)
                for one in pattern.drawn_for
                if one.id in followed and one.id in known
            ),
            following=following_of(draft),
            known=shelf.measures,
            read=kept_wearers(self.file, shelf),
            near=near,
            found=fitted_in(near, pattern.uuid),
        )

    def fit(self, view: WearerView, asked: Asked) -> Fitted | Refused:
        """Return the pattern fitted to a wearer, or why that cannot be."""
        return fitted(view.files, asked, self._shelf())

    def follow(
        self, view: WearerView, following: Following, into: Path | None = None
    ) -> WearerView:
        """Write into the pattern what it was drawn for and what follows it; return the view of it.

        Args:
            view: what was shown.
            following: as it shall be.
            into: a folder for a copy; ``None``: where the pattern lies.

        Raises:
            ArmorplanError: it cannot be so, or not be written there.
        """
        opened = view.opened
        made = with_following(opened.draft.in_haste(), following)
        if isinstance(made, Refused):
            raise ArmorplanError(made.words)
        return self.view(_saved(made, opened, into))

    def keep(self, view: WearerView, wearer: Wearer) -> WearerView:
        """Keep a wearer in the maker's own file; return the view with the wearers as they are now.

        Raises:
            ArmorplanError: the file was changed meanwhile, or cannot be written.
        """
        kept = keep_wearer(self.file, view.read, wearer, self._shelf())
        if isinstance(kept, Finding):
            raise ArmorplanError(f"{kept.text} {kept.remedy}")
        return replace(view, read=kept)

    def write(self, view: WearerView, asked: Asked, folder: Path) -> Written:
        """Fit and write into a folder, or into a new one within it; keep the measures.

        Into a folder that holds this pattern fitted to the same wearer it is written as the next
        version.

        Raises:
            ArmorplanError: it cannot be fitted, or not be written there.
        """
        place = _placed(view, asked, folder)
        found = self.fit(view, replace(asked, version=place.version))
        if isinstance(found, Refused):
            raise ArmorplanError(found.words)
        found = with_learned(found, dict(place.former), self._shelf())
        refusal = write_fitted(found, place)
        if refusal is not None:
            raise ArmorplanError(f"{refusal.text} {refusal.remedy}")
        kept = keep_wearer(self.file, view.read, asked.wearer, self._shelf())
        read = view.read if isinstance(kept, Finding) else kept
        return Written(
            folder=place.folder,
            version=place.version,
            why_not_kept=kept.text if isinstance(kept, Finding) else "",
            learned=tuple(f.text for f in found.findings if f.code in LEARNED),
            view=self.look(replace(view, read=read), place.folder.parent),
        )

    def look(self, view: WearerView, near: Path) -> WearerView:
        """Return the view with what lies in a folder of this pattern, fitted to somebody."""
        return replace(view, near=near, found=fitted_in(near, view.uuid))


def _saved(made: Draft, opened: OpenDraft, into: Path | None) -> OpenDraft:
    home = (
        save(made, opened.home) if into is None else save_copy(made, copy_place(into, made.slug))
    )
    if isinstance(home, Finding):
        raise ArmorplanError(f"{home.text} {home.remedy}")
    return OpenDraft(draft=made, home=home)


def _near(folder: Path | None) -> Path:
    """Return where fitted patterns are looked for: beside the pattern's own folder."""
    if folder is None or folder.resolve().is_relative_to(samples_folder().resolve()):
        return Path.home()
    return folder.parent


def _placed(view: WearerView, asked: Asked, folder: Path) -> Place:
    wearer, side = asked.wearer.id, asked.side
    place = place_for(folder, view.uuid, wearer, side)
    if isinstance(place, Finding):
        name = "_".join(filter(None, (view.files.slug, wearer, side)))
        inside = place_for(folder / name, view.uuid, wearer, side)
        place = place if isinstance(inside, Finding) else inside
    if isinstance(place, Finding):
        raise ArmorplanError(f"{place.text} {place.remedy}")
    return place
