"""Small builds for the take-off's tests: plates of known area, a shelf with prices, few steps."""

from dataclasses import replace

from geometry.leather_sketches import CAP, LEATHER, POST, box, part

from armorplan.assembly.expand import assemble
from armorplan.assembly.model import Assembly
from armorplan.pattern.parts import Piece
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import (
    Carrier,
    HardwareEntry,
    Shelf,
    SupplyEntry,
    ToolEntry,
    TreatmentEntry,
    TreatmentKind,
)
from armorplan.workshop.shop import Tray

TRAY = Tray(id="vat", name="Vat", length_mm=500.0, width_mm=300.0, depth_mm=100.0)
DYE = TreatmentEntry(
    id="dye",
    name="Dye",
    kind=TreatmentKind.DYE,
    carrier=Carrier.ALCOHOL,
    touch_min=20,
    handle_min=720,
    window_min=None,
    per_part_min=2.5,
    set_up_min=8.0,
    cautions=(),
    source="example",
    dip_per_part_min=1.5,
    wipe_ml_per_dm2=1.5,
    dip_ml_per_dm2=6.0,
    price_per_litre=20.0,
)
OIL = replace(
    DYE,
    id="oil",
    name="Oil",
    kind=TreatmentKind.OIL,
    carrier=Carrier.OIL,
    dip_per_part_min=None,
    dip_ml_per_dm2=0.0,
    price_per_litre=None,
)
CEMENT = replace(DYE, id="cement", name="Cement", kind=TreatmentKind.GLUE, wipe_ml_per_dm2=2.0)
WATER = replace(DYE, id="water", name="Water", kind=TreatmentKind.CASING, carrier=Carrier.WATER)
THREAD = SupplyEntry(
    id="thread",
    name="Linen thread",
    kind="thread",
    per_seam=4.0,
    extra_mm=300.0,
    source="example",
    price_per_m=0.5,
)
BUCKLE = HardwareEntry(
    id="buckle", name="Buckle", kind="buckle", strap_mm=20.0, source="example", price_each=1.25
)
KNIFE = ToolEntry(
    id="knife", name="Knife", serves=("cut",), source="example", cautions=("Sharp.",)
)
PRICED_LEATHER = replace(LEATHER, yield_pct=75.0, price_per_dm2=0.8)


def shelf() -> Shelf:
    """Return a shelf with prices for all but the screw post, the oil and the water."""
    return Shelf(
        leathers=(PRICED_LEATHER,),
        fasteners=(replace(CAP, price_each=0.1), POST),
        treatments=(DYE, OIL, CEMENT, WATER),
        durations=(),
        hardware=(BUCKLE,),
        supplies=(THREAD,),
        tools=(KNIFE,),
        currency="crown",
    )


def plate(part_id: str = "plate", width_mm: float = 200.0, height_mm: float = 100.0):
    """Return a plate of 2 dm², 3.2 mm thick, with one hole."""
    return part(part_id, box(width_mm, height_mm), {f"{part_id}_hole": (10.0, 10.0)})


def built(made: Pattern, *, mirrored: bool = False) -> Assembly:
    """Return the assembly of a pattern, as one piece or as a pair."""
    pieces = (Piece(id="piece", name="Piece", mirrored=mirrored),)
    return assemble(replace(made, pieces=pieces), shelf(), build="build")
