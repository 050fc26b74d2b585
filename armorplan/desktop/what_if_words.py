"""How what is typed of another air becomes a question."""

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication

from armorplan.app.air_form import AirFault, read_humidity, read_temperature
from armorplan.app.drying_choices import WhatIf
from armorplan.files.thickness_words import two_readings
from armorplan.files.typed_numbers import typed_number

THICKEST_MM = 20.0


def _tr(text: str) -> str:
    return QCoreApplication.translate("what_if", text)


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedWhatIf:
    """What was typed; empty leaves it as it is."""

    temperature: str = ""
    humidity: str = ""
    air_m_s: float | None = None
    thickness: str = ""
    faces: int | None = None


def what_if_of(typed: TypedWhatIf) -> WhatIf | AirFault:
    """Return what is asked, or the first thing that is wrong with it."""
    temperature = read_temperature(typed.temperature) if typed.temperature.strip() else None
    humidity = read_humidity(typed.humidity) if typed.humidity.strip() else None
    thickness = _thickness(typed.thickness)
    for found in (temperature, humidity, thickness):
        if isinstance(found, AirFault):
            return found
    return WhatIf(
        temperature_c=_number(temperature),
        humidity_pct=_number(humidity),
        air_m_s=typed.air_m_s,
        thickness_mm=_number(thickness),
        faces=typed.faces,
    )


def _number(found: float | AirFault | None) -> float | None:
    return None if isinstance(found, AirFault) else found


def _thickness(text: str) -> float | AirFault | None:
    if not text.strip():
        return None
    other = two_readings(text)
    if other:
        return AirFault(field="thickness", text=_tr("Of the thickness: write {0}.").format(other))
    number = typed_number(text)
    if number is not None and 0 < number <= THICKEST_MM:
        return number
    said = _tr("Leather is more than 0 and at most {0} mm thick; '{1}' was typed.")
    return AirFault(field="thickness", text=said.format(f"{THICKEST_MM:g}", text.strip()))
