"""What is said of a bed and of what a machine was set to."""

from datetime import tzinfo

from PySide6.QtCore import QCoreApplication

from armorplan.needs.cutting.model import CutLeather, CutterBed
from armorplan.needs.figures import thickness_words
from armorplan.workshop.cut_settings import CutResult, CutSetting


def _say(text: str) -> str:
    return QCoreApplication.translate("cut", text)


def result_words(result: CutResult) -> str:
    """Return how a cut came out, as it stands in a list."""
    return {
        CutResult.THROUGH: _say("Cut through"),
        CutResult.SPOTS: _say("Uncut spots, freed with the knife"),
        CutResult.CHARRED: _say("Through, but charred"),
        CutResult.NOT_THROUGH: _say("Not through"),
    }[result]


def leather_words(leather: CutLeather) -> str:
    """Return a leather with its thickness."""
    return f"{leather.name}, {thickness_words(leather.least_mm, leather.thickness_mm)}"


def setting_words(setting: CutSetting, zone: tzinfo) -> str:
    """Return a trial on one line: when, on which machine, set to what, and what came of it."""
    day = setting.at.astimezone(zone).date().isoformat()
    times = (
        _say("once over") if setting.passes == 1 else _say("{0} times over").format(setting.passes)
    )
    kerf = () if setting.kerf_mm is None else (_say("kerf {0} mm").format(f"{setting.kerf_mm:g}"),)
    note = (setting.note,) if setting.note else ()
    told = ", ".join((setting.words, times, *kerf))
    return f"{day}, {setting.machine}: {told}. {'. '.join((result_words(setting.result), *note))}."


def bed_words(bed: CutterBed) -> str:
    """Return what lies on a bed, for who does not see it."""
    names = ", ".join(shape.name for shape in bed.shapes)
    return _say("{0}, {1} × {2} mm: {3}").format(
        bed.title, f"{bed.wide_mm:g}", f"{bed.high_mm:g}", names
    )
