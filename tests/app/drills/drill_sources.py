"""What exercises are made from in tests: the samples, and a tube small enough to know by heart."""

from dataclasses import replace
from functools import cache

from orders.recovery.build_scenes import SAMPLES, derived_sample

from armorplan.app.derived import derive_build
from armorplan.app.drills.setting import drill_for
from armorplan.app.drills.source import DrillSource
from armorplan.files.catalogue import read_shelf
from armorplan.practice.drill import Asked, Level
from armorplan.rules.reach_sketches import sketch_tube
from armorplan.workshop.shop import one_maker

SPOTS_MM = (50.0, 150.0, 250.0, 350.0, 450.0, 550.0, 650.0)
NAMES = SAMPLES


def source_of(name):
    return DrillSource(derived=derived_sample(name))


def with_horn(shelf, horn_mm):
    """Return a shelf on which the horn reaches so far, and nothing else is changed."""
    return replace(
        shelf,
        tools=tuple(
            replace(tool, reach_mm=horn_mm) if tool.id == "horn_anvil" else tool
            for tool in shelf.tools
        ),
    )


@cache
def tube(horn_mm=250.0):
    """Return a tube 700 mm long, a strap riveted in its middle, and a horn of a length."""
    pattern = sketch_tube(long_mm=700.0, spots_mm=SPOTS_MM, strap_mm=350.0)
    shelf = with_horn(read_shelf(), horn_mm)
    return DrillSource(derived=derive_build(pattern, shelf, one_maker("UTC"), build="tube-1"))


def drills_of(kind, name, seeds=8):
    """Return the exercises of a kind that a sample gives for the first seeds, over all levels."""
    found = [drill_for(source_of(name), asked(kind, seed)) for seed in range(seeds)]
    return [drill for drill in found if drill]


def asked(kind, seed, level=None, **also):
    return Asked(kind=kind, seed=seed, level=level or Level(1 + seed % 4), **also)
