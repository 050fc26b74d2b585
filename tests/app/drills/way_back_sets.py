"""Exercises about ways back in tests: by sample, with what each of their answers is worth."""

from functools import cache

from orders.recovery.build_scenes import SAMPLES, derived_sample

from armorplan.app.drills.reasoning import why_asked
from armorplan.app.drills.setting import drill_for, judged
from armorplan.app.drills.source import DrillSource
from armorplan.app.drills.way_back_drill import _made
from armorplan.app.itself import Itself
from armorplan.practice.drill import Asked, DrillKind, Level

SEEDS = range(5)


def source(name):
    return DrillSource(derived=derived_sample(name))


def asked(seed, level=None, **also):
    return Asked(kind=DrillKind.WAY_BACK, seed=seed, level=level or Level(1 + seed % 4), **also)


def verdicts(name, drill):
    return {one.id: judged(source(name), drill, (one.id,)) for one in drill.choices}


MADE, WHYS = {}, {}
"""By sample and what was asked: what its exercise was made of, and its second question."""


def made_of(name, drill):
    return _made(Itself(derived_sample(name)), drill.asked)


@cache
def every_drill():
    """Return by sample its exercises with what each of their answers is worth."""
    found = {}
    for name in SAMPLES:
        made = [drill_for(source(name), asked(seed)) for seed in SEEDS]
        found[name] = [(drill, verdicts(name, drill)) for drill in made if drill]
        for drill, worth in found[name]:
            right = next(each for each in worth.values() if each.right)
            MADE[name, drill.asked] = made_of(name, drill)
            WHYS[name, drill.asked] = why_asked(source(name), drill, right)
    return found
