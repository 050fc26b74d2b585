"""Which columns of a logger's file hold what, found by the words above them or by their order."""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import timedelta, timezone
from unicodedata import normalize

from armorplan.files.log_text import SEPARATORS, Line, cells_of
from armorplan.files.log_values import number_in

_HEAD_LINES = 80
"""So many lines are looked through for the words above the columns."""
_WHOLE = re.compile(r"time ?stamp|date ?time|date.*time|time.*date|zeitstempel|zeitpunkt")
_DATE = re.compile(r"\b(?:date|day|datum|fecha)\b|^data$|^dia$")
_TIME = re.compile(r"\b(?:time|clock|zeit|uhrzeit|hora|heure|tijd|ora)\b")
_NO_TIME = re.compile(r"elapsed|duration|since|uptime|run ?time")
_HUMIDITY = re.compile(r"humid|humed|umid|feucht|vochtig|\br\.?h\.?\b|\bhr\b|\brf\b|^%|rel.*%")
_NO_HUMIDITY = re.compile(r"abs|batt|charge|power|g/m|signal")
_TEMPERATURE = re.compile(r"temp|celsius|fahrenheit|° ?[cf]\b|^t\b|^deg ?[cf]\b|^[cf]$")
_NO_TEMPERATURE = re.compile(r"dew|tau|bulb|set ?point|\bmax|\bmin|\bhigh|\blow|heat index|feels")
_AIR = re.compile(r"air ?(?:speed|flow|velocity|movement)|wind|velocity|^speed|\bm/s\b")
_FAHRENHEIT = re.compile(
    r"° ?f\b|fahrenheit|[(\[] ?f ?[)\]]|\bdeg\.? ?f\b|[ /,]f$|^f$|^temp(?:erature)?f$"
)
_CELSIUS = re.compile(
    r"° ?c\b|celsius|[(\[] ?c ?[)\]]|\bdeg\.? ?c\b|[ /,]c$|^c$|^temp(?:erature)?c$"
)
_SHARE = re.compile(r"\bshare\b|\bfraction\b|\b0 ?(?:-|to|\N{EN DASH}) ?1\b")
_AIR_UNITS = (
    (re.compile(r"km/h|kph|kmh"), 1 / 3.6),
    (re.compile(r"\bmph\b|mi/h"), 0.44704),
    (re.compile(r"ft/min|\bfpm\b"), 0.00508),
    (re.compile(r"ft/s|\bfps\b"), 0.3048),
    (re.compile(r"cm/s"), 0.01),
)
"""Exact by definition: the foot is 0.3048 m, the mile 1609.344 m."""
_OFFSET = re.compile(r"\b(?:utc|gmt)\s*(?:([+-])\s*(\d{1,2})(?::?(\d{2}))?)?")
_LATEST_OFFSET_H = 14


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """Where in a row things stand, and in what units.

    Attributes:
        separator: what stands between cells.
        when: the cells of the time: one, or the date's and the time's.
        fahrenheit: the temperature is told in °F; ``celsius``: in °C; neither: nobody says.
        share: the humidity is told as a share of one; ``per_cent``: somebody said that it is not.
        air: the cell of the air speed, ``None`` where there is none.
        air_m_s: what one of its unit is in m/s.
        offset: of the times from UTC, where the header names it.
        first: how many lines lie above the first row.
        cells: how many cells the header has; 0 without a header.
    """

    separator: str
    when: tuple[int, ...]
    temperature: int
    humidity: int
    first: int
    fahrenheit: bool = False
    celsius: bool = False
    share: bool = False
    per_cent: bool = False
    air: int | None = None
    air_m_s: float = 1.0
    offset: timezone | None = None
    cells: int = 0

    def when_text(self, cells: Sequence[str]) -> str:
        """Return what a row says of its time; empty where it says nothing."""
        return " ".join(cells[at] for at in self.when if at < len(cells)).strip()


@dataclass(frozen=True, slots=True, kw_only=True)
class Header:
    """What a line says above the columns; ``None`` for a column it does not name."""

    columns: Columns | None
    line: Line
    lacks: tuple[str, ...]


def header_of(lines: Sequence[Line]) -> Header | None:
    """Return the line that names the columns: the first that names all, else the fullest one."""
    best: Header | None = None
    for at, line in enumerate(lines[:_HEAD_LINES]):
        for separator in SEPARATORS:
            found = _header(line, at, separator)
            if found is None:
                continue
            if found.columns is not None:
                return found
            if best is None or len(found.lacks) < len(best.lacks):
                best = found
    return best


def _header(line: Line, at: int, separator: str) -> Header | None:
    names = [_plain(cell) for cell in cells_of(line.text, separator)]
    if len(names) < 2 or sum(number_in(name) is not None for name in names) > 1:  # noqa: PLR2004
        return None
    when = _when(names)
    humidity = _first(names, _HUMIDITY, _NO_HUMIDITY)
    temperature = _first(names, _TEMPERATURE, _NO_TEMPERATURE, not_at=humidity)
    wanted = (("time", when or None), ("temperature", temperature), ("humidity", humidity))
    lacks = tuple(word for word, found in wanted if found is None)
    if len(lacks) == len(wanted):
        return None
    if temperature is None or humidity is None or not when:
        return Header(columns=None, line=line, lacks=lacks)
    air = _first(names, _AIR, _NO_HUMIDITY)
    columns = Columns(
        separator=separator,
        when=when,
        temperature=temperature,
        humidity=humidity,
        first=at + 1,
        fahrenheit=is_fahrenheit(names[temperature]),
        celsius=is_celsius(names[temperature]),
        share=bool(_SHARE.search(names[humidity])),
        air=air,
        air_m_s=1.0 if air is None else _air_m_s(names[air]),
        offset=_offset(" ".join(names[each] for each in when)),
        cells=len(names),
    )
    return Header(columns=columns, line=line, lacks=())


def _plain(cell: str) -> str:
    return normalize("NFKC", cell).replace("º", "°").replace("_", " ").strip().casefold()


def is_fahrenheit(name: str) -> bool:
    """Tell whether the words above a column, or the unit below them, name °F."""
    return bool(_FAHRENHEIT.search(_plain(name)))


def is_celsius(name: str) -> bool:
    """Tell whether the words above a column, or the unit below them, name °C."""
    return bool(_CELSIUS.search(_plain(name)))


def _when(names: Sequence[str]) -> tuple[int, ...]:
    """Return the column of date and time; or that of the date and that of the time."""
    named = [(at, name) for at, name in enumerate(names) if not _NO_TIME.search(name)]
    whole = [at for at, name in named if _WHOLE.search(name)]
    if whole:
        return (whole[0],)
    date = next((at for at, name in named if _DATE.search(name)), None)
    clock = next((at for at, name in named if _TIME.search(name) and at != date), None)
    return tuple(at for at in (date, clock) if at is not None)


def _first(
    names: Sequence[str],
    wanted: re.Pattern[str],
    unwanted: re.Pattern[str],
    *,
    not_at: int | None = None,
) -> int | None:
    found = (at for at, name in enumerate(names) if wanted.search(name) and at != not_at)
    return next((at for at in found if not unwanted.search(names[at])), None)


def _air_m_s(name: str) -> float:
    return next((factor for unit, factor in _AIR_UNITS if unit.search(name)), 1.0)


def _offset(name: str) -> timezone | None:
    found = _OFFSET.search(name)
    if found is None:
        return None
    hours, minutes = int(found[2] or 0), int(found[3] or 0)
    if hours > _LATEST_OFFSET_H or minutes > 59:  # noqa: PLR2004
        return None
    sign = -1 if found[1] == "-" else 1
    return timezone(sign * timedelta(hours=hours, minutes=minutes))


def unnamed_columns(lines: Sequence[Line], is_time: Callable[[str], bool]) -> Columns | None:
    """Return the columns of a file without a header: time, temperature, humidity, air speed.

    The time may take two cells. ``None`` where its first line is not of that kind.
    """
    for separator in SEPARATORS:
        cells = cells_of(lines[0].text, separator)
        for taken in (1, 2):
            rest = cells[taken:]
            few = len(rest) in (2, 3) and all(number_in(cell) is not None for cell in rest)
            if few and is_time(" ".join(cells[:taken])):
                return Columns(
                    separator=separator,
                    when=tuple(range(taken)),
                    temperature=taken,
                    humidity=taken + 1,
                    air=taken + 2 if len(rest) > 2 else None,  # noqa: PLR2004
                    first=0,
                )
    return None
