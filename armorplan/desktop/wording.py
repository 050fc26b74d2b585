"""Durations, clock times and counts as the maker reads them."""

from datetime import datetime, tzinfo

from PySide6.QtCore import QCoreApplication, QLocale

MINUTES_AN_HOUR = 60
HOURS_A_DAY = 24


def _say(text: str) -> str:
    return QCoreApplication.translate("wording", text)


def of_build(build_title: str, words: str) -> str:
    """Return words with the name of the build that they are of before them; empty: the open one."""
    return f"{build_title}: {words}" if build_title else words


def minutes_text(minutes: int) -> str:
    """Say a duration in minutes: ``45 min``, ``2 h``, ``1 h 20 min``."""
    hours, rest = divmod(minutes, MINUTES_AN_HOUR)
    if not hours:
        return _say("{0} min").format(rest)
    if not rest:
        return _say("{0} h").format(hours)
    return _say("{0} h {1} min").format(hours, rest)


def seconds_text(seconds: int) -> str:
    """Say a duration that was told to the second: ``30 s``, ``1 min 30 s``, ``12 min``."""
    minutes, rest = divmod(seconds, MINUTES_AN_HOUR)
    told = [minutes_text(minutes)] if minutes or not rest else []
    return " ".join([*told, *([_say("{0} s").format(rest)] if rest else [])])


def countdown_text(seconds: float) -> str:
    """Say what is left to the second: ``4:05``, ``2:10:00``, ``1 d 2:10:00``; never below zero."""
    whole = max(0, -int(-seconds // 1))
    minutes, second = divmod(whole, MINUTES_AN_HOUR)
    hours, minute = divmod(minutes, MINUTES_AN_HOUR)
    if not hours:
        return f"{minute}:{second:02d}"
    days, hour = divmod(hours, HOURS_A_DAY)
    text = f"{hour}:{minute:02d}:{second:02d}"
    return _say("{0} d {1}").format(days, text) if days else text


def over_text(seconds: float) -> str:
    """Say how long a time has been up: ``due now`` in the first minute, then ``due for 3 min``."""
    minutes = int(seconds // MINUTES_AN_HOUR)
    return _say("due for {0}").format(minutes_text(minutes)) if minutes else _say("due now")


def clock_text(at: datetime, now: datetime, zone: tzinfo) -> str:
    """Say when in local time: ``16:20`` today, ``Thu 16:20`` near, ``7 May 16:20`` far."""
    there, here = at.astimezone(zone), now.astimezone(zone)
    time = f"{there.hour:02d}:{there.minute:02d}"
    days = (there.date() - here.date()).days
    if days == 0:
        return time
    if 0 < days < 7:  # noqa: PLR2004 - within the week a day's name is enough
        return f"{_day_name(there)} {time}"
    return f"{_day_of_month(there)} {time}"


def day_text(at: datetime, zone: tzinfo) -> str:
    """Say a day: ``Thu 7 May``."""
    there = at.astimezone(zone)
    return f"{_day_name(there)} {_day_of_month(there)}"


def _day_name(there: datetime) -> str:
    return QLocale().dayName(there.isoweekday(), QLocale.FormatType.ShortFormat)


def _day_of_month(there: datetime) -> str:
    return f"{there.day} {QLocale().monthName(there.month, QLocale.FormatType.ShortFormat)}"
