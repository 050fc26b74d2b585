"""What is typed of the shop's air, read and checked: one clear message for each fault."""

from dataclasses import dataclass, replace

from armorplan.files.limits import AIR_SPEED, HUMIDITY, ROOM_M3
from armorplan.files.thickness_words import two_readings
from armorplan.files.typed_numbers import typed_number
from armorplan.workshop.air import (
    ASK_ABOVE_C,
    COLDEST_C,
    FASTEST_M_S,
    HOTTEST_C,
    LARGEST_M3,
    STILL_AIR_M_S,
    Climate,
)
from armorplan.workshop.fahrenheit import celsius
from armorplan.workshop.humidity import share_in_pct, share_question


@dataclass(frozen=True, slots=True, kw_only=True)
class AirFault:
    """What is wrong with one thing that was typed.

    Attributes:
        field: ``temperature``, ``humidity``, ``air`` or ``volume``.
        text: what was typed, and what would be fine.
        celsius: the degrees Celsius that were perhaps meant, where it is a question.
        pct: the per cent that were perhaps meant, where it is a question.
        may_stay: it may be so all the same, if the maker says so.
    """

    field: str
    text: str
    celsius: float | None = None
    pct: float | None = None
    may_stay: bool = False

    @property
    def is_question(self) -> bool:
        """Whether something else was perhaps meant."""
        return self.celsius is not None or self.pct is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedAir:
    """Air as it was typed. ``is_sure``: that it is so hot was asked, and is so."""

    temperature: str
    humidity: str
    air: str = f"{STILL_AIR_M_S:g}"
    is_sure: bool = False


def read_air(typed: TypedAir) -> Climate | AirFault:
    """Return the air that was typed, or all that is wrong with it, told as one fault."""
    temperature = read_temperature(typed.temperature, is_sure=typed.is_sure)
    humidity = read_humidity(typed.humidity)
    air = read_air_speed(typed.air)
    if (
        isinstance(temperature, AirFault)
        or isinstance(humidity, AirFault)
        or isinstance(air, AirFault)
    ):
        faults = [each for each in (temperature, humidity, air) if isinstance(each, AirFault)]
        pct = next((fault.pct for fault in faults if fault.pct is not None), None)
        return replace(faults[0], text=" ".join(fault.text for fault in faults), pct=pct)
    return Climate(temperature_c=temperature, humidity_pct=humidity, air_m_s=air)


def read_temperature(text: str, *, is_sure: bool = False) -> float | AirFault:
    """Return °C; a fault with a question where it was perhaps typed in Fahrenheit."""
    number = _number("temperature", text, "in °C, such as 18.5")
    if isinstance(number, AirFault):
        return number
    if number < COLDEST_C:
        return _wrong("temperature", f"{number:g} °C is colder than {COLDEST_C:g} °C.")
    if number > HOTTEST_C or (number > ASK_ABOVE_C and not is_sure):
        return _hot(number)
    return number


def _hot(number: float) -> AirFault:
    meant_c = round(celsius(number), 1)
    if meant_c > ASK_ABOVE_C:
        text = f"{number:g} °C is hotter than the {HOTTEST_C:g} °C that this reckons with."
        return _wrong("temperature", text)
    return AirFault(
        field="temperature",
        text=f"{number:g} °C is hot for a shop. Is that Fahrenheit? {number:g} °F are "
        f"{meant_c:g} °C.",
        celsius=meant_c,
        may_stay=number <= HOTTEST_C,
    )


def read_humidity(text: str) -> float | AirFault:
    """Return relative humidity in per cent."""
    number = _number("humidity", text, "in per cent, such as 55")
    if isinstance(number, AirFault):
        return number
    if not HUMIDITY.hold(number):
        return _wrong(
            "humidity", f"Relative humidity lies between 0 and 100 %; {number:g} was typed."
        )
    pct = share_in_pct(number)
    if pct is not None:
        return AirFault(field="humidity", text=share_question(number), pct=pct)
    return number


def read_air_speed(text: str) -> float | AirFault:
    """Return how fast the air moves in m/s."""
    number = _number("air", text, "in m/s, such as 0.1 for still air")
    if isinstance(number, AirFault):
        return number
    if not AIR_SPEED.hold(number):
        text = f"Air moves at 0 to {FASTEST_M_S:g} m/s in a room; {number:g} was typed."
        return _wrong("air", f"{text} Still air is {STILL_AIR_M_S:g} m/s.")
    return number


def read_volume(text: str) -> float | AirFault | None:
    """Return the room's volume in m³, ``None`` where nothing was typed."""
    if not text.strip():
        return None
    number = _number("volume", text, "in m³: length times width times height in metres")
    if isinstance(number, AirFault):
        return number
    if not ROOM_M3.hold(number):
        return _wrong(
            "volume",
            f"A room has more than 0 and at most {LARGEST_M3:,} m³; {number:g} was typed.",
        )
    return number


def _wrong(field: str, text: str) -> AirFault:
    return AirFault(field=field, text=text)


def _number(field: str, text: str, wanted: str) -> float | AirFault:
    """Return a number as it was typed, with point or comma; ``nan`` and ``inf`` are none."""
    text = text.strip().replace("\N{MINUS SIGN}", "-")
    if not text:
        return _wrong(field, f"Still to type: the {_NAMES[field]} {wanted}.")
    other = two_readings(text)
    if other:
        return _wrong(field, f"Of the {_NAMES[field]}: write {other}.")
    number = typed_number(text)
    if number is None:
        return _wrong(field, f"'{text}' is no number. Type the {_NAMES[field]} {wanted}.")
    return number


_NAMES = {
    "temperature": "temperature",
    "humidity": "relative humidity",
    "air": "speed of the air",
    "volume": "volume of the room",
}
