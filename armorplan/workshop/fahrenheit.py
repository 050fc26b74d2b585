"""Temperatures that were perhaps told in °F instead of in °C."""

from armorplan.workshop.air import ASK_ABOVE_C, HOTTEST_C


def celsius(fahrenheit: float) -> float:
    """Return °F in °C."""
    return (fahrenheit - 32) / 1.8


def fahrenheit_in_c(told_c: float) -> float | None:
    """Return the °C that were perhaps meant, or ``None`` where the number is no likely °F."""
    meant_c = celsius(told_c)
    return meant_c if told_c > ASK_ABOVE_C and meant_c <= HOTTEST_C else None
