"""What the form of a day says: bars with their times, waits, and what the lanes show."""

from PySide6.QtCore import QCoreApplication

from armorplan.desktop.drill_day_layout import DaySpan, Window
from armorplan.desktop.wording import minutes_text
from armorplan.practice.drill import DayRow


def _say(text: str) -> str:
    return QCoreApplication.translate("drill day", text)


def _long(minutes: int) -> str:
    """Say how long; it is not broken over two lines."""
    return minutes_text(minutes).replace(" ", "\N{NO-BREAK SPACE}")


def bar_title(letter: str, row: DayRow) -> str:
    """Return what stands beside a bar."""
    return f"{letter}  {row.title}, {_long(row.minutes)}"


def bar_spoken(letter: str, row: DayRow, times: str, note: str) -> str:
    """Say a bar for the ear."""
    more = f". {note}" if note else ""
    return f"{letter}, {row.title}, {minutes_text(row.minutes)}: {times}{more}"


def bar_times(span: DaySpan, row: DayRow, start_min: int | None) -> str:
    """Say when a bar begins and ends."""
    if start_min is None:
        return _say("no time yet")
    end = span.clock(start_min + row.minutes)
    return _say("{0} to {1}").format(span.clock(start_min), end)


def wait_title(row: DayRow, letters: tuple[str, str]) -> str:
    """Return what stands beside a wait; ``letters`` are of the bars before and behind it."""
    after, before = letters
    least = _say("{0} at least").format(_long(row.minutes)) if row.minutes else ""
    most = _say("{0} at the most").format(_long(row.latest_min)) if row.latest_min else ""
    told = ", ".join(one for one in (least, most) if one)
    words = _say("{0}, from the end of {1}").format(row.title, after)
    words += f": {told}" if told else ""
    return words + (_say("; then {0}").format(before) if before else "")


def wait_times(span: DaySpan, window: Window | None) -> str:
    """Say when a wait is over, and by when what waits has to begin."""
    if window is None:
        return _say("no time yet")
    over = _say("over at {0}").format(span.clock(window.ready_min))
    if window.latest_min is None:
        return over
    return _say("{0}, too late after {1}").format(over, span.clock(window.latest_min))


def legend(span: DaySpan) -> str:
    """Say what the lanes show."""
    told = [_say("Dashed line: all has to be done by {0}.").format(span.clock(span.due_min))]
    if any(row.after for row in span.day.rows):
        told.append(_say("Hatched: time passes by itself, up to the thick edge at the latest."))
    if span.closed:
        told.append(_say("Shaded: nobody works."))
    return " ".join(told)
