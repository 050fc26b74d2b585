"""No exercise has anyone handle a part that is wet, and its states are such as one comes to."""

import random
from functools import cache

import pytest
from app.drills.drill_sources import NAMES, asked, drills_of, source_of

from armorplan.app.drills.setting import drill_for, solved
from armorplan.app.drills.step_grounds import grounds_of
from armorplan.app.drills.step_words import learned_of
from armorplan.practice.drill import DrillKind, Level
from armorplan.relations.index import first_and_members, is_plain
from armorplan.steps.model import StepKind

ORDER, NEXT, MISTAKE = DrillKind.ORDER, DrillKind.NEXT, DrillKind.MISTAKE
DRAWN, SEEDS = 3, 4


@cache
def made(kind, name):
    return drills_of(kind, name, seeds=SEEDS)


def handled_wet(work, order):
    """Yield the steps of an order that handle a part between what wets it and its drying."""
    wet = {}
    for step in map(work.step, order):
        if step.kind is StepKind.DRY:
            wet.pop(step.after, None)
        elif step.attended and any(
            not parts.isdisjoint(step.parts) for of, parts in wet.items() if of != step.after
        ):
            yield step.id
        if work.drying_of(step.id) is not None:
            wet[step.id] = frozenset(step.parts)


def steers_only(derived):
    return lambda each: is_plain(each) and not each.reason.binds and each not in derived.not_kept


def right_orders(source, drill):
    if drill.asked.kind is NEXT:
        return [(step,) for step in solved(source, drill).answer]
    few = learned_of(source.derived, drill).few
    chance = random.Random(drill.asked.seed)  # noqa: S311 - orders, not secrets
    return [few.drawn(chance) for _ in range(DRAWN)]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("kind", [ORDER, NEXT, MISTAKE], ids=lambda kind: kind.value)
def test_nothing_wet_is_handled_by_what_is_right(name, kind):
    source = source_of(name)
    for drill in made(kind, name):
        ids = {choice.id for choice in drill.choices}
        for order in right_orders(source, drill):
            assert ids.isdisjoint(handled_wet(source.derived.work, (*drill.done, *order)))


@pytest.mark.parametrize(("name", "seed"), [("elbow_cop", 3), ("three_lames", 6)])
def test_where_it_was_right_to_punch_wet_leather_it_is_no_more(name, seed):
    source = source_of(name)
    work = source.derived.work
    drill = drill_for(source, asked(NEXT, seed, Level.ROW))
    for step in solved(source, drill).answer:
        assert not list(handled_wet(work, (*drill.done, step)))


def test_what_wets_a_part_stands_in_no_exercise_with_what_is_free_to_handle_it():
    derived = source_of("elbow_cop").derived
    bound = grounds_of(derived)[1]
    work, place = derived.work, bound.settled.place
    dye = work.of_kind(StepKind.DYE)[0]
    punch = next(s for s in work.of_kind(StepKind.PUNCH) if set(s.parts) <= set(dye.parts))
    apart = bound.wet.apart[place[punch.id]]
    assert apart >> place[dye.id] & 1
    assert apart >> place[work.drying_of(dye.id).id] & 1
    bevel = next(s for s in work.of_kind(StepKind.BEVEL) if s.parts == punch.parts)
    assert not bound.wet.apart[place[bevel.id]] >> place[dye.id] & 1


@pytest.mark.parametrize("name", NAMES)
def test_a_cure_is_not_over_before_the_drying_it_begins_with(name):
    source = source_of(name)
    work = source.derived.work
    for kind in (ORDER, NEXT, MISTAKE):
        for drill in made(kind, name):
            ids, done = {choice.id for choice in drill.choices}, set(drill.done)
            for cure in work.of_kind(StepKind.CURE):
                dry = work.drying_of(cure.after)
                if dry is not None:
                    assert not (dry.id in ids and cure.id in ids | done)
                    assert dry.id in done or cure.id not in done


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("kind", [ORDER, MISTAKE], ids=lambda kind: kind.value)
def test_what_is_done_keeps_what_is_usual_and_easier(name, kind):
    """The card is looked at before the hide is laid out, though laying out first spoils nothing."""
    derived = source_of(name).derived
    steers = [
        (first, of)
        for first, of in map(first_and_members, filter(steers_only(derived), derived.relations))
        if not all(derived.work.sets(derived.work.step(step)) for step in (first, *of))
    ]
    for drill in made(kind, name):
        ids, done = {choice.id for choice in drill.choices}, set(drill.done)
        assert not [first for first, of in steers if first in ids and of <= done]


@pytest.mark.parametrize("name", NAMES)
def test_what_time_alone_does_is_nothing_to_come_next(name):
    source = source_of(name)
    for drill in made(NEXT, name):
        assert all(source.derived.work.step(s).attended for s in solved(source, drill).answer)
