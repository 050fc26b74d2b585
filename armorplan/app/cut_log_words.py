"""What machines were set to, in words: on one line, and as a section of the cut list."""

from collections.abc import Iterable, Iterator
from datetime import tzinfo

from armorplan.app.needs_rows import NeedsRow, NeedsSection
from armorplan.needs.cutting.model import CutLeather, CutList
from armorplan.needs.figures import thickness_words
from armorplan.workshop.cut_settings import CutResult, CutSetting, last_good

_RESULTS = {
    CutResult.THROUGH: "Cut through",
    CutResult.SPOTS: "Uncut spots, freed with the knife",
    CutResult.CHARRED: "Through, but charred",
    CutResult.NOT_THROUGH: "Not through",
}


def result_words(result: CutResult) -> str:
    """Return how a cut came out, as it stands in a list."""
    return _RESULTS[result]


def leather_words(leather: CutLeather) -> str:
    """Return a leather with its thickness."""
    return f"{leather.name}, {thickness_words(leather.least_mm, leather.thickness_mm)}"


def setting_words(setting: CutSetting, zone: tzinfo) -> str:
    """Return a trial on one line: when, on which machine, set to what, and what came of it."""
    day = setting.at.astimezone(zone).date().isoformat()
    times = "once over" if setting.passes == 1 else f"{setting.passes} times over"
    kerf = () if setting.kerf_mm is None else (f"kerf {setting.kerf_mm:g} mm",)
    note = (setting.note.rstrip("."),) if setting.note else ()
    told = ", ".join((setting.words, times, *kerf))
    return f"{day}, {setting.machine}: {told}. {'. '.join((result_words(setting.result), *note))}."


def log_section(
    found: CutList, settings: Iterable[CutSetting], zone: tzinfo
) -> NeedsSection | None:
    """Return what cut each leather of a build last; ``None`` where nothing is kept of any.

    Args:
        found: the cut list.
        settings: the log, oldest first.
        zone: in which days are told.
    """
    rows = tuple(_rows(found, tuple(settings), zone))
    title = "What cut it last"
    return NeedsSection(id="log", title=title, heads=(title,), rows=rows) if rows else None


def _rows(found: CutList, settings: tuple[CutSetting, ...], zone: tzinfo) -> Iterator[NeedsRow]:
    for leather in found.leathers:
        good = last_good(settings, leather.leather, leather.thickness_mm)
        if good:
            remarks = tuple(setting_words(one, zone) for one in good)
            yield NeedsRow(cells=(leather_words(leather),), remarks=remarks)
