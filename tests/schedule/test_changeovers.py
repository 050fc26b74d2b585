"""Changing what a bath holds is somebody's work: whose hands the plan leaves free for it."""

from dataclasses import replace

from schedule.small_problems import by_hand, problem

from armorplan.schedule.activity import Activity, Dip, Mode
from armorplan.schedule.changeovers import changeovers, family_words
from armorplan.schedule.problem import Bath, Placed, Worker

VAT = Bath(id="vat", capacity=2, change_min=25, holds="dye|harbour_blue")


def dip(name, family):
    ways = tuple(Mode(who=who, minutes=10, name="vat", bath="vat") for who in "mn")
    return Activity(id=name, minutes=10, modes=ways, dip=Dip(family=family))


BENCH = problem(
    dip("blue", "dye|harbour_blue"),
    dip("black", "dye|tar_black"),
    by_hand("sew"),
    workers=(Worker(id="m", windows=((0, 200),)), Worker(id="n", windows=((0, 40), (60, 200)))),
    baths=(VAT,),
)


def placed(name, start, end, who="m", mode="vat"):
    return Placed(id=name, start_min=start, end_min=end, who=who, mode=mode)


BLUE, BLACK = placed("blue", 0, 10), placed("black", 60, 70)


def found(bench, *places):
    return [(c.who, c.start_min, c.end_min, c.then) for c in changeovers(bench, places)]


def test_who_is_free_last_before_the_batch_changes_it():
    sew = placed("sew", 50, 60, mode="")
    assert found(BENCH, BLUE, BLACK, sew) == [("m", 25, 50, "black")]


def test_another_changes_it_where_one_has_other_work():
    sew = placed("sew", 10, 60, mode="")
    assert found(BENCH, BLUE, BLACK, sew) == [("n", 15, 40, "black")]


def test_where_nobody_is_free_it_says_so():
    away = replace(BENCH, workers=(BENCH.workers[0],))
    assert found(away, BLUE, BLACK, placed("sew", 30, 50, mode="")) == [(None, 35, 60, "black")]


def test_what_the_bath_holds_at_first_counts():
    emptied = replace(BENCH, activities=BENCH.activities[1:])
    assert found(emptied, BLACK, placed("sew", 0, 10, mode="")) == [("m", 35, 60, "black")]
    assert found(replace(BENCH, activities=BENCH.activities[:1]), BLUE) == []


def test_a_change_made_already_is_told_no_more():
    black = replace(BENCH.activities[1], fixed_start_min=60, fixed_end_min=70)
    begun = replace(BENCH, activities=(BENCH.activities[0], black))
    assert found(begun, BLUE, BLACK) == []


def test_a_family_is_told_in_words():
    assert family_words("alcohol_dye|tar black") == "tar black alcohol dye"
