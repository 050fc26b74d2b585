"""The cut list of the build at the bench, its files, and the log of what machines were set to."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Protocol

from armorplan.app.cut_files import save_beds, save_cut_table
from armorplan.app.cut_lists import cut_list_of, cutter_beds
from armorplan.app.cut_sections import cut_sections
from armorplan.app.derived import Derived
from armorplan.app.needs_rows import NeedsSection
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.findings import Finding
from armorplan.needs.cutting.model import MOST_KERF_MM, CutAsked, CutLeather, CutList, CutterBed
from armorplan.workshop.cut_settings import CutResult, CutSetting, last_good

MOST_PASSES = 50


class CutLog(Protocol):
    """Where it is kept what machines were set to; ``store.cut_log_file`` fulfils it."""

    def keep(self, setting: CutSetting) -> None:
        """Keep a trial for ever."""
        ...

    def all(self) -> tuple[CutSetting, ...]:
        """Return every trial, oldest first."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPage:
    """A cut list with its words, and the beds with the lines on them."""

    found: CutList
    sections: tuple[NeedsSection, ...]
    beds: tuple[CutterBed, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What is wrong with what was asked."""
        return self.found.findings


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """A trial as it was typed; see ``CutSetting``."""

    machine: str
    leather: CutLeather
    words: str
    passes: int
    result: CutResult
    kerf_mm: float | None = None
    note: str = ""


def cut_page(derived: Derived, asked: CutAsked) -> CutPage:
    """Return the cut list of a build, with its words and its beds."""
    found = cut_list_of(derived, asked)
    return CutPage(found=found, sections=cut_sections(found), beds=cutter_beds(derived, found))


def save_cut_page(page: CutPage, path: Path) -> tuple[Path, ...]:
    """Write a table where the name ends in .csv, else a drawing of each bed; return the files.

    Raises:
        ArmorplanError: its ending is another, there is no bed, or it cannot be written.
    """
    if path.suffix.lower() == ".csv":
        save_cut_table(path, page.found)
        return (path,)
    return save_beds(path, page.beds)


class Cutting:
    """What the window asks about the cutting of the build at the bench."""

    def __init__(
        self, derived: Callable[[], Derived], log: CutLog, clock: Clock, *, who: str = ""
    ) -> None:
        self._derived = derived
        self._log = log
        self._clock = clock
        self._who = who

    def asking(self, asked: CutAsked) -> Callable[[], CutPage]:
        """Return what makes the cut list, in any thread."""
        return partial(cut_page, self._derived(), asked)

    def good(self, leather: CutLeather) -> tuple[CutSetting, ...]:
        """Return for each machine what cut such a leather last, the latest first."""
        return last_good(self._log.all(), leather.leather, leather.thickness_mm)

    def log(self) -> tuple[CutSetting, ...]:
        """Return every trial, the latest first."""
        return self._log.all()[::-1]

    def keep(self, tried: Tried) -> CutSetting:
        """Keep how a cut came out.

        Raises:
            ArmorplanError: something is missing or cannot be, or nothing can be written.
        """
        machine, words = tried.machine.strip(), tried.words.strip()
        if not machine or not words:
            missing = "the machine" if not machine else "what it was set to"
            raise ArmorplanError(f"Say {missing} too. Nothing was kept.")
        if not 1 <= tried.passes <= MOST_PASSES:
            raise ArmorplanError(f"Passes are from 1 to {MOST_PASSES}. Nothing was kept.")
        if tried.kerf_mm is not None and not 0 <= tried.kerf_mm <= MOST_KERF_MM:
            raise ArmorplanError(f"A kerf is from 0 to {MOST_KERF_MM:g} mm. Nothing was kept.")
        setting = CutSetting(
            at=self._clock.now(),
            machine=machine,
            leather=tried.leather.leather,
            thickness_mm=tried.leather.thickness_mm,
            words=words,
            passes=tried.passes,
            result=tried.result,
            kerf_mm=tried.kerf_mm,
            note=tried.note.strip(),
            who=self._who,
        )
        self._log.keep(setting)
        return setting
