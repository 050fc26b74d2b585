"""The air as it is typed on the command line: one air, a day and a night, or a logger's file."""

import re
from dataclasses import replace
from pathlib import Path

from armorplan.cli.dry_options import WANTED
from armorplan.cli.reading import warn
from armorplan.files.climate_csv import read_air_log
from armorplan.files.faults import brief
from armorplan.files.limits import AIR_C, AIR_SPEED, HUMIDITY
from armorplan.kernel.errors import ArmorplanError, UnreadableError
from armorplan.kernel.findings import Finding, Severity, has_errors
from armorplan.workshop.air import (
    DAY_FROM_H,
    HOURS_A_DAY,
    NIGHT_FROM_H,
    STILL_AIR_M_S,
    Climate,
    Room,
    by_night,
)
from armorplan.workshop.fahrenheit import celsius, fahrenheit_in_c
from armorplan.workshop.humidity import share_in_pct, share_question

_LEAST, _MOST = 2, 3
_NUMBER = r"[+-]?\d{1,4}(?:\.\d{1,6})?"
_TEMPERATURE = re.compile(rf"({_NUMBER})\s*°?\s*([cCfF]?)")
_HUMIDITY = re.compile(rf"({_NUMBER})\s*%?")
_SPEED = re.compile(rf"({_NUMBER})\s*(?:m/s)?")
_HOURS = re.compile(r"(\d{1,2})(?::00)?-(\d{1,2})(?::00)?@(.*)")
_LONGEST_PATH = 1000


def room_as_typed(typed: str, room: Room) -> Room:
    """Return the shop's room with the air that ``--climate`` tells instead of its own.

    Raises:
        ArmorplanError: it is not written in one of the ways it may be, or cannot be.
    """
    text = typed.strip()
    if len(text) <= _LONGEST_PATH and _names_file(Path(text)):
        return _as_read(Path(text), room)
    if "=" not in text:
        return replace(room, usual=_air(text, room.usual), by_hour=(), readings=())
    return _day_and_night(text, room)


def _names_file(path: Path) -> bool:
    try:
        return path.suffix.lower() in (".csv", ".tsv", ".txt") or path.is_file()
    except OSError:  # a name longer than the system takes
        return False


def _as_read(path: Path, room: Room) -> Room:
    log = read_air_log(path, zone=room.zone, air_m_s=room.usual.air_m_s)
    if has_errors(log.findings):
        raise UnreadableError(log.findings)
    warn(log.findings)
    return replace(room, by_hour=(), readings=log.readings)


def _day_and_night(text: str, room: Room) -> Room:
    pieces: dict[str, str] = {}
    for piece in re.split(r"[\s;]+", text):
        name, _, told = piece.partition("=")
        if name not in ("day", "night") or name in pieces:
            raise _wrong(text)
        pieces[name] = told
    day = _air(pieces["day"], room.usual) if "day" in pieces else room.usual
    if "night" not in pieces:
        return replace(room, usual=day, by_hour=(), readings=())
    (begins, ends), told = _night(pieces["night"])
    hours = by_night(day, _air(told, day), begins=begins, ends=ends)
    return replace(room, usual=day, by_hour=hours, readings=())


def _night(told: str) -> tuple[tuple[int, int], str]:
    """Return the full hours of a night, and what is told of its air."""
    if "@" not in told:
        return (NIGHT_FROM_H, DAY_FROM_H), told
    found = _HOURS.fullmatch(told)
    begins, ends = (int(found[1]), int(found[2])) if found else (0, 0)
    if found is None or begins == ends or max(begins, ends) >= HOURS_A_DAY:
        message = (
            f"--climate: '{brief(told)}' has no night's hours. Write full hours, such as "
            "night=22:00-07:00@10,80."
        )
        raise ArmorplanError(message)
    return (begins, ends), found[3]


def _air(text: str, usual: Climate) -> Climate:
    cells = [cell.strip() for cell in text.split(",")]
    if not _LEAST <= len(cells) <= _MOST:
        raise _wrong(text)
    speed = _value(_SPEED, cells[2], text) if len(cells) == _MOST else usual.air_m_s
    humidity = _value(_HUMIDITY, cells[1], text)
    if not HUMIDITY.hold(humidity):
        raise _out(f"humidity {humidity:g} %", HUMIDITY.ends)
    meant_pct = share_in_pct(humidity)
    if meant_pct is not None and "%" not in cells[1]:
        message = (
            f"--climate: {share_question(humidity)} If so, write {meant_pct:g}; "
            f"if it is so dry, write {humidity:g}%."
        )
        raise ArmorplanError(message)
    if not AIR_SPEED.hold(speed):
        raise _out(
            f"air at {speed:g} m/s", f"{AIR_SPEED.ends}; still air is {STILL_AIR_M_S:g} m/s"
        )
    temperature_c = _temperature_c(cells[0], text)
    return Climate(temperature_c=temperature_c, humidity_pct=humidity, air_m_s=speed)


def _value(pattern: re.Pattern[str], cell: str, text: str) -> float:
    found = pattern.fullmatch(cell)
    if found is None:
        raise _wrong(text)
    return float(found[1])


def _temperature_c(cell: str, text: str) -> float:
    """Return °C; °F where it says so, and a question where it probably should."""
    found = _TEMPERATURE.fullmatch(cell)
    if found is None:
        raise _wrong(text)
    value, unit = float(found[1]), found[2].upper()
    temperature_c = round(celsius(value), 1) if unit == "F" else value
    meant_c = None if unit == "F" else fahrenheit_in_c(value)
    if not AIR_C.hold(temperature_c):
        hint = (
            ""
            if meant_c is None
            else f" If that is Fahrenheit, write {value:g}F: it is {meant_c:.0f} °C."
        )
        raise _out(f"{temperature_c:g} °C", f"{AIR_C.ends}.{hint}")
    if meant_c is not None:
        question = Finding(
            code="fahrenheit-perhaps",
            severity=Severity.WARNING,
            text=f"--climate tells {value:g} °C. Is that Fahrenheit?",
            remedy=f"If so, write {value:g}F: it is {meant_c:.0f} °C.",
        )
        warn((question,))
    return temperature_c


def _wrong(text: str) -> ArmorplanError:
    return ArmorplanError(f"--climate: '{brief(text)}' is no air. {WANTED}")


def _out(what: str, wanted: str) -> ArmorplanError:
    return ArmorplanError(f"--climate: {what} is not from {wanted.rstrip('.')}.")
