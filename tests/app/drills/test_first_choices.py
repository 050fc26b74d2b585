"""Which joints are asked about: what is worth asking, beside what could be taken for it, on dry parts."""

import pytest
from app.drills.drill_sources import NAMES, asked, drills_of, source_of

from armorplan.app.drills.first_choices import LEAST_ASKED_MIN
from armorplan.app.drills.setting import drill_for, solved
from armorplan.practice.drill import DrillKind
from armorplan.relations.index import named_steps
from armorplan.relations.model import Before, BeforeAll

FIRST = DrillKind.FIRST
SMALL = tuple(name for name in NAMES if name != "arm_harness")


def test_what_costs_seconds_is_asked_only_where_it_is_asked_for():
    source = source_of("elbow_cop")
    for seed in range(8):
        drill = drill_for(source, asked(FIRST, seed))
        (because,) = solved(source, drill).because
        same = {r.reason for r in source.derived.relations if r.reason.text == because.text}
        assert all(each.binds or each.price_min >= LEAST_ASKED_MIN for each in same)


@pytest.mark.parametrize("name", SMALL)
def test_others_could_be_taken_for_the_one_that_is_right(name):
    """In most there stands beside it a fold, or what has to come before joints not asked about."""
    source = source_of(name)
    derived, found = source.derived, []
    setting = {s.id for s in derived.work.steps if len(derived.work.sets(s)) == 1}
    leading = {
        relation.first
        for relation in derived.relations
        if isinstance(relation, Before | BeforeAll) and named_steps(relation) <= setting
    }
    for drill in drills_of(FIRST, name, 8):
        (right,) = solved(source, drill).answer
        others = [choice for choice in drill.choices if choice.id != right]
        folds = [c for c in others if len(set(derived.assembly.joint(c.id).parts)) == 1]
        found.append(bool(folds) or any(c.steps[0] in leading for c in others))
    assert sum(found) > len(found) / 2


@pytest.mark.parametrize("kind", [FIRST, DrillKind.FASTENER])
@pytest.mark.parametrize("name", SMALL)
def test_nothing_that_is_asked_about_is_wet(name, kind):
    source = source_of(name)
    work = source.derived.work
    for seed in range(4):
        drill = drill_for(source, asked(kind, seed))
        done, parts = set(drill.done), set(drill.parts)
        for step in map(work.step, drill.done):
            dries = work.drying_of(step.id)
            if dries is not None and parts & set(step.parts):
                assert dries.id in done, step.title
