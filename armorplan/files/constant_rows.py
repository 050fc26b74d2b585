"""Reads the numbers of the bench, and a maker's own values that go over them one by one."""

from collections.abc import Mapping
from dataclasses import fields, replace

from armorplan.files.limits import LENGTH_MM, NEUTRAL
from armorplan.files.tables import Table
from armorplan.files.values import Bounds, number, text
from armorplan.workshop.constants import Constant, Constants

_PCT = Bounds(least=0, most=100, unit="%")
_PLAY = Bounds(above=0, most=100, unit="mm")
_EFFORT = Bounds(least=1, most=20, unit="times the flat bench")
_SPAN = Bounds(least=0, most=60, unit="minutes")
_BOUNDS = {
    "pinch": Bounds(least=0, most=50, unit="%"),
    "misfit": _PLAY,
    "bad_misfit": _PLAY,
    "oval": Bounds(least=1, most=10, unit="hole diameters"),
    "flat_slide": _PCT,
    "damp_slide": _PCT,
    "neutral": NEUTRAL,
    "dry_radius": Bounds(least=0, most=100, unit="thicknesses"),
    "damp_radius": Bounds(least=0, most=100, unit="thicknesses"),
    "kept_cover": Bounds(least=0, most=LENGTH_MM, unit="mm"),
    "soft_play": Bounds(least=0, most=100, unit="mm"),
    "short_lame": _PLAY,
    "bad_short_lame": _PLAY,
    "row_gape": Bounds(above=0, most=2, unit="mm for each mm along the row"),
    "squash_raw": Bounds(least=1, most=1.57, unit="times its width"),
    "squash_finished": Bounds(least=1, most=1.57, unit="times its width"),
    "hand_depth": Bounds(least=0, most=LENGTH_MM, unit="mm"),
    "curved_effort": _EFFORT,
    "inside_effort": _EFFORT,
    "end_effort": _EFFORT,
    "tool_change": _SPAN,
    "turn_over": _SPAN,
    "load_row": Bounds(least=0, most=90, unit="%"),
    "dry_share": Bounds(above=0, most=20, unit="%"),
}
"""Stated limits, far beyond any bench; they are no facts of the trade."""
_RISING = (
    ("misfit", "bad_misfit"),
    ("flat_slide", "damp_slide"),
    ("damp_radius", "dry_radius"),
    ("short_lame", "bad_short_lame"),
    ("squash_finished", "squash_raw"),
    ("curved_effort", "inside_effort"),
    ("inside_effort", "end_effort"),
)
"""Limits of which the second cannot be below the first."""


def read_constants(shipped: Table | None, own: Table | None) -> Constants:
    """Read the shipped numbers, with those of a maker's own file in their places.

    Faults are told through the tables; a number at fault is as the program has it otherwise.
    """
    known = Constants()
    named = {field.name: getattr(known, field.name) for field in fields(Constants)}
    found = _of(shipped, named) if shipped is not None else named
    if own is not None:
        found = _of(own, found, over=True)
        _check_rising(own, found)
    return Constants(**found)


def _of(top: Table, usual: Mapping[str, Constant], *, over: bool = False) -> dict[str, Constant]:
    """Return the constants of a file by name; with ``over`` those it does not name stay."""
    found: dict[str, Constant] = {}
    for key, before in usual.items():
        row = top.table(key)
        if over and not top.has(key):
            found[key] = before
            continue
        found[key] = _changed(key, row, before) if over else _read(key, row, before)
    top.finish()
    return found


def _read(key: str, row: Table, before: Constant) -> Constant:
    unit = text(row, "unit", default=before.unit)
    if unit != before.unit:
        row.wrong("unit", unit, wanted=f'"{before.unit}"')
    made = Constant(
        value=number(row, "value", _BOUNDS[key]),
        unit=before.unit,
        name=text(row, "name"),
        source=text(row, "source"),
    )
    row.finish()
    return made


def _changed(key: str, row: Table, before: Constant) -> Constant:
    """Return a constant with the maker's own value; its source says what stood there before."""
    shipped = {"value": before.value, "name": before.name, "source": before.source}
    made = _read(key, row.filled(shipped), before)
    if row.has("source") or not row.has("value"):
        return made
    told = f"own value; otherwise {before.value:g} {before.unit}: {before.source}"
    return replace(made, source=told)


def _check_rising(own: Table, found: Mapping[str, Constant]) -> None:
    for low, high in _RISING:
        if found[low].value <= found[high].value:
            continue
        key, other = (low, high) if own.has(low) else (high, low)
        own.table(key).fault(
            "value",
            "wrong-value",
            f"{own.name_of(key)}.value is {found[key].value:g}, but {other} is "
            f"{found[other].value:g}.",
            mend=f"{low} cannot be above {high}: change one of the two.",
        )
