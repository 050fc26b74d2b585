"""A knee and greave that a maker drew: it loads whole, whatever is chosen, and every post is on sale.

The posts are reckoned by hand: an ounce of leather is 1/64 inch, leather gives 7.5 % when it is
pinched (common practice, no source), washers do not, and over the pinched stack a post stands by
what its kind needs. The upper end of leather sold as a range counts.
"""

from collections import Counter
from datetime import UTC, datetime
from itertools import product
from pathlib import Path

import pytest

from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.findings import Severity
from armorplan.needs.fasteners import post_needs
from armorplan.pattern.joining import FormKind, JointKind, Motion, Route
from armorplan.schedule.building import problem_from
from armorplan.schedule.checker import violations
from armorplan.schedule.planning import first_plan
from armorplan.schedule.workplace import Workplace
from armorplan.steps.model import SETS_JOINT, StepKind
from armorplan.workshop.shop import one_maker

FOLDER = Path(__file__).parents[1] / "patterns" / "knee"
SHELF = read_shelf()
SHOP = one_maker("UTC")
CHOICES = [
    dict(zip(("rim", "look", "bath"), chosen, strict=True))
    for chosen in product(("folded", "cut"), ("decorated", "plain"), ("wiped", "dipped"))
]
OZ = 25.4 / 64
COP, GREAVE, STRAP, LOAD, TAB, CREST = 9 * OZ, 12 * OZ, 8 * OZ, 8 * OZ, 2.0, 2.4
TUBULAR, BURR, DOUBLE, TURNING, CLAMPING = (1.6, 3.2), (6.1, 16), (1, 3), (0.2, 0.5), (-0.5, 0)
ON_SALE = {
    TUBULAR: (6.4, 7.9, 9.5, 11.1, 12.7, 15.9, 19.1),
    BURR: (9.5, 12.7, 15.9, 19.1, 22.2),
    DOUBLE: (6, 8, 10, 12, 14, 16),
    TURNING: (3, 3.2, 4, 4.8, 5, 6, 6.4, 8, 9.5, 10, 11.1, 12, 12.7, 14, 15, 16),
    CLAMPING: (3, 3.2, 4, 4.8, 5, 6, 6.4, 8, 9.5, 10, 11.1, 12, 12.7, 14, 15, 16),
}
POSTS = {
    # joint: layers, washers, allowance, pinched stack, post
    "cop_close_1": ((COP, COP), 0, TUBULAR, 6.608, 9.5),
    "cop_close_2": ((COP, COP), 0, TUBULAR, 6.608, 9.5),
    "cop_close_3": ((COP, COP, STRAP), 0, TUBULAR, 9.545, 12.7),
    "cop_close_4": ((COP, COP), 0, TUBULAR, 6.608, 9.5),
    "tab_1": ((TAB, TAB, COP), 0, TUBULAR, 7.004, 9.5),
    "tab_2": ((TAB, TAB, COP), 0, TUBULAR, 7.004, 9.5),
    "slide_in": ((COP, COP), 1.0, TURNING, 7.608, 8),
    "slide_out": ((COP, COP), 1.0, TURNING, 7.608, 8),
    "turn_in": ((COP, COP), 1.0, TURNING, 7.608, 8),
    "turn_out": ((COP, COP), 1.0, TURNING, 7.608, 8),
    "hang_fix_1": ((LOAD, COP), 0, BURR, 6.241, 12.7),
    "hang_fix_2": ((LOAD, COP), 0, BURR, 6.241, 12.7),
    "crest_fix_1": ((CREST, COP), 0, DOUBLE, 5.524, 8),
    "crest_fix_2": ((CREST, COP), 0, DOUBLE, 5.524, 8),
    "hang_in": ((COP, GREAVE), 0.6, CLAMPING, 8.309, 8),
    "hang_out": ((COP, GREAVE), 0.6, CLAMPING, 8.309, 8),
    "greave_strap_fix": ((STRAP, GREAVE), 0, TUBULAR, 7.342, 9.5),
}


def derived(chosen=None):
    return derive_folder(FOLDER, SHELF, SHOP, chosen=chosen or {})


@pytest.fixture(scope="module")
def knee():
    return derived()


@pytest.mark.parametrize("chosen", CHOICES, ids=lambda c: "-".join(c.values()))
def test_it_loads_without_error_or_warning_whatever_is_chosen(chosen):
    found = derived(chosen)
    assert {f.severity for f in found.findings} <= {Severity.NOTE}
    assert found.order
    assert sorted(found.order) == sorted(step.id for step in found.work.steps)


@pytest.mark.parametrize("joint", POSTS)
def test_the_table_of_posts_is_reckoned_right(joint):
    layers, washer, over, pinched, post = POSTS[joint]
    grip = sum(layers) * 0.925 + washer
    assert grip == pytest.approx(pinched, abs=0.001)
    fitting = [n for n in ON_SALE[over] if grip + over[0] <= n <= grip + over[1]]
    assert fitting[0] == post


def test_every_riveted_or_screwed_hole_has_its_post_on_sale(knee):
    posted = {j.id for j in knee.pattern.joints if j.kind in {JointKind.RIVET, JointKind.SCREW}}
    assert posted == POSTS.keys()
    rows = post_needs(knee.assembly, SHELF)
    found = {joint: row.length_mm for row in rows for joint in row.joints}
    assert found == {
        f"{joint}.{side}": post
        for joint, (*_, post) in POSTS.items()
        for side in ("left", "right")
    }


@pytest.mark.parametrize("joint", POSTS)
def test_the_step_names_its_stack_and_post(knee, joint):
    *_, pinched, post = POSTS[joint]
    for side in ("left", "right"):
        step = knee.work.setting(f"{joint}.{side}")
        assert f"{pinched:.1f} mm pinched" in step.detail
        assert f"post {post:g} mm" in step.detail


def test_posts_are_counted_for_both_legs(knee):
    bought = Counter()
    for row in post_needs(knee.assembly, SHELF):
        bought[row.fastener, row.length_mm] += len(row.joints)
    assert bought == {
        ("tubular_9", 9.5): 12,
        ("tubular_9", 12.7): 2,
        ("copper_burr_3_4", 12.7): 4,
        ("double_cap_9", 8): 4,
        ("screw_post_turning", 8): 8,
        ("screw_post_fixed", 8): 4,
    }


def test_the_cop_is_joined_to_itself_and_drawn_up_by_its_seam(knee):
    pattern = knee.pattern
    (closure,) = [form for form in pattern.forms if form.kind is FormKind.CLOSURE]
    assert (closure.route, closure.parts, closure.seams) == (Route.BY_SEAM, ("cop",), ("cop_row",))
    for joint in ("cop_close_1", "cop_close_2", "cop_close_4"):
        assert tuple(pattern.stack_parts(joint)) == ("cop", "cop")


def test_the_closing_strap_shares_a_hole_within_the_seam(knee):
    assert tuple(knee.pattern.stack_parts("cop_close_3")) == ("cop", "cop", "closing_strap")
    (row,) = knee.pattern.seams
    assert "cop_close_3" in row.joints


def test_the_tab_is_folded_round_its_buckle_and_riveted_through_twice(knee):
    assert list(knee.pattern.stack_parts("tab_1")).count("buckle_tab") == 2
    place = {step: at for at, step in enumerate(knee.order)}
    for side in ("left", "right"):
        put_on = place[f"knee/knee/{side}/put-on/buckle.{side}"]
        folded = place[f"knee/knee/{side}/curve-by-hand/tab_fold.{side}"]
        assert put_on < folded < place[f"knee/knee/{side}/rivet/tab_1.{side}"]


def test_the_strap_is_threaded_before_the_crest_closes_over_its_slot(knee):
    (thread,) = knee.pattern.threads
    assert thread.closed_by == ("crest_fix_1", "crest_fix_2")
    place = {step: at for at, step in enumerate(knee.order)}
    for side in ("left", "right"):
        closed = [place[f"knee/knee/{side}/rivet/{j}.{side}"] for j in thread.closed_by]
        assert place[f"knee/knee/{side}/thread/hang_through.{side}"] < max(closed)


@pytest.mark.parametrize(("rim", "folds"), [("folded", 2), ("cut", 0)])
def test_the_rim_is_folded_only_where_that_is_chosen(rim, folds):
    found = derived({"rim": rim})
    assert (
        sum("rim_fold" in step.id.rsplit("/", 1)[-1] for step in found.work.of_kind(StepKind.FORM))
        == folds
    )


def test_two_joints_slide_and_two_turn(knee):
    motions = Counter(joint.motion for joint in knee.pattern.joints)
    assert (motions[Motion.SLIDING], motions[Motion.TURNING]) == (2, 2)
    assert knee.pattern.hole("lame_slot_in").travel_mm > 0


def test_the_cop_row_is_set_from_end_to_end_in_the_order(knee):
    setting = [step for step in knee.order if knee.work.step(step).kind in SETS_JOINT]
    for side in ("left", "right"):
        row = [s for s in setting if f"/{side}/rivet/cop_close_" in s]
        assert [s.rsplit("_", 1)[-1] for s in row] == [f"{n}.{side}" for n in (1, 2, 3, 4)]


def test_the_cop_row_is_set_from_end_to_end_in_the_plan(knee):
    problem = problem_from(
        knee.work,
        knee.relations,
        Workplace(shop=SHOP, shelf=SHELF),
        origin_at=datetime(2026, 11, 30, 9, tzinfo=UTC),
        order=knee.order,
    )
    plan = first_plan(problem)
    assert violations(problem, plan) == ()
    start = {placed.id: placed.start_min for placed in plan.placed}
    for side in ("left", "right"):
        row = [start[f"knee/knee/{side}/rivet/cop_close_{n}.{side}"] for n in (1, 2, 3, 4)]
        assert row == sorted(row)
        crest = [start[f"knee/knee/{side}/rivet/crest_fix_{n}.{side}"] for n in (1, 2)]
        assert crest == sorted(crest)
        assert crest[1] < row[0] or row[-1] < crest[0]
