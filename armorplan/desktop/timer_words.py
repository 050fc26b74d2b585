"""What a person types to set a timer of their own: a time, and what for."""

import re
from typing import NamedTuple

from PySide6.QtCore import QCoreApplication

MOST_MIN = 14 * 24 * 60
"""The longest timer that can be set: two weeks."""
LEAST_S = 5
"""The shortest: less is over before the hand is back at the work."""
A_MINUTE_S = 60
_TIME = re.compile(
    r"""^\s*(?:
      (?P<clock_h>\d{1,3}):(?P<clock_m>\d{1,2})
    | (?P<h>\d{1,4}(?:[.,]\d{1,2})?)\s*(?:h|hr|hrs|hour|hours)(?![^\W\d_])
      (?:\s*(?P<h_min>\d{1,2})(?:\s*(?:min|m|minutes?)(?![^\W\d_]))?)?
    | (?P<d>\d{1,2})\s*(?:d|day|days)(?![^\W\d_])
    | (?P<s>\d{1,5})\s*(?:s|secs?|seconds?)(?![^\W\d_])
    | (?P<min>\d{1,5})(?:\s*(?:min|m|mins|minutes?)(?![^\W\d_])
      (?:\s*(?P<min_s>\d{1,2})\s*(?:s|secs?|seconds?)(?![^\W\d_]))?)?
    )(?P<rest>(?:[\s,;:–-]+.*)?)$""",
    re.VERBOSE | re.IGNORECASE,
)


class Wanted(NamedTuple):
    """A timer as typed: minutes, and what for (may be empty)."""

    minutes: float
    title: str


class NotATimeError(ValueError):
    """What was typed is no time; the text says what would be one."""


def read_timer_words(text: str) -> Wanted:
    """Read ``12 glue``, ``1:30 bath``, ``30 s stir``; NotATimeError where there is no time."""
    found = _TIME.match(text)
    if found is None:
        raise NotATimeError(
            _say("“{0}” does not begin with a time. Type minutes and what for: 12 glue.").format(
                text.strip()
            )
            if text.strip()
            else _say(
                "Type minutes and what for, such as 12 glue; 1:30 is an hour and a half, 30 s half "
                "a minute."
            )
        )
    minutes = _minutes(found)
    if minutes > MOST_MIN:
        raise NotATimeError(_say("A timer can run for two weeks at most, which is 14 d."))
    if minutes * A_MINUTE_S < LEAST_S:
        raise NotATimeError(_say("A timer runs for {0} s at least.").format(LEAST_S))
    return Wanted(minutes, found["rest"].strip(" \t,;:–-"))


def _minutes(found: re.Match[str]) -> float:
    if found["clock_h"] is not None:
        if int(found["clock_m"]) >= 60:  # noqa: PLR2004 - minutes of an hour
            raise NotATimeError(
                _say("{0}:{1} is no time: minutes after the colon go up to 59.").format(
                    found["clock_h"], found["clock_m"]
                )
            )
        return int(found["clock_h"]) * 60 + int(found["clock_m"])
    if found["h"] is not None:
        return round(float(found["h"].replace(",", ".")) * 60) + int(found["h_min"] or 0)
    if found["d"] is not None:
        return int(found["d"]) * 24 * 60
    if found["s"] is not None:
        return int(found["s"]) / A_MINUTE_S
    return int(found["min"]) + int(found["min_s"] or 0) / A_MINUTE_S


def _say(text: str) -> str:
    return QCoreApplication.translate("timer_words", text)
