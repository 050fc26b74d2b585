"""The builds in hand as rows of a table, and what is said of one."""

from datetime import datetime, tzinfo

from PySide6.QtCore import QCoreApplication

from armorplan.app.in_hand import InHand
from armorplan.app.promises import OddsRow, PromiseRow, Promises, runs_words
from armorplan.app.surety import least_words
from armorplan.desktop.twin_model import TwinRow
from armorplan.desktop.wording import day_text


def _say(text: str) -> str:
    return QCoreApplication.translate("builds_words", text)


def headings() -> tuple[str, ...]:
    """Return what the columns show."""
    return (
        _say("Build"),
        _say("Standing"),
        _say("Due"),
        _say("Weight"),
        _say("In the plan"),
        _say("Date is kept"),
        _say("50 % by"),
        _say("80 % by"),
        _say("95 % by"),
    )


def build_rows(
    builds: tuple[InHand, ...], promised: Promises | None, zone: tzinfo
) -> tuple[TwinRow, ...]:
    """Return a row for each build, those in hand first, the soonest due before the others."""
    told = {row.build: row for row in promised.builds} if promised else {}
    return tuple(_row(b, told.get(b.build), zone) for b in sorted(builds, key=_place))


def _place(build: InHand) -> tuple[bool, bool, float]:
    due = build.due_at.timestamp() if build.due_at else 0.0
    return not (build.in_hand or build.is_open), build.due_at is None, due


def _row(build: InHand, told: PromiseRow | None, zone: tzinfo) -> TwinRow:
    cells = (
        build.title,
        _standing(build),
        _when(build.due_at, zone) if build.due_at else _say("no date"),
        str(build.weight),
        *_dates(told, zone),
    )
    names = headings()
    said = [f"{name}: {cell}" for name, cell in zip(names[1:], cells[1:], strict=True) if cell]
    return TwinRow(key=build.build, cells=cells, spoken=". ".join((build.title, *said)))


def _standing(build: InHand) -> str:
    if build.trouble:
        return _say("cannot be planned")
    if build.is_open:
        return _say("in hand, open here")
    return _say("in hand") if build.in_hand else _say("laid aside")


def _dates(told: PromiseRow | None, zone: tzinfo) -> tuple[str, ...]:
    if told is None:
        return ("",) * 5
    kept = _kept(told) if told.kept_pct is not None else ""
    usual = (_odds(one, zone) for one in told.usual)
    return (_when(told.planned_at, zone), kept, *usual)


def _kept(told: PromiseRow) -> str:
    # A word beside the number: who hears or glances at it need not weigh it.
    kept, error = told.kept_pct or 0.0, told.kept_error_pct or 0.0
    word = next(word for least, word in _WORDS if round(kept) >= least)
    return _say("{0}: {1:.0f} % ± {2:.0f} %").format(_say(word), kept, max(error, 1.0))


_WORDS = ((95, "sure"), (80, "likely"), (50, "perhaps"), (20, "hardly"), (0, "too tight"))


def _odds(told: OddsRow, zone: tzinfo) -> str:
    return _when(told.at, zone) if told.at else _say("beyond the days planned")


def _when(at: datetime, zone: tzinfo) -> str:
    local = at.astimezone(zone)
    return f"{day_text(at, zone)} {local:%H:%M}"


def said_of(build: InHand, told: PromiseRow | None, zone: tzinfo) -> tuple[str, ...]:
    """Return what is said of the chosen build: its promise, its odds, what costs most."""
    if build.trouble:
        return (build.trouble,)
    if told is None:
        return (
            (_say("It is laid aside: take it in hand to have it planned."),)
            if not (build.in_hand or build.is_open)
            else (_say("Its odds are told once there is a plan and they are reckoned."),)
        )
    said = [_promise(told, zone)]
    if told.due_at is not None:
        kept = _say("Its date, {0}, is kept in {1:.0f} % of the runs, ± {2:.0f} %. {3}")
        error = max(told.kept_error_pct or 0.0, 1.0)
        date = _when(told.due_at, zone)
        said.append(kept.format(date, told.kept_pct or 0, error, told.spare).strip())
    usual = _say("Finished by {0}.").format(
        ", ".join(_say("{0} ({1} %)").format(_odds(one, zone), one.odds_pct) for one in told.usual)
    )
    return (*said, usual, *(cause.text for cause in told.causes))


def _promise(told: PromiseRow, zone: tzinfo) -> str:
    promised = told.promise
    if promised.at is None:
        return _say(
            "No date can be promised at {0} %: it lies beyond the days planned ahead."
        ).format(promised.odds_pct)
    said = _say("The earliest date to promise at {0} %: {1}.")
    if promised.low_at is None or promised.high_at is None:
        return said.format(promised.odds_pct, _when(promised.at, zone))
    within = _say("Drawn anew it lies between {0} and {1}.").format(
        _when(promised.low_at, zone), _when(promised.high_at, zone)
    )
    return f"{said.format(promised.odds_pct, _when(promised.at, zone))} {within}"


def rests_on(promised: Promises | None) -> str:
    """Return what the odds rest on; empty while there are none."""
    if promised is None:
        return ""
    return f"{least_words(promised)} {runs_words(promised)}".strip()
