"""Steps of small patterns, on a shelf that has every kind of treatment."""

from dataclasses import replace

from armorplan.assembly.expand import assemble
from armorplan.pattern.choosing import settled
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.deriving import derive_steps
from armorplan.steps.model import StepKind
from armorplan.workshop.shelf import (
    Carrier,
    Duration,
    HardwareEntry,
    SupplyEntry,
    TreatmentEntry,
    TreatmentKind,
)

SOURCE = "example"


def entry(name, kind, **fields):
    """A treatment that dries in a day."""
    return TreatmentEntry(
        id=name,
        name=name.replace("_", " ").capitalize(),
        kind=kind,
        carrier=fields.pop("carrier", Carrier.WATER),
        touch_min=30,
        handle_min=1440,
        window_min=None,
        per_part_min=2.0,
        set_up_min=5.0,
        cautions=(f"Mind the {name}.",),
        source=SOURCE,
        **fields,
    )


def full_shelf():
    """The rules' shelf with a cleaner, two hardeners, a buckle, thread and lace, and real minutes."""
    shelf = sketch_shelf()
    taken = {"hot_bath", "hot_wax", "deglazer"}
    return replace(
        shelf,
        treatments=(
            *(
                replace(e, dip_per_part_min=0.5)
                for e in shelf.treatments
                if e.id not in taken
                and e.kind not in (TreatmentKind.CLEANER, TreatmentKind.HARDENER)
            ),
            entry("deglazer", TreatmentKind.CLEANER, carrier=Carrier.ALCOHOL),
            entry("hot_wax", TreatmentKind.HARDENER, carrier=Carrier.OIL, after_dye=True),
            entry("hot_bath", TreatmentKind.HARDENER),
        ),
        durations=(
            *(
                Duration(
                    kind=kind.value,
                    fixed_min=1.0,
                    per_part_min=10.0,
                    per_hole_min=1.0,
                    per_cm_min=0.5,
                    tool=f"tool to {kind}",
                    cautions=(f"Mind the {kind}.",),
                    source=SOURCE,
                )
                for kind in StepKind
            ),
            Duration(kind="cut by machine", fixed_min=8.0, tool="cutting table", source=SOURCE),
        ),
        hardware=(
            HardwareEntry(id="buckle", name="Buckle", kind="buckle", strap_mm=25.0, source=SOURCE),
        ),
        supplies=(
            SupplyEntry(
                id="lace", name="Flat lace", kind="lace", per_seam=2.0, extra_mm=200.0,
                source=SOURCE,
            ),
        ),
    )  # fmt: skip


def work_of(*parts, shelf=None, mirrored=False, chosen=None, climate=None, **tables):
    """The steps of a pattern of these parts; other tables by their names."""
    pattern = settled(replace(sketch(*parts, mirrored=mirrored), **tables), chosen)
    shelf = shelf or full_shelf()
    return derive_steps(assemble(pattern, shelf, build="b"), shelf, climate)


def only(work, *kinds):
    """The one step of these kinds."""
    (step,) = work.of_kind(*kinds)
    return step


def square(name, **fields):
    """A part of the rules' size with any of its fields."""
    made = ("kind", "holes", "slots", "tooling", "hides", "bevelled")
    own = {key: fields.pop(key) for key in made if key in fields}
    return replace(sketch_part(name, **own), **fields)
