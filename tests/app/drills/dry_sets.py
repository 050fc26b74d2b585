"""What is asked of drying in tests: by sample, level and seed, kept as long as a run lasts."""

from functools import cache

import pytest
from orders.recovery.build_scenes import SAMPLES, derived_sample

from armorplan.app.drills.dry_setting import set_of
from armorplan.app.drills.source import DrillSource
from armorplan.app.in_room import in_room
from armorplan.practice.drill import Asked, DrillKind, Level
from armorplan.workshop.air import Climate, Room

SEEDS = range(4)
every_sample = pytest.mark.parametrize("name", SAMPLES)
DAMP = Climate(temperature_c=17, humidity_pct=80)
DRY = Climate(temperature_c=28, humidity_pct=30)


def asked(seed, level=Level.STRAP, **also):
    return Asked(kind=DrillKind.DRY, seed=seed, level=level, **also)


def source(name, room=None):
    derived = derived_sample(name)
    return DrillSource(derived=in_room(derived, room) if room else derived)


def steady(climate):
    return Room(usual=climate, zone="UTC")


@cache
def sets(name):
    derived = derived_sample(name)
    return [set_of(derived, asked(seed, level)) for level in Level for seed in SEEDS]


@cache
def pairs(name):
    return [set_of(derived_sample(name), asked(seed, Level.ROW)) for seed in range(20)]
