"""What dries in the invented scenario: a dye and a finish with invented times."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime

from desktop.fake_scenario import FakeStep

from armorplan.app.drying_choices import Began, DryingChoice, Dryings
from armorplan.drying.body import Body
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Carrier

_SHELF = sketch_shelf()
_SOURCE = "common practice, no source"
DYE = replace(
    _SHELF.treatment("dye"), name="Water dye", carrier=Carrier.WATER, touch_min=60, source=_SOURCE
)
FINISH = replace(
    _SHELF.treatment("finish"),
    name="Acrylic finish",
    handle_min=1440,
    cure_min=4320,
    recoat_by_min=240,
    film_from_c=10.0,
    film_min=120,
    source=_SOURCE,
)
_ENTRIES = {"dry_4": DYE, "dry_6": FINISH}


def dryings_of(
    steps: tuple[FakeStep, ...], since: Mapping[str, datetime], room: Room, now_at: datetime
) -> Dryings:
    """Return the drying steps, and the two treatments by themselves."""
    found = tuple(
        DryingChoice(
            id=step.id,
            step=step.id,
            title=step.title,
            entry=entry,
            body=Body(),
            start_at=since.get(step.id, now_at),
            began=Began.RUNS if step.id in since else Began.NOW,
            wet_steps=step.needs,
        )
        for step in steps
        if (entry := _ENTRIES.get(step.id.split("/")[3])) is not None
    )
    treatments = tuple(
        DryingChoice(
            id=f"treatment:{entry.id}",
            step="",
            title=entry.name,
            entry=entry,
            body=Body(),
            start_at=now_at,
            began=Began.NOW,
        )
        for entry in (DYE, FINISH)
    )
    return Dryings(room=room, now_at=now_at, steps=found, treatments=treatments)
