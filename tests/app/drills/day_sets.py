"""Days to plan in tests: what is asked, and answers read and written."""

from zoneinfo import ZoneInfo

import pytest
from orders.recovery.build_scenes import SAMPLES, derived_sample

from armorplan.app.derived import derive_build
from armorplan.app.drills.source import DrillSource
from armorplan.practice.drill import Asked, DrillKind, Level

SEEDS = range(3)
every_sample = pytest.mark.parametrize("name", SAMPLES)


def asked(seed, level=Level.ROW, **also):
    return Asked(kind=DrillKind.DAY, seed=seed, level=level, **also)


def source(name):
    return DrillSource(derived=derived_sample(name))


def minute_of(at, drill):
    local = at.astimezone(ZoneInfo(drill.day.zone))
    return 60 * local.hour + local.minute


def starts_of(answer):
    told = (one.rpartition("=") for one in answer)
    return {name: 60 * int(clock[:2]) + int(clock[3:]) for name, _, clock in told}


def answer_of(starts):
    return tuple(f"{name}={at // 60:02}:{at % 60:02}" for name, at in starts.items())


def texts(worth):
    return " ".join(because.text for because in worth.because)


def in_shop(shop, name="elbow_cop"):
    was = derived_sample(name)
    return DrillSource(derived=derive_build(was.pattern, was.shelf, shop, build=name))
