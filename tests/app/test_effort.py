"""The order of least effort of whole patterns: what it takes, and what the other order would."""

from itertools import permutations
from time import perf_counter

import pytest

from armorplan.app.derived import derive_build
from armorplan.app.effort_rank import effort_of, effort_places
from armorplan.app.effort_report import effort_report, effort_words
from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.kernel.units import about_words
from armorplan.orders.effort_bits import cost_of
from armorplan.orders.least_effort import least_effort
from armorplan.steps.model import SETS_JOINT
from armorplan.workshop.shop import one_maker

SAMPLES = ("elbow_cop", "collar", "three_lames", "arm_harness")


@pytest.fixture(scope="module", params=SAMPLES)
def derived(request):
    return derive_folder(samples_folder() / request.param, read_shelf(), one_maker("UTC"))


def sample(name):
    return derive_folder(samples_folder() / name, read_shelf(), one_maker("UTC"))


def test_the_order_of_the_samples_takes_no_more_than_the_least(derived):
    report = effort_report(derived.effort, derived.order)
    assert report.proved
    assert report.bound_min == report.least_min
    assert report.bound_min <= report.work_min <= 1.02 * report.bound_min
    assert report.change_bound_min <= report.change_min


def test_every_joint_is_in_it_once(derived):
    joints = [joint.id for joint in derived.pattern.joints]
    assert sorted(derived.effort.joints) == sorted(joints)


def test_it_is_proved_in_time(derived):
    start = perf_counter()
    assert least_effort(derived.effort.problem).proved
    assert perf_counter() - start < 2


def test_sides_are_worked_alike(derived):
    plain = {
        step.id: derived.assembly.joint(step.joints[0]).joint.id
        for step in derived.work.of_kind(*SETS_JOINT)
    }
    by_side = {}
    for step in derived.order:
        if step in plain:
            side = derived.work.step(step).side
            by_side.setdefault(side, []).append(plain[step])
    sides = [joints for side, joints in by_side.items() if side.value != "single"]
    assert all(joints == sides[0] for joints in sides)


def test_places_are_dealt_out_anew_and_none_is_lost(derived):
    listed = {step.id: (0, at, 0, 0) for at, step in enumerate(derived.work.steps)}
    effort = effort_of((derived.assembly, derived.shelf, derived.work), derived.relations, listed)
    places = effort_places(effort, listed)
    assert sorted(places.values()) == sorted(listed[s.id][:2] for s in effort.steps.values())


def test_no_order_of_the_elbow_cop_takes_less_than_the_one_found():
    effort = sample("elbow_cop").effort
    ids = [atom.id for atom in effort.problem.atoms]
    assert len(ids) <= 8
    cost, tried = cost_of(effort.problem), []
    for order in permutations(ids):
        place = {atom: at for at, atom in enumerate(order)}
        hard = all(place[a] < place[b] for a, b in effort.problem.before) and all(
            any(place[a] < place[b] for b in of) for a, of in effort.problem.before_all
        )
        if hard:
            tried.append(cost(order).work_min)
    assert min(tried) == pytest.approx(effort.found.spent.work_min)
    assert max(tried) > min(tried)


def test_what_sits_inside_comes_before_the_rows_with_no_relation_to_say_so():
    """Listed rows first, a boss and a tab still go on before the cup is shut: only effort asks it."""
    derived = sample("elbow_cop")
    names = {step.id: step.joints[0] for step in derived.work.of_kind(*SETS_JOINT)}
    listed = {
        step.id: (0, at + 1000 * ("row" not in names.get(step.id, "")), 0, 0)
        for at, step in enumerate(derived.work.steps)
    }
    effort = effort_of((derived.assembly, derived.shelf, derived.work), (), listed)
    assert [atom.id for atom in effort.problem.atoms][:2] == ["left_row_1", "right_row_1"]
    place = {joint: at for at, joint in enumerate(effort.joints)}
    last_row = max(place["left_row_1"], place["right_row_1"])
    assert place["boss_left"] < last_row
    assert place["tab_top"] < last_row
    rows_first = [step.id for step in sorted(derived.work.steps, key=lambda s: listed[s.id])]
    assert effort.spent_in(rows_first).work_min > effort.found.spent.work_min


def test_the_bench_tells_the_same_minutes(bench):
    derived = bench.session.derived
    report = effort_report(derived.effort, derived.order)
    assert report.proved
    assert report.least_min <= report.work_min
    told = bench.session.effort_told()
    assert told == effort_words(report)
    assert f"takes {about_words(report.work_min)} in this order" in told


def test_the_words_hold_the_numbers_and_the_proof():
    derived = sample("arm_harness")
    said = effort_words(effort_report(derived.effort, derived.order))
    assert "No order that works each row in one go takes less; that is proved." in said


def test_deriving_again_gives_the_same_order():
    derived = sample("elbow_cop")
    again = derive_build(derived.pattern, derived.shelf, derived.shop, build=derived.pattern.slug)
    assert again.order == derived.order
