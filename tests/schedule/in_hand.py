"""Small builds in hand, in a shop with everything told of it; minutes from Monday 7 December 2026."""

from dataclasses import replace
from datetime import UTC, datetime, time, timedelta

from armorplan.assembly.expand import assemble
from armorplan.rules.registry import derive_all
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import (
    sketch,
    sketch_bath,
    sketch_form,
    sketch_part,
    sketch_rivet,
    sketch_treatment,
)
from armorplan.schedule.checker import violations
from armorplan.schedule.joining import BuildInHand
from armorplan.schedule.planning import first_plan
from armorplan.schedule.workplace import Workplace
from armorplan.steps.deriving import derive_steps
from armorplan.workshop.hours import Opening
from armorplan.workshop.places import DipBath, Rack, Station
from armorplan.workshop.shop import Person, Shop, Wearer, usual_hours

MONDAY_8 = datetime(2026, 12, 7, 8, tzinfo=UTC)
SHELF = sketch_shelf()
MAKER = Person(id="maker", name="Maker", hours=usual_hours())
APPRENTICE = Person(
    id="apprentice", name="Apprentice", hours=usual_hours(), cannot=("rivet", "form"), pace=1.5
)
CAPTAIN = Wearer(
    id="captain",
    name="Captain",
    hours=tuple(Opening(weekday=day, start=time(14), end=time(16)) for day in (2, 5)),
)
SHOP = Shop(
    people=(MAKER, APPRENTICE),
    wearers=(CAPTAIN,),
    baths=(
        DipBath(id="vat", name="Vat", area_dm2=2.0, change_min=20, takes=("dye",)),
        DipBath(id="bench", name="Bench", area_dm2=20.0, change_min=5, applying="wipe"),
    ),
    racks=(Rack(id="line", name="Line", line_mm=200.0),),
    stations=(Station(id="anvil", name="Anvil", kinds=("rivet",)),),
)


def cuff(*, colour="blue", dipped=True, mirrored=False):
    """Two plates, damp-formed, dyed twice and riveted with one rivet."""
    holes = {"a": (20.0, 20.0)}
    dye = (sketch_bath if dipped else sketch_treatment)("dye", "plate", "lame", coats=2)
    return sketch(
        sketch_part("plate", holes=holes, bevelled=True),
        sketch_part("lame", holes={"b": (20.0, 20.0)}),
        joints=(sketch_rivet("pin", "a", "b"),),
        forms=(sketch_form("bow", "plate"),),
        treatments=(replace(dye, colour=colour), sketch_treatment("oil", "plate")),
        mirrored=mirrored,
    )


def made(pattern, shop=SHOP, shelf=SHELF):
    """Return what a build is made of, by the fields of a build in hand."""
    assembly = assemble(pattern, shelf, build="b")
    work = derive_steps(assembly, shelf)
    return {
        "work": work,
        "relations": derive_all(assembly, work, shelf).relations,
        "workplace": Workplace(shop=shop, shelf=shelf),
        "order": tuple(step.id for step in work.steps),
        "assembly": assembly,
    }


def in_hand(name, pattern=None, *, shop=SHOP, shelf=SHELF, **more):
    """Return a build in hand."""
    given = made(pattern or cuff(), shop, shelf)
    return BuildInHand(id=name, title=f"Build {name}", **{**given, **more})


def sound(problem):
    """Return where everything lies in the first plan; the checker has to be silent."""
    plan = first_plan(problem)
    assert plan.placed, plan.conflict
    assert violations(problem, plan) == ()
    return {placed.id: placed for placed in plan.placed}


def after(**span):
    """Return an instant so long after the plan's origin."""
    return MONDAY_8 + timedelta(**span)
