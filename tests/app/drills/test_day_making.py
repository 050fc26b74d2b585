"""Which days are set: they fit the shop, its air and its people, and need a thought."""

from dataclasses import replace
from datetime import time, timedelta
from itertools import product

import pytest
from app.drills.day_sets import SEEDS, asked, every_sample, in_shop, source, texts
from orders.recovery.build_scenes import derived_sample

from armorplan.app.derived import derive_build
from armorplan.app.drills.day_links import links_of
from armorplan.app.drills.day_making import GRID_MIN, day_of, one_by_one, wet_first
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.app.drills.source import DrillSource
from armorplan.files.catalogue import read_shelf
from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.shipped import samples_folder
from armorplan.practice.day_plan import one_after_another
from armorplan.practice.drill import Level
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.hours import Opening
from armorplan.workshop.shop import one_maker


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


def test_nobody_who_can_and_no_time_leave_no_day():
    shop = one_maker("UTC")
    maker = replace(shop.people[0], cannot=("form", "tool", "dye", "finish"))
    assert drill_for(in_shop(replace(shop, people=(maker,))), asked(1)) is None
    short = tuple(Opening(weekday=d, start=time(9), end=time(9, 30)) for d in range(5))
    brief = replace(shop, people=(replace(shop.people[0], hours=short),))
    assert drill_for(in_shop(brief), asked(1)) is None


def test_another_climate_changes_the_waits_and_the_right_answer():
    climate = Climate(temperature_c=20, humidity_pct=66)
    shop = replace(one_maker("UTC"), room=Room(usual=climate, zone="UTC"))
    here, damp = source("elbow_cop"), in_shop(shop)
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
    assert any("it has to wait" in texts(worth) for worth in wrong)


def test_the_hours_of_the_lantern_watch_and_its_slower_apprentice():
    shop = read_shop_file(samples_folder() / "lantern_week" / "shop.toml").shop
    found = in_shop(shop)
    drill = drill_for(found, asked(2))
    assert "Maker works" in drill.given[0]
    assert drill.day.zone == "Europe/Lisbon"
    assert all(day not in " ".join(drill.given) for day in ("2026", "Sunday"))
    swift = replace(shop.people[0], pace=2.0)
    slow = drill_for(in_shop(replace(shop, people=(swift,))), asked(2))
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
    brief = in_shop(replace(shop, people=(replace(shop.people[0], hours=hours),)))
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
