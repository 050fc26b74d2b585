"""Fitting at the bench: the build's pattern, its measures, the wearers there are, and what was fitted."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from armorplan.app.draft import Refused
from armorplan.app.drafting import OpenDraft
from armorplan.app.wearer_fit import Asked, fitted
from armorplan.app.wearer_folder import (
    FittedFolder,
    Place,
    fitted_in,
    place_for,
    write_fitted,
)
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
        read: the wearers of the maker's own file.
        near: the folder in which fitted patterns are looked for first.
        found: what lies there of this pattern, fitted to somebody.
    """

    files: PatternFiles
    name: str
    uuid: str
    version: int
    measures: tuple[AskedMeasure, ...]
    read: ReadWearers
    near: Path
    found: tuple[FittedFolder, ...]


class WearerCore:
    """Reads, fits and writes; everything but its making may take a moment and is for any thread."""

    def __init__(self, shelf: Callable[[], Shelf], file: Path) -> None:
        """Take what reads the catalogues, and where the maker's own wearers lie."""
        self._shelf = shelf
        self._file = file

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
            files=files,
            name=pattern.name,
            uuid=pattern.uuid,
            version=pattern.version,
            measures=tuple(
                AskedMeasure(measure=known[one.id], drawn_mm=one.mm)
                for one in pattern.drawn_for
                if one.id in followed and one.id in known
            ),
            read=kept_wearers(self._file, shelf),
            near=near,
            found=fitted_in(near, pattern.uuid),
        )

    def fit(self, view: WearerView, asked: Asked) -> Fitted | Refused:
        """Return the pattern fitted to a wearer, or why that cannot be."""
        return fitted(view.files, asked, self._shelf())

    def keep(self, view: WearerView, wearer: Wearer) -> WearerView:
        """Keep a wearer in the maker's own file; return the view with the wearers as they are now.

        Raises:
            ArmorplanError: the file was changed meanwhile, or cannot be written.
        """
        kept = keep_wearer(self._file, view.read, wearer, self._shelf())
        if isinstance(kept, Finding):
            raise ArmorplanError(f"{kept.text} {kept.remedy}")
        return replace(view, read=kept)

    def write(self, view: WearerView, asked: Asked, folder: Path) -> Path:
        """Fit and write into a folder, or into a new one within it; return where it stands.

        Into a folder that holds this pattern fitted to the same wearer it is written as the next
        version.

        Raises:
            ArmorplanError: it cannot be fitted, or not be written there.
        """
        place = _placed(view, asked, folder)
        found = self.fit(view, replace(asked, version=place.version))
        if isinstance(found, Refused):
            raise ArmorplanError(found.words)
        refusal = write_fitted(found, place)
        if refusal is not None:
            raise ArmorplanError(f"{refusal.text} {refusal.remedy}")
        return place.folder

    def look(self, view: WearerView, near: Path) -> WearerView:
        """Return the view with what lies in a folder of this pattern, fitted to somebody."""
        return replace(view, near=near, found=fitted_in(near, view.uuid))


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
