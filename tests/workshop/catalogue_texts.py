"""The shipped catalogues as they lie on disk, one frozen value for each table."""

import tomllib
from dataclasses import fields
from typing import Any

from armorplan.kernel.shipped import resources_folder
from armorplan.workshop.shelf import (
    Carrier,
    Duration,
    Fastener,
    Leather,
    TreatmentEntry,
    TreatmentKind,
)


def tables(name: str) -> dict[str, dict[str, Any]]:
    text = (resources_folder() / "catalogues" / f"{name}.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def _frozen(value: Any) -> Any:
    return tuple(value) if isinstance(value, list) else value


def entries(name: str, cls: type) -> tuple[Any, ...]:
    """Return the tables of a catalogue as values of a class; a stray key is a TypeError."""
    keyed = "id" in {f.name for f in fields(cls)}
    return tuple(
        cls(**({"id": key} if keyed else {}), **{k: _frozen(v) for k, v in table.items()})
        for key, table in tables(name).items()
    )


def leathers() -> tuple[Leather, ...]:
    return entries("leathers", Leather)


def fasteners() -> tuple[Fastener, ...]:
    return entries("fasteners", Fastener)


def durations() -> tuple[Duration, ...]:
    return entries("durations", Duration)


def treatments() -> tuple[TreatmentEntry, ...]:
    found = tables("treatments")
    return tuple(
        TreatmentEntry(
            id=key,
            kind=TreatmentKind(table.pop("kind")),
            carrier=Carrier(table.pop("carrier")),
            window_min=_frozen(table.pop("window_min", None)),
            **{k: _frozen(v) for k, v in table.items()},
        )
        for key, table in found.items()
    )
