"""A small shelf for the rules' examples, so that they hold whatever a maker's catalogues say."""

from dataclasses import replace

from armorplan.steps.model import StepKind
from armorplan.workshop.shelf import (
    CURE_BEFORE,
    Carrier,
    Duration,
    Fastener,
    HardwareEntry,
    Shelf,
    ToolEntry,
    TreatmentEntry,
    TreatmentKind,
)

_SOURCE = "example"
_LACQUER = "lacquer"
"""Of all that is dipped, what drips off, streaks, has to be coated again in time, and cures."""
_KINDS = {
    "casing": (TreatmentKind.CASING, Carrier.WATER),
    "dye": (TreatmentKind.DYE, Carrier.ALCOHOL),
    "oil": (TreatmentKind.OIL, Carrier.OIL),
    "finish": (TreatmentKind.FINISH, Carrier.WATER),
    "lacquer": (TreatmentKind.FINISH, Carrier.WATER),
    "cement": (TreatmentKind.GLUE, Carrier.ALCOHOL),
    "wipe": (TreatmentKind.CLEANER, Carrier.WATER),
    "hot_water": (TreatmentKind.HARDENER, Carrier.WATER),
    "wax": (TreatmentKind.HARDENER, Carrier.OIL),
}


def _plain_entries() -> tuple[TreatmentEntry, ...]:
    return tuple(
        TreatmentEntry(
            id=name,
            name=name.capitalize(),
            kind=kind,
            carrier=carrier,
            touch_min=30,
            handle_min=720,
            window_min=(20, 90) if kind is TreatmentKind.CASING else None,
            per_part_min=2.0,
            set_up_min=5.0,
            cautions=(),
            after_dye=name == "wax",
            source=_SOURCE,
        )
        for name, (kind, carrier) in _KINDS.items()
    )


def _dripping(entry: TreatmentEntry) -> TreatmentEntry:
    """Return a treatment as one that drips, is watched, is coated again in time, and cures."""
    return replace(
        entry,
        drip_min=5,
        watch_every_min=5,
        watch_for_min=20,
        recoat_by_min=1440,
        cure_min=4320,
        cure_before=CURE_BEFORE,
        missed_remedy="Scuff it lightly before the next coat.",
    )


def sketch_shelf() -> Shelf:
    """Return a shelf with a treatment of each kind, a rivet, a buckle, a horn, a minute for every step."""
    treatments = tuple(_dripping(e) if e.id == _LACQUER else e for e in _plain_entries())
    rivet = Fastener(
        id="double_cap_9",
        name="Double-cap rivet",
        kind="rivet",
        head_mm=9.0,
        hole_mm=3.5,
        lengths_mm=(6.0, 8.0, 10.0),
        over_stack_mm=(0.0, 3.0),
        source=_SOURCE,
    )
    durations = tuple(
        Duration(kind=kind.value, fixed_min=1.0, source=_SOURCE) for kind in StepKind
    )
    buckle = HardwareEntry(
        id="buckle", name="Buckle", kind="buckle", strap_mm=20.0, source=_SOURCE
    )
    horn = ToolEntry(
        id="horn",
        name="Anvil on a horn",
        serves=(StepKind.RIVET.value,),
        reach_mm=250.0,
        opening_mm=35.0,
        source=_SOURCE,
    )
    return Shelf(
        leathers=(),
        fasteners=(rivet,),
        treatments=treatments,
        durations=durations,
        hardware=(buckle,),
        tools=(horn,),
    )
