"""The lantern week: its file is sound, its builds join quickly, and its help page says what holds."""

import re
from dataclasses import replace
from datetime import UTC, datetime
from time import perf_counter

import pytest

from armorplan.app.help_pages import help_page, page_text
from armorplan.app.ordered_builds import derive_orders
from armorplan.files.catalogue import read_shelf
from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.findings import Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.schedule.checker import violations
from armorplan.schedule.joining import joined_problem
from armorplan.schedule.measures import job_end, lateness
from armorplan.schedule.place_checks import place_findings
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Status
from armorplan.schedule.shop_checks import shop_findings
from armorplan.schedule.teaching import learned_in, taught_plan
from armorplan.steps.model import StepKind
from armorplan.workshop.skill_how import SkillHow
from armorplan.workshop.skills import SignedOff, with_skills

WEEK = samples_folder() / "lantern_week" / "shop.toml"
MONDAY_8 = datetime(2026, 12, 7, 8, tzinfo=UTC)


@pytest.fixture(scope="module")
def week():
    return read_shop_file(WEEK)


@pytest.fixture(scope="module")
def builds(week):
    found, told = derive_orders(week.orders, WEEK, read_shelf(), week.shop)
    assert told == ()
    assert not any(f.severity is Severity.ERROR for b in found for f in b.derived.findings)
    return [build.in_hand for build in found]


@pytest.fixture(scope="module")
def problem(builds):
    return joined_problem(builds, origin_at=MONDAY_8)


def test_the_shop_of_the_lantern_week(week):
    assert week.findings == ()
    assert len(week.orders) == 5
    assert [p.id for p in week.shop.people] == ["maker", "apprentice"]
    assert len(week.shop.wearers) == len(week.shop.racks) == 1
    assert all(order.due_at is not None for order in week.orders)


def test_nothing_in_it_keeps_a_build_from_being_planned(week, builds, problem):
    assert shop_findings(builds, problem, places=week.places) == ()
    assert place_findings(builds, places=week.places) == ()


def test_two_colours_of_several_builds_share_one_tray(problem):
    dyed = {}
    for activity in problem.activities:
        if activity.dip is not None and "dye_tray" in {m.bath for m in activity.modes}:
            dyed.setdefault(activity.dip.family, set()).add(activity.id.partition("/")[0])
    assert dyed == {
        "alcohol_dye|harbour blue": {"captain_cop", "collar", "elbows"},
        "alcohol_dye|tar black": {"night_cop-1", "night_cop-2", "collar"},
    }
    capacity = next(b.capacity for b in problem.baths if b.id == "dye_tray")
    amounts = [a.dip.amount for a in problem.activities if a.dip and "colour" in a.id]
    # At least two coats fit in at once, or there is nothing to merge.
    assert 2 * max(amounts) <= capacity


def test_the_rack_is_too_short_for_all_at_once(problem):
    line = next(r.capacity for r in problem.resources if r.id == "line")
    first_coats = [
        h.amount for h in problem.holds if h.first.endswith("coat-1") and "/dye/" in h.first
    ]
    assert max(first_coats) <= line < sum(first_coats)


def test_it_has_a_first_plan_that_holds_and_joins_in_a_second(builds):
    start = perf_counter()
    problem = joined_problem(builds, origin_at=MONDAY_8)
    taken_s = perf_counter() - start
    plan = first_plan(problem)
    assert plan.status is not Status.NONE, plan.conflict
    assert violations(problem, plan) == ()
    assert lateness(problem, {p.id: p for p in plan.placed}) == 0
    assert taken_s < 5, f"joined in {taken_s:.1f} s"


def riveting(problem):
    """Who rivets in the first plan as it is shown, each with who is beside."""
    by_id = {a.id: a for a in problem.activities}
    plan = taught_plan(problem, first_plan(problem))
    assert violations(problem, plan) == ()
    rivets = [p for p in plan.placed if "/rivet/" in p.id]
    return {(p.who, by_id[p.id].way(p.who, p.mode).also) for p in rivets}


def test_the_apprentice_rivets_beside_the_maker_until_it_is_signed_off(week, builds, problem):
    assert riveting(problem) == {("maker", ()), ("apprentice", ("maker",))}
    row = SignedOff(person="apprentice", kind="rivet", how=SkillHow.ALONE, by="maker", at=MONDAY_8)
    shop = with_skills(week.shop, (row,))
    signed = [replace(b, workplace=replace(b.workplace, shop=shop)) for b in builds]
    assert ("apprentice", ()) in riveting(joined_problem(signed, origin_at=MONDAY_8))


def test_what_she_learns_ends_no_piece_later(week, problem):
    """Honestly slower than the maker, as in all she does that nothing else is said of."""
    apprentice = week.shop.called("apprentice")
    assert apprentice.pace_at("rivet") == apprentice.pace == 1.3
    alone = first_plan(problem)
    plan = taught_plan(problem, alone)
    learned = learned_in(problem, plan.placed)
    assert len(learned) >= 10
    assert all("/rivet/" in name for name in learned)
    before, after = ({p.id: p for p in each.placed} for each in (alone, plan))
    assert all(job_end(job, after) <= job_end(job, before) for job in problem.jobs)
    fits = [a.id for a in problem.activities if a.also]
    assert fits
    assert all(before[i] == after[i] for i in fits)


def test_the_help_page_is_there_and_names_every_kind_of_work():
    text = page_text("week")
    assert help_page("week").title == "The shop and its week"
    alone = {StepKind.DRIP, StepKind.DRY, StepKind.CURE}
    listed = re.search(r"by their names: \*(?P<kinds>[^*]+)\*", text)["kinds"]
    assert {" ".join(kind.split()) for kind in listed.split(",")} == {
        kind.value for kind in StepKind if kind not in alone
    }


def test_the_help_pages_examples_are_a_sound_shop(tmp_path):
    blocks = re.findall(r"```toml\n(.*?)```", page_text("week"), re.DOTALL)
    tray = '[trays.zinc]\nname = "Tray"\nlength_mm = 900\nwidth_mm = 500\ndepth_mm = 100\n'
    cop = '[builds.captain_cop]\npattern = "elbow_cop"\n'
    path = tmp_path / "shop.toml"
    path.write_text("\n".join((*blocks, tray, cop)), encoding="utf-8")
    found = read_shop_file(path)
    assert found.findings == ()
    assert [order.id for order in found.orders] == ["night_cop-1", "night_cop-2", "captain_cop"]
    _, told = derive_orders(found.orders, path, read_shelf(), found.shop)
    assert told == ()
