"""'Plan the day': whatever keeps the day is right, by what the exercise itself shows."""

import random
from dataclasses import replace
from datetime import time
from itertools import pairwise

import pytest
from app.drills.day_sets import (
    SEEDS,
    answer_of,
    asked,
    every_sample,
    in_shop,
    minute_of,
    source,
    starts_of,
    texts,
)
from orders.recovery.build_scenes import SAMPLES, derived_sample

from armorplan.app.drills.day_making import GRID_MIN, day_of
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.day_plan import can_be_done, placed_at
from armorplan.practice.drill import AnswerForm, Level
from armorplan.relations.model import Before
from armorplan.schedule.checker import violations
from armorplan.workshop.hours import Opening
from armorplan.workshop.shop import one_maker


@pytest.fixture(scope="module")
def drills():
    """Return by sample its exercises, each level with some seeds."""
    return {
        name: [drill_for(source(name), asked(seed, level)) for level in Level for seed in SEEDS]
        for name in SAMPLES
    }


def is_kept(drill, derived, starts):
    """Say from what the exercise shows, and the build's own relations, whether a plan is right."""
    work = {row.choice: row.minutes for row in drill.day.rows if row.choice}
    ends = {name: starts[name] + work[name] for name in work}
    from_min, to_min, by_min = (
        minute_of(at, drill) for at in (drill.day.from_at, drill.day.to_at, drill.day.ends_by_at)
    )
    shut = [(minute_of(a, drill), minute_of(b, drill)) for a, b in drill.day.closed]
    names = sorted(starts, key=starts.__getitem__)
    waits = [row for row in drill.day.rows if not row.attended]
    bound = [r for r in derived.index.relations if r.reason.binds and hasattr(r, "lag_min")]
    return (
        all(from_min <= starts[n] and ends[n] <= min(to_min, by_min) for n in work)
        and not any(starts[n] < b and ends[n] > a for n in work for a, b in shut)
        and all(ends[one] <= starts[other] for one, other in pairwise(names))
        and all(
            row.minutes <= starts[row.before] - ends[row.after]
            and (row.latest_min is None or starts[row.before] - ends[row.after] <= row.latest_min)
            for row in waits
        )
        and all(ends[r.first] <= starts[r.then] for r in bound if {r.first, r.then} <= work.keys())
    )


@every_sample
def test_every_sample_holds_days_of_every_level_with_two_waits(name, drills):
    for drill in drills[name]:
        assert drill is not None
        assert drill.form is AnswerForm.TIMES
        assert 4 <= len(drill.choices) <= 8
        waits = [row for row in drill.day.rows if not row.attended]
        assert len({row.after for row in waits}) >= 2
        assert {row.choice for row in drill.day.rows if row.attended} == {
            choice.id for choice in drill.choices
        }
        assert drill.cautions or all(
            not derived_sample(name).work.step(c.id).cautions for c in drill.choices
        )


@every_sample
def test_a_harder_level_has_more_steps_and_less_time_to_spare(name, drills):
    of_level = {level: [d for d in drills[name] if d.asked.level is level] for level in Level}
    most = [max(len(d.choices) for d in of_level[level]) for level in Level]
    assert most == sorted(most)
    assert most[-1] > most[0]


@every_sample
def test_its_own_answer_is_right_and_ends_no_later_than_any_need(name, drills):
    derived = derived_sample(name)
    for drill in drills[name][::2]:
        answer = solved(source(name), drill).answer
        worth = judged(source(name), drill, answer)
        assert worth.right
        assert worth.credit == 1
        assert is_kept(drill, derived, starts_of(answer))
        assert all(met.kept for met in worth.met)
        assert {b.rule for b in worth.because} == set(drill.rules)


@every_sample
def test_right_plans_are_never_wrong_and_wrong_ones_never_right(name, drills):
    chance, derived = random.Random(7), derived_sample(name)  # noqa: S311 - a test
    seen = set()
    for drill in drills[name][::3]:
        day = day_of(derived, drill.asked)
        best = starts_of(solved(source(name), drill).answer)
        for _ in range(5):
            starts = dict(best)
            for step in chance.sample(sorted(best), chance.randint(1, 3)):
                starts[step] = max(0, starts[step] + chance.choice((-40, -15, -5, 5, 10, 15, 60)))
            fair = can_be_done(
                day.problem, grid_min=GRID_MIN, pins=dict([chance.choice(sorted(starts.items()))])
            )
            for plan in (starts, fair):
                if plan is None:
                    continue
                worth = judged(source(name), drill, answer_of(plan))
                assert worth.right == is_kept(drill, derived, plan)
                seen.add(worth.right)
                near = starts_of(worth.nearest)
                assert not violations(day.problem, placed_at(day.problem, near))
                assert is_kept(drill, derived, near)
                assert {n for n in near if near[n] != plan[n]} == set(worth.moved)
                assert worth.distance == len(worth.moved)
                assert worth.credit == pytest.approx(1 - worth.distance / len(best))
    assert seen == {True, False}


def test_faults_are_told_with_their_reason_and_minutes():
    name = "elbow_cop"
    drill = drill_for(source(name), asked(2))
    best = starts_of(solved(source(name), drill).answer)
    wait = next(row for row in drill.day.rows if row.latest_min)
    ends = best[wait.after] + next(r.minutes for r in drill.day.rows if r.choice == wait.after)
    told = {}
    for fault, start in (
        ("too soon", ends + wait.minutes - 1),
        ("too late", ends + wait.latest_min + 1),
        ("before it", best[wait.after] - 5),
        ("at night", 7 * 60),
    ):
        told[fault] = judged(source(name), drill, answer_of(best | {wait.before: start}))
    title = drill.choice(wait.before).title
    assert f"has to wait {wait.minutes} min" in texts(told["too soon"])
    assert f"after {wait.latest_min} min it is too late" in texts(told["too late"])
    assert f"begins before '{drill.choice(wait.after).title}' is done" in texts(told["before it"])
    assert "the bench is worked at" in texts(told["at night"])
    for worth in told.values():
        assert not worth.right
        assert title in texts(worth)
        head, _, first = worth.sentence.partition(": ")
        assert head == "Not yet"
        assert worth.because[0].text.startswith(first)
        assert not worth.because[0].rule.endswith("window") or first != worth.because[0].text
    for fault in ("too soon", "too late", "before it"):
        assert any(met.rule == "damp-window" and not met.kept for met in told[fault].met)
        numbers = {q.name: q.value for b in told[fault].because for q in b.exact}
        assert numbers["least wait"] == wait.minutes
        assert numbers["most wait"] == wait.latest_min


@every_sample
def test_the_first_fault_in_time_is_told_first(drills, name):
    """Two things at once in the morning, a wait not kept later, in whatever order they are found."""
    drill = drills[name][-1]
    best = starts_of(solved(source(name), drill).answer)
    work = {row.choice: row.minutes for row in drill.day.rows}
    early = sorted(best, key=best.__getitem__)[:2]
    waits = [r for r in drill.day.rows if not r.attended and not {r.after, r.before} & {*early}]
    wait = max(waits, key=lambda row: best[row.after])
    broken = best | {
        early[1]: best[early[0]],
        wait.before: best[wait.after] + work[wait.after],
    }
    told = judged(source(name), drill, answer_of(broken)).because
    begins = [max(broken[step] for step in one.steps) for one in told]
    assert begins == sorted(begins)
    assert len(set(begins)) > 1
    assert set(told[0].steps) & {*early}


def test_two_at_once_and_too_late_an_end_are_told():
    name = "elbow_cop"
    drill = drill_for(source(name), asked(2))
    best = starts_of(solved(source(name), drill).answer)
    one, other = sorted(best, key=best.__getitem__)[:2]
    worth = judged(source(name), drill, answer_of(best | {other: best[one]}))
    assert "one pair of hands" in texts(worth)
    last = max(best, key=best.__getitem__)
    by_min = minute_of(drill.day.ends_by_at, drill)
    worth = judged(source(name), drill, answer_of(best | {last: by_min}))
    assert f"all is to be done by {by_min // 60:02}:{by_min % 60:02}" in texts(worth)


@every_sample
def test_the_same_asked_makes_the_same_day(name, drills):
    again = [drill_for(source(name), drill.asked) for drill in drills[name][:4]]
    assert again == drills[name][:4]
    assert len({(drill.choices, drill.day) for drill in drills[name]}) > len(SEEDS)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda a: a[:-1], "has no time yet"),
        (lambda a: (*a, a[0]), "has two times"),
        (lambda a: ("nobody=09:00", *a[1:]), "is no time of a step"),
        (lambda a: (a[0].partition("=")[0] + "=25:00", *a[1:]), "is no time of a step"),
    ],
    ids=["missing", "twice", "unknown", "no clock"],
)
def test_what_is_no_plan_is_refused_in_words(change, said):
    drill = drill_for(source("collar"), asked(1))
    answer = solved(source("collar"), drill).answer
    with pytest.raises(ArmorplanError, match=said):
        judged(source("collar"), drill, change(answer))


def test_a_day_of_other_hours_is_not_judged():
    drill = drill_for(source("elbow_cop"), asked(1))
    shop = one_maker("UTC")
    hours = tuple(Opening(weekday=d, start=time(6), end=time(20)) for d in range(5))
    early = in_shop(replace(shop, people=(replace(shop.people[0], hours=hours),)))
    with pytest.raises(ArmorplanError, match="Ask for another"):
        judged(early, drill, solved(source("elbow_cop"), drill).answer)


def followers(derived):
    """Return by step all that binding 'before' relations put behind it, without the module's own links."""
    behind = {name: set() for name in derived.order}
    for relation in derived.index.relations:
        if isinstance(relation, Before) and relation.reason.binds:
            behind[relation.first].add(relation.then)
    for name in reversed(derived.order):
        behind[name] |= {later for then in behind[name] for later in behind[then]}
    return behind


@every_sample
def test_no_right_plan_handles_wet_leather(drills, name):
    """What is wet in a day, or before it, is handled only where relations say before or behind what."""
    derived, looked = derived_sample(name), 0
    behind, work = followers(derived), derived.work
    for drill in drills[name]:
        steps = {row.choice for row in drill.day.rows if row.choice}
        for wet in (*drill.done, *sorted(steps)):
            dry = work.drying_of(wet)
            if dry is None or dry.id in drill.done:
                continue
            for step in sorted(steps - {wet}):
                if not set(work.step(step).parts).isdisjoint(work.step(wet).parts):
                    looked += 1
                    assert step in behind[wet] or wet in behind[step]
                    assert wet not in drill.done or step in behind[dry.id] or "glue" in step
    assert looked > 5


@every_sample
def test_nothing_is_left_for_the_day_that_is_usually_done_before(drills, name):
    derived = derived_sample(name)
    for drill in drills[name]:
        steps, done = {row.choice for row in drill.day.rows}, set(drill.done)
        for relation in derived.index.relations:
            if isinstance(relation, Before) and relation not in derived.not_kept:
                assert relation.first not in steps or relation.then not in done
