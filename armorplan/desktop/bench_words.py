"""What the bench view says, from its card: facts, what comes next, how far the build is."""

import re
from datetime import datetime, tzinfo

from PySide6.QtCore import QCoreApplication

from armorplan.app.bench_card import BenchCard
from armorplan.app.rows import BenchState, TimerRow
from armorplan.desktop.timer_face import left_text, shown_title, small_texts
from armorplan.desktop.wording import clock_text, minutes_text

_HELD = re.compile(
    r"(?<=\d) (?=(?:of|mm|min|h|g|s|°|%|more)\b|[\d×])|(?<=\bof) (?=\d)|(?<=\bpost) (?=\d)|(?<=[×:]) (?=\d|M\d)|(?<=\d ×) (?=\w)|(?<=\d\N{NO-BREAK SPACE}×) (?=\w)"
)
"""Spaces within '1 of 4', 'post 8 mm' and 'M4 × 12': a line never ends there."""
HERE, ELSEWHERE = (
    "\N{BLACK RIGHT-POINTING TRIANGLE}\N{NO-BREAK SPACE}",
    "\N{EM SPACE}\N{NO-BREAK SPACE}",
)
"""Before the line in hand, and before the others."""
SAID_S, READ_S = 10.0, 0.6
"""Seconds that what was said stands at least, and for each of its words, read in passing."""
SOON_S = 120
"""What is planned within so many seconds from now comes now."""


def facts_of(card: BenchCard, longer_key: str = "") -> tuple[tuple[str, ...], int]:
    """Return the facts, the most needed first, and how many of them have to be seen.

    Args:
        card: of the step.
        longer_key: the key that says that it takes longer, which is told while it is under way.
    """
    fastener, tool = card.fastener, _capital(card.tool)
    needed = (_waiting(card), card.company, fastener, tool, _longer(card, longer_key))
    spared = (
        _capital(card.layers) if card.layers else _new(card.detail, card.title),
        _say("About {0} by hand").format(minutes_text(card.minutes)) if card.attended else "",
    )
    kept = tuple(map(unbroken, filter(None, needed)))
    return (*kept, *map(unbroken, filter(None, spared))), len(kept)


def _longer(card: BenchCard, key: str) -> str:
    is_begun = card.attended and card.state in (BenchState.RUNNING, BenchState.PAUSED)
    return _say("Takes longer than planned: {0}").format(key) if is_begun and key else ""


def unbroken(text: str) -> str:
    """Return a text in which no line ends within a number and what it counts."""
    return _HELD.sub("\N{NO-BREAK SPACE}", text)


def _new(detail: str, title: str) -> str:
    """Return a detail that the title does not say already."""
    return "" if detail in title else detail


def _waiting(card: BenchCard) -> str:
    if not card.waits_for or card.is_over:
        return ""
    if card.state is BenchState.WAITING and card.attended:
        return _say("Waits for: {0}").format(card.waits_for)
    return _capital(card.waits_for)


def all_words(card: BenchCard) -> tuple[str, ...]:
    """Return all there is to read of a step, one thing a line: for the leaf behind the view."""
    facts, _ = facts_of(card)
    more = (card.detail,) if unbroken(card.detail) not in facts else ()
    return (card.title, *filter(None, (*facts, *more, *card.cautions)))


def caution_text(card: BenchCard, leaf_key: str) -> str:
    """Return the first caution, and where the others are."""
    more = len(card.cautions) - 1
    if more <= 0:
        return unbroken(card.caution)
    return unbroken(_say("{0} {1} more: {2}").format(card.caution, more, leaf_key))


def next_text(card: BenchCard, now: datetime, zone: tzinfo) -> str:
    """Say what comes next, and when where that is not at once."""
    if not card.next_title:
        return _say("Next: nothing; this is the last one.")
    at = card.next_at
    if at is None or (at - now).total_seconds() < SOON_S:
        return _say("Next: {0}").format(card.next_title)
    return _say("Next at {0}: {1}").format(clock_text(at, now, zone), card.next_title)


def more_text(count: int, *, below: bool) -> str:
    """Say how many lines there are beyond those in sight."""
    told = _say("1 more") if count == 1 else _say("{0} more").format(count)
    sign = "\N{BLACK DOWN-POINTING TRIANGLE}" if below else "\N{BLACK UP-POINTING TRIANGLE}"
    return f"{sign}\N{NO-BREAK SPACE}{told}"


def said_in_full(sentence: str) -> str:
    """Return what was said where it has to be read in full; a plain 'Done: …' has not."""
    return sentence if ". " in sentence.rstrip(". ") else ""


def said_s(sentence: str) -> float:
    """Return for how many seconds what was said stands: longer, the more there is to read."""
    return max(SAID_S, READ_S * len(sentence.split()))


def progress_text(card: BenchCard) -> str:
    """Say how far the build is."""
    return _say("{0} of {1}").format(card.done_count, card.all_count)


def timer_texts(row: TimerRow, now: datetime, zone: tzinfo) -> tuple[str, str, str]:
    """Return a timer's time left, its clock time, and its title."""
    return left_text(row, now), small_texts(row, now, zone)[0], shown_title(row)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _say(text: str) -> str:
    return QCoreApplication.translate("bench_words", text)
