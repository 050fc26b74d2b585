"""'Plan the day': whatever keeps the day is right, by what the exercise itself shows."""

import random
from dataclasses import replace
from datetime import time, timedelta
from itertools import pairwise, product
from zoneinfo import ZoneInfo

import pytest
from orders.recovery.build_scenes import SAMPLES, derived_sample

from armorplan.app.derived import derive_build
from armorplan.app.drills.day_links import links_of
from armorplan.app.drills.day_making import GRID_MIN, day_of, one_by_one, wet_first
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.app.drills.source import DrillSource
from armorplan.files.catalogue import read_shelf
from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.errors import ArmorplanError
from armorplan.kernel.shipped import samples_folder
from armorplan.practice.day_plan import can_be_done, one_after_another, placed_at
from armorplan.practice.drill import AnswerForm, Asked, DrillKind, Level
from armorplan.relations.model import Before
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.schedule.checker import violations
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.hours import Opening
from armorplan.workshop.shop import one_maker

SEEDS = range(3)
every_sample = pytest.mark.parametrize("name", SAMPLES)


def asked(seed, level=Level.ROW, **also):
    return Asked(kind=DrillKind.DAY, seed=seed, level=level, **also)


def source(name):
    return DrillSource(derived=derived_sample(name))


@pytest.fixture(scope="module")
def drills():
    """Return by sample its exercises, each level with some seeds."""
    return {
        name: [drill_for(source(name), asked(seed, level)) for level in Level for seed in SEEDS]
        for name in SAMPLES
    }


def minute_of(at, drill):
    local = at.astimezone(ZoneInfo(drill.day.zone))
    return 60 * local.hour + local.minute


def starts_of(answer):
    told = (one.rpartition("=") for one in answer)
    return {name: 60 * int(clock[:2]) + int(clock[3:]) for name, _, clock in told}


def answer_of(starts):
    return tuple(f"{name}={at // 60:02}:{at % 60:02}" for name, at in starts.items())


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
def test_one_after_the_other_is_late_and_to_make_all_wet_first_breaks_a_window(name):
    derived = derived_sample(name)
    for level in Level:
        for seed in SEEDS:
            day = day_of(derived, asked(seed, level))
            order = [step.id for step in day.steps]
            assert one_by_one(day.problem, day.links, order) is None
            if any(link.most_min is not None for link in day.links):
                first = wet_first(day.problem, day.links)
                assert one_after_another(day.problem, first, grid_min=GRID_MIN) is None


@every_sample
def test_a_day_is_self_contained(name):
    derived = derived_sample(name)
    links = links_of(derived)
    for seed in SEEDS:
        day = day_of(derived, asked(seed, Level.HARNESS))
        ids = {step.id for step in day.steps}
        assert not links.between(ids)
        assert not ids & set(day.done)
        for relation in derived.index.relations:
            if relation.reason.binds and hasattr(relation, "lag_min"):
                step = derived.work.step(relation.first)
                if relation.then in ids and step.attended and relation.first not in ids:
                    assert relation.first in day.done
                    assert relation.max_lag_min is None
                assert not (relation.first in ids and relation.then in day.done)


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
    assert f"has to wait {wait.minutes} min" in _texts(told["too soon"])
    assert f"after {wait.latest_min} min it is too late" in _texts(told["too late"])
    assert f"begins before '{drill.choice(wait.after).title}' is done" in _texts(told["before it"])
    assert "the bench is worked at" in _texts(told["at night"])
    for worth in told.values():
        assert not worth.right
        assert title in _texts(worth)
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


def _texts(worth):
    return " ".join(because.text for because in worth.because)


def test_two_at_once_and_too_late_an_end_are_told():
    name = "elbow_cop"
    drill = drill_for(source(name), asked(2))
    best = starts_of(solved(source(name), drill).answer)
    one, other = sorted(best, key=best.__getitem__)[:2]
    worth = judged(source(name), drill, answer_of(best | {other: best[one]}))
    assert "one pair of hands" in _texts(worth)
    last = max(best, key=best.__getitem__)
    by_min = minute_of(drill.day.ends_by_at, drill)
    worth = judged(source(name), drill, answer_of(best | {last: by_min}))
    assert f"all is to be done by {by_min // 60:02}:{by_min % 60:02}" in _texts(worth)


@every_sample
def test_the_same_asked_makes_the_same_day(name, drills):
    again = [drill_for(source(name), drill.asked) for drill in drills[name][:4]]
    assert again == drills[name][:4]
    assert len({(drill.choices, drill.day) for drill in drills[name]}) > len(SEEDS)


def test_a_piece_and_a_part_do_not_give_way():
    derived = derived_sample("arm_harness")
    drill = drill_for(source("arm_harness"), asked(1, piece="elbow"))
    assert {derived.work.step(c.id).piece for c in drill.choices} == {"elbow"}
    part = derived.work.step(drill.choices[0].id).parts[0].rsplit(".", 1)[0]
    about = drill_for(source("arm_harness"), asked(1, part=part))
    assert any(p.startswith(part) for p in about.parts)
    assert drill_for(source("arm_harness"), asked(1, part="no_such_part")) is None


@pytest.mark.parametrize(
    ("name", "rule"),
    [
        ("collar", "damp-window"),
        ("three_lames", "dry-between-coats"),
        ("three_lames", "clean-before-dye"),
    ],
)
def test_a_day_needs_the_rule_that_is_asked_for(name, rule):
    for seed in range(3):
        assert rule in drill_for(source(name), asked(seed, focus=rule)).rules


def test_where_all_is_dyed_at_once_nothing_is_dry_to_work_at_meanwhile():
    """Every part of the collar is cleaned in one go: the hour behind it is no day to plan, and another is set."""
    derived = derived_sample("collar")
    (clean,) = derived.work.of_kind(StepKind.CLEAN)
    leather = {part for step in derived.work.of_kind(StepKind.PUNCH) for part in step.parts}
    assert leather <= set(clean.parts)
    drill = drill_for(source("collar"), asked(1, focus="clean-before-dye"))
    assert drill.rules == ("damp-window",)


def test_a_piece_without_waits_has_no_day():
    pattern = sketch(sketch_part("plate"), sketch_part("cover"))
    derived = derive_build(pattern, read_shelf(), one_maker(), build="dry")
    assert drill_for(DrillSource(derived=derived), asked(1)) is None


def _in_shop(shop, name="elbow_cop"):
    was = derived_sample(name)
    return DrillSource(derived=derive_build(was.pattern, was.shelf, shop, build=name))


def test_nobody_who_can_and_no_time_leave_no_day():
    shop = one_maker("UTC")
    maker = replace(shop.people[0], cannot=("form", "tool", "dye", "finish"))
    assert drill_for(_in_shop(replace(shop, people=(maker,))), asked(1)) is None
    short = tuple(Opening(weekday=d, start=time(9), end=time(9, 30)) for d in range(5))
    brief = replace(shop, people=(replace(shop.people[0], hours=short),))
    assert drill_for(_in_shop(brief), asked(1)) is None


def test_another_climate_changes_the_waits_and_the_right_answer():
    climate = Climate(temperature_c=20, humidity_pct=66)
    shop = replace(one_maker("UTC"), room=Room(usual=climate, zone="UTC"))
    here, damp = source("elbow_cop"), _in_shop(shop)
    wrong = []
    for seed, level in product(SEEDS, (Level.ROW, Level.PIECE)):
        drill, other = (drill_for(one, asked(seed, level)) for one in (here, damp))
        if {c.id for c in other.choices} == {c.id for c in drill.choices}:
            waits = [
                {(r.after, r.before): r.minutes for r in d.day.rows if not r.attended}
                for d in (drill, other)
            ]
            assert all(waits[1][pair] > minutes for pair, minutes in waits[0].items())
            worth = judged(damp, other, solved(here, drill).answer)
            wrong += [worth] * (not worth.right)
    assert wrong
    assert any("it has to wait" in _texts(worth) for worth in wrong)


def test_the_hours_of_the_lantern_watch_and_its_slower_apprentice():
    shop = read_shop_file(samples_folder() / "lantern_week" / "shop.toml").shop
    found = _in_shop(shop)
    drill = drill_for(found, asked(2))
    assert "Maker works" in drill.given[0]
    assert drill.day.zone == "Europe/Lisbon"
    assert all(day not in " ".join(drill.given) for day in ("2026", "Sunday"))
    swift = replace(shop.people[0], pace=2.0)
    slow = drill_for(_in_shop(replace(shop, people=(swift,))), asked(2))
    for row in slow.day.rows:
        if row.choice:
            assert row.minutes == 2 * found.derived.work.step(row.choice).minutes


def test_a_short_afternoon_leaves_days_that_begin_at_opening():
    shop = one_maker("UTC")
    hours = tuple(
        Opening(weekday=day, start=start, end=end)
        for day in range(5)
        for start, end in ((time(8), time(12)), (time(15), time(15, 30)))
    )
    brief = _in_shop(replace(shop, people=(replace(shop.people[0], hours=hours),)))
    made = [drill_for(brief, asked(seed, level)) for seed in SEEDS for level in Level]
    assert all(made)
    assert {drill.day.from_at.hour for drill in made} == {8, 10}
    assert all(drill.day.ends_by_at <= drill.day.to_at for drill in made)


def test_hours_are_those_of_the_weekday_said():
    drill = drill_for(source("collar"), asked(1, Level.PIECE))
    assert drill.day.closed
    shut, opens = drill.day.closed[0]
    assert opens - shut == timedelta(hours=1)
    assert drill.day.from_at.strftime("%A") in drill.given[0]


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
    early = _in_shop(replace(shop, people=(replace(shop.people[0], hours=hours),)))
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
