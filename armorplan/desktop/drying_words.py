"""What is said of one drying: its headline, its windows as rows, and the picture in a sentence."""

from datetime import datetime, tzinfo

from PySide6.QtCore import QCoreApplication

from armorplan.app.drying_choices import Began, DryingChoice
from armorplan.app.drying_rows import DryBar, DryingPage
from armorplan.app.rough_instants import rough
from armorplan.desktop.drying_desk import DryingShown
from armorplan.desktop.twin_model import TwinRow
from armorplan.desktop.wording import clock_text, day_text
from armorplan.drying.instants import Instants
from armorplan.drying.spans import Stage, Verdict

_HANDLE = "Dry to handle {0}, between {1} and {2}."
_AWAITED: dict[Stage | None, tuple[str, str]] = {
    Stage.TOUCH: ("touch", "Next coat {0}, between {1} and {2}. Dry to handle {3}."),
    Stage.CURE: ("cure", "Cured {0}, between {1} and {2}. Dry to handle {3}."),
}
"""By what a step waits for: which window the maker waits for, and its sentence."""
HEADINGS = ("Window", "Soonest", "Likely", "Latest", "What it means")


def _tr(text: str) -> str:
    return QCoreApplication.translate("DryingWords", text)


def choice_words(choice: DryingChoice, now_at: datetime, zone: tzinfo) -> str:
    """Return what a drying is called in the list of those that can be looked at."""
    if not choice.step:
        return _tr("{0}, put on now").format(choice.title)
    return f"{choice.title} ({start_words(choice, now_at, zone)})"


def start_words(choice: DryingChoice, now_at: datetime, zone: tzinfo) -> str:
    """Return when a drying began, or will."""
    if choice.began is Began.NOW:
        return _tr("if it began now")
    at = clock_text(choice.start_at, now_at, zone)
    said = {
        Began.RUNS: _tr("began {0}"),
        Began.DRIED: _tr("is done, began {0}"),
        Began.PLANNED: _tr("by the plan begins {0}"),
    }
    return said[choice.began].format(at)


def _when(at: datetime | None, page: DryingPage, now_at: datetime, zone: tzinfo) -> str:
    """Return when in words, no finer than it is known."""
    if at is None:
        return _tr("never")
    known = rough(at, page.choice.start_at, zone)
    if known.part:
        return f"{day_text(known.at, zone)}, {_tr(known.part)}"
    return clock_text(known.at, now_at, zone)


def headline(page: DryingPage, now_at: datetime, zone: tzinfo) -> str:
    """Return whether it dries, and when what its step waits for has come, in a sentence."""
    mark = {
        Verdict.DRIES: "",
        Verdict.WILL_NOT_DRY: "\N{HEAVY MULTIPLICATION X} ",
        Verdict.WOULD_SPOIL: "\N{WARNING SIGN} ",
    }[page.verdict]
    if page.trouble:
        return f"{mark}{page.trouble} {page.remedy}"
    opens = {bar.key: _range(bar.opens, page, (now_at, zone)) for bar in page.bars}
    soonest, handle, latest = opens["handle"]
    key, words = _AWAITED.get(page.choice.stage, ("handle", _HANDLE))
    if key in opens:
        soonest, likely, latest = opens[key]
        return _tr(words).format(likely, soonest, latest, handle)
    return _tr(_HANDLE).format(handle, soonest, latest)


def _range(
    ends: Instants, page: DryingPage, when: tuple[datetime, tzinfo]
) -> tuple[str, str, str]:
    soonest, likely, latest = (
        _when(at, page, *when) for at in (ends.soonest_at, ends.likely_at, ends.latest_at)
    )
    return soonest, likely, latest


def window_rows(page: DryingPage, now_at: datetime, zone: tzinfo) -> tuple[TwinRow, ...]:
    """Return every window by its ends: from when, and until when where it has an end."""
    rows, when = [], (now_at, zone)
    for bar in page.bars:
        rows.append(_row(bar, "from", _range(bar.opens, page, when)))
        if bar.closes is not None:
            rows.append(_row(bar, "until", _range(bar.closes, page, when)))
    return tuple(rows)


def _row(bar: DryBar, end: str, told: tuple[str, str, str]) -> TwinRow:
    soonest, likely, latest = told
    name = f"{bar.name}, {_tr('until') if end == 'until' else _tr('from')}"
    if bar.closes is None:
        name = bar.name
    meaning = bar.missed if end == "until" else bar.meaning
    cells = (name, soonest, likely, latest, meaning)
    spoken = _tr("{0}: likely {1}, between {2} and {3}; {4}").format(
        name, likely, soonest, latest, meaning
    )
    return TwinRow(key=f"{bar.key}:{end}", cells=cells, spoken=spoken)


def change_sentence(shown: DryingShown, now_at: datetime, zone: tzinfo) -> str:
    """Return what another air would change: when it can be handled, and how long that takes."""
    if shown.other is None:
        return ""
    before_at, after_at = (_handle_at(page) for page in (shown.page, shown.other))
    if shown.other.trouble or before_at is None or after_at is None:
        return shown.change
    before = _when(before_at, shown.page, now_at, zone)
    after = _when(after_at, shown.other, now_at, zone)
    if before == after:
        return shown.change
    return _tr("Dry to handle {0} instead of {1}: {2}").format(after, before, shown.change)


def _handle_at(page: DryingPage) -> datetime | None:
    found = (bar.opens.likely_at for bar in page.bars if bar.key == "handle")
    return next(found, None)


def picture_words(page: DryingPage, now_at: datetime, zone: tzinfo) -> str:
    """Return the picture in words, for who does not see it."""
    air = page.curve.temperature_c, page.curve.humidity_pct
    (cold, warm), (least, most) = ((min(one), max(one)) for one in air)
    return _tr(
        "{0} The air is {1:.0f} to {2:.0f} °C with a relative humidity of {3:.0f} to {4:.0f} %. {5}"
    ).format(headline(page, now_at, zone), cold, warm, least, most, page.why)
