"""An apprentice of a shop file beside the maker, and signed off: who does what, and how soon."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from armorplan.app.ordered_builds import derive_orders
from armorplan.files.catalogue import read_shelf
from armorplan.files.shop_file import read_shop_file
from armorplan.schedule.bench_history import History
from armorplan.schedule.checker import violations
from armorplan.schedule.joining import joined_problem
from armorplan.schedule.planning import first_plan
from armorplan.schedule.shop_checks import shop_findings
from armorplan.schedule.teaching import learned_in, taught_plan
from armorplan.workshop.shop import usual_hours
from armorplan.workshop.skill_how import SkillHow
from armorplan.workshop.skills import SignedOff, with_skills

MONDAY_8 = datetime(2026, 12, 7, 8, tzinfo=UTC)
SHOP = """\
zone = "UTC"

[people.maker]
name = "Maker"
hours = [
    { day = "mon", from = "09:00", to = "17:00" }, { day = "tue", from = "09:00", to = "17:00" },
    { day = "wed", from = "09:00", to = "17:00" }, { day = "thu", from = "09:00", to = "17:00" },
]

[people.apprentice]
name = "Apprentice"
hours = [
    { day = "mon", from = "10:00", to = "15:00" }, { day = "tue", from = "10:00", to = "15:00" },
    { day = "wed", from = "10:00", to = "15:00" }, { day = "thu", from = "10:00", to = "15:00" },
]
can = ["cut"]
beside = ["rivet"]
paces = { "rivet" = 0.6 }

[builds.cop]
pattern = "elbow_cop"
"""


@pytest.fixture(scope="module")
def shop_file(tmp_path_factory):
    path = tmp_path_factory.mktemp("beside") / "shop.toml"
    path.write_text(SHOP, encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def cop(shop_file):
    read = read_shop_file(shop_file)
    assert read.findings == ()
    found, told = derive_orders(read.orders, shop_file, read_shelf(), read.shop)
    assert told == ()
    return found[0].in_hand


def in_shop(build, *rows, shop=None):
    """The build in the same shop after these were signed off."""
    place = build.workplace
    return replace(build, workplace=replace(place, shop=with_skills(shop or place.shop, rows)))


def said(how, kind="rivet"):
    return SignedOff(person="apprentice", kind=kind, how=how, by="maker", at=MONDAY_8)


def planned(*builds, origin_at=MONDAY_8):
    problem = joined_problem(builds, origin_at=origin_at)
    plan = first_plan(problem)
    assert violations(problem, plan) == ()
    return problem, plan


def slower(shop, **parts):
    """The shop with an apprentice who takes three tenths longer, and nothing is said of riveting."""
    people = (
        replace(p, **parts, beside=(), pace=1.3, paces=())
        if p.id == "apprentice"
        else replace(p, **parts)
        for p in shop.people
    )
    return replace(shop, people=tuple(people))


def taught_in(build):
    """The plan with what is learned in it, as windows and commands show it."""
    problem, plan = planned(build)
    return problem, taught_plan(problem, plan)


def riveting(problem, plan):
    """Who rivets, each with who is beside."""
    by_id = {a.id: a for a in problem.activities}
    rivets = [p for p in plan.placed if "/rivet/" in p.id]
    return {(p.who, by_id[p.id].way(p.who, p.mode).also) for p in rivets}


def test_the_apprentice_rivets_beside_the_maker_or_not_at_all(cop):
    problem, plan = planned(cop)
    assert ("apprentice", ("maker",)) in riveting(problem, plan)
    assert ("apprentice", ()) not in riveting(problem, plan)
    ways = {w for a in problem.activities if "/rivet/" in a.id for w in a.ways}
    assert {(w.who, w.also) for w in ways} == {("maker", ()), ("apprentice", ("maker",))}
    # The pair goes at the apprentice's pace.
    rivet = next(a for a in problem.activities if "/rivet/" in a.id)
    alone, pair = (next(w.minutes for w in rivet.ways if bool(w.also) is b) for b in (False, True))
    assert pair == -(-alone * 6 // 10)


def test_a_kind_signed_off_changes_the_next_plan_and_taking_it_back_restores_it(cop):
    before = planned(cop)
    alone = planned(in_shop(cop, said(SkillHow.ALONE)))
    assert ("apprentice", ()) in riveting(*alone)
    assert all(not also for _, also in riveting(*alone))
    not_yet = planned(in_shop(cop, said(SkillHow.NOT_YET)))
    assert riveting(*not_yet) == {("maker", ())}
    assert not_yet[1].placed != before[1].placed != alone[1].placed
    signed = in_shop(cop, said(SkillHow.ALONE))
    back = in_shop(signed, said(SkillHow.ALONE), said(SkillHow.AS_FILED))
    assert planned(back) == before


def test_more_hands_end_no_later(cop):
    ends = [
        planned(in_shop(cop, said(how)))[1].finish_min
        for how in (SkillHow.ALONE, SkillHow.BESIDE, SkillHow.NOT_YET)
    ]
    assert ends == sorted(ends)


def test_a_slower_pair_is_no_way_of_doing_it(cop):
    people = tuple(replace(p, paces=()) for p in cop.workplace.shop.people)
    problem, plan = planned(in_shop(cop, shop=replace(cop.workplace.shop, people=people)))
    assert riveting(problem, plan) == {("maker", ())}
    assert not any(a.in_pairs for a in problem.activities)


def test_signed_off_beside_somebody_is_learned_where_nothing_ends_later(cop):
    """The apprentice takes three tenths longer; on a Friday that leaves time, till Monday's packing."""
    shop = slower(cop.workplace.shop, hours=usual_hours())
    before = taught_in(in_shop(cop, shop=shop))
    assert riveting(*before) == {("maker", ())}
    signed = in_shop(cop, said(SkillHow.BESIDE), shop=shop)
    problem, plan = taught_in(signed)
    assert riveting(problem, plan) >= {("apprentice", ("maker",))}
    learned = learned_in(problem, plan.placed)
    assert {i.split("/")[-2] for i in learned} == {"rivet"}
    assert len(learned) >= 5
    assert plan.finish_min == before[1].finish_min
    assert violations(problem, plan) == ()
    # It is done at their pace, and what was begun later for it is the maker's alone.
    alone = {p.id: p for p in planned(signed)[1].placed}
    for placed in plan.placed:
        if placed.id in learned:
            minutes = alone[placed.id].end_min - alone[placed.id].start_min
            assert placed.end_min - placed.start_min in (-(-13 * minutes // 10), minutes + 1)
        elif placed != alone[placed.id]:
            assert placed.who == "maker"
    back = in_shop(cop, said(SkillHow.BESIDE), said(SkillHow.AS_FILED), shop=shop)
    assert taught_in(back) == before


def test_nothing_is_learned_of_what_the_build_waits_for(cop):
    """Nobody is there on Fridays: all is riveted, looked over and packed on Monday in one go."""
    signed = in_shop(cop, said(SkillHow.BESIDE), shop=slower(cop.workplace.shop))
    problem, plan = taught_in(signed)
    assert any(a.taught for a in problem.activities)
    assert riveting(problem, plan) == {("maker", ())}


@pytest.mark.parametrize("pace", [0.6, 1.4])
def test_what_the_apprentice_is_at_keeps_the_maker_too(cop, pace):
    """However slow they are together: it is under way."""
    people = tuple(
        replace(p, paces=(("rivet", pace),)) if p.id == "apprentice" else p
        for p in cop.workplace.shop.people
    )
    rivet = next(s for s in cop.work.steps if s.kind == "rivet")
    at = MONDAY_8 + timedelta(hours=2, minutes=30)
    history = History(done={}, running={rivet.id: at}, worked_min={}, who={rivet.id: "apprentice"})
    begun = replace(in_shop(cop, shop=replace(cop.workplace.shop, people=people)), history=history)
    problem, plan = planned(begun, origin_at=at)
    placed = next(p for p in plan.placed if p.id.endswith(rivet.id.partition("/")[2]))
    activity = next(a for a in problem.activities if a.id == placed.id)
    assert activity.way(placed.who, placed.mode).also == ("maker",)
    later = [p for p in plan.placed if p.who == "maker" and p.id != placed.id]
    assert all(p.start_min >= placed.end_min for p in later)


def test_a_kind_that_nobody_does_alone_is_told(cop):
    people = tuple(
        replace(p, cannot=("rivet",)) if p.id == "maker" else p for p in cop.workplace.shop.people
    )
    build = in_shop(cop, shop=replace(cop.workplace.shop, people=people))
    (finding,) = shop_findings((build,), joined_problem((build,), origin_at=MONDAY_8))
    assert finding.code == "nobody-can"
    assert 'Nobody in this shop does "rivet" alone' in finding.text
    assert "the beside of Apprentice" in finding.remedy
