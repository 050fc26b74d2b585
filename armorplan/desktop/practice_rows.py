"""How somebody stands, as rows of tables: reasons and when they come back, kinds of step signed off."""

from collections.abc import Callable
from datetime import datetime, tzinfo

from PySide6.QtCore import QCoreApplication

from armorplan.app.practice_protocol import SkillRow
from armorplan.desktop.twin_model import TwinRow
from armorplan.desktop.wording import day_text
from armorplan.practice.grades import Grade, ReasonState
from armorplan.practice.progress import PieceProgress, Progress, ReasonRow
from armorplan.workshop.skill_how import SkillHow

SIGNS = {
    ReasonState.MASTERED: "\N{BLACK CIRCLE}",
    ReasonState.SHAKY: "\N{CIRCLE WITH LEFT HALF BLACK}",
    ReasonState.UNSEEN: "\N{WHITE CIRCLE}",
}
"""A shape for each state: its word stands beside it, its colour only adds to both."""
HOWS = (SkillHow.AS_FILED, SkillHow.BESIDE, SkillHow.ALONE, SkillHow.NOT_YET)
"""As they are offered where a skill is signed off."""


def _say(text: str) -> str:
    return QCoreApplication.translate("practice", text)


def state_words(state: ReasonState) -> str:
    """Return how a reason sits, in a word."""
    return {
        ReasonState.MASTERED: _say("mastered"),
        ReasonState.SHAKY: _say("shaky"),
        ReasonState.UNSEEN: _say("unseen"),
    }[state]


def shares_words(counts: dict[ReasonState, int]) -> str:
    """Say how many reasons sit in each way."""
    told = _say("{0} {1}")
    return ", ".join(told.format(counts[state], state_words(state)) for state in ReasonState)


def counts_of(progress: Progress | PieceProgress) -> dict[ReasonState, int]:
    """Return how many reasons sit in each way."""
    return {state: progress.count(state) for state in ReasonState}


def known_words(grade: Grade | None) -> str:
    """Say how a reason was known the last time."""
    if grade is None:
        return _say("in passing")
    return {
        Grade.MISSED: _say("missed"),
        Grade.NEEDED_REASON: _say("needed the reason"),
        Grade.KNEW: _say("knew it"),
        Grade.COULD_TEACH: _say("could teach it"),
    }[grade]


def reason_headings() -> tuple[str, ...]:
    """Return the headings of the table of reasons."""
    return (
        _say("Reason"),
        _say("It sits"),
        _say("Last seen"),
        _say("How it went"),
        _say("Comes back"),
    )


def reason_rows(
    reasons: tuple[ReasonRow, ...], now_at: datetime, zone: tzinfo
) -> tuple[TwinRow, ...]:
    """Return reasons as rows, in the order in which they are told; ``now_at``: as of then."""

    def day(at: datetime) -> str:
        is_today = at.astimezone(zone).date() == now_at.astimezone(zone).date()
        return _say("today") if is_today else day_text(at, zone)

    return tuple(_reason_row(row, day) for row in reasons)


def _reason_row(row: ReasonRow, day: Callable[[datetime], str]) -> TwinRow:
    state = f"{SIGNS[row.state]} {state_words(row.state)}"
    seen = day(row.last_at) if row.last_at else _say("not yet")
    known = known_words(row.last) if row.last_at else ""
    cells = (row.name, state, seen, known, _comes_back(row, day))
    told = row.sentence or ". ".join((state_words(row.state), *cells[2:]))
    return TwinRow(key=row.rule, cells=cells, spoken=f"{row.name}. {told}")


def _comes_back(row: ReasonRow, day: Callable[[datetime], str]) -> str:
    if row.is_due:
        return _say("now")
    if row.due_at is None:
        return ""
    when = day(row.due_at)
    return _say("later today") if when == _say("today") else when


def how_words(how: SkillHow) -> str:
    """Return in whose company somebody does a kind of step."""
    return {
        SkillHow.AS_FILED: _say("as the shop file says"),
        SkillHow.BESIDE: _say("with the maker beside"),
        SkillHow.ALONE: _say("alone"),
        SkillHow.NOT_YET: _say("not yet"),
    }[how]


def skill_headings() -> tuple[str, ...]:
    """Return the headings of the table of kinds of step."""
    return (_say("Kind of step"), _say("Done"), _say("By whose word"), _say("What practice says"))


def skill_rows(rows: tuple[SkillRow, ...], zone: tzinfo) -> tuple[TwinRow, ...]:
    """Return kinds of step as rows, as they are worked."""
    return tuple(
        TwinRow(
            key=row.kind,
            cells=(row.kind, how_words(row.holds), _whose_word(row, zone), row.practised),
            spoken=". ".join(filter(None, (row.kind, _spoken(row), row.practised))),
        )
        for row in rows
    )


def _spoken(row: SkillRow) -> str:
    return row.sentence or how_words(row.holds)


def _whose_word(row: SkillRow, zone: tzinfo) -> str:
    if row.how is None:
        return _say("the shop file")
    day = day_text(row.at, zone) if row.at else ""
    return ", ".join(filter(None, (row.by, day)))


def skill_told(row: SkillRow) -> str:
    """Say of a kind of step how it stands, when plans go by it, and what practice says."""
    planned = _say(
        "Plans have two at it where that is quicker, or where both are there and nothing ends later."
    )
    when = planned if row.holds is SkillHow.BESIDE else ""
    return " ".join(filter(None, (row.sentence, when, row.practised)))
