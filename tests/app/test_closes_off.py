"""The line before a blow: what a step closes off, on tubes small enough to know by heart."""

from functools import cache
from time import process_time

import pytest

from armorplan.app.closes_off import closes_off
from armorplan.app.closing_words import NOTHING, NOTHING_ELSE
from armorplan.app.derived import derive_build
from armorplan.app.reach_track import reach_track
from armorplan.files.catalogue import read_shelf
from armorplan.rules.reach_sketches import sketch_tube
from armorplan.steps.model import StepKind
from armorplan.steps.naming import lowered
from armorplan.workshop.shop import one_maker

SPOTS = {
    400.0: (50.0, 150.0, 250.0, 350.0),
    700.0: (50.0, 150.0, 250.0, 350.0, 450.0, 550.0, 650.0),
}
MOST_S = 0.010
ALONE = NOTHING_ELSE[StepKind.RIVET]


@cache
def tube(long_mm):
    """Return a tube with a strap riveted in its middle, and reach along its order."""
    pattern = sketch_tube(long_mm=long_mm, spots_mm=SPOTS[long_mm], strap_mm=long_mm / 2)
    derived = derive_build(pattern, read_shelf(), one_maker("UTC"), build="tube-1")
    return derived, reach_track(derived)


@pytest.fixture(scope="module")
def cop(begun):
    derived = begun[1].derived
    return derived, reach_track(derived)


def step_of(derived, joint):
    return derived.work.setting(joint).id


def before_last_of_row(long_mm):
    """Return the tube, all of its row but the last rivet, and the step of that one."""
    derived, order = tube(long_mm)
    row = [f"row_{at}" for at in range(len(SPOTS[long_mm]))]
    others = [s.id for s in derived.work.steps if not derived.work.sets(s)]
    return derived, order, row[:-1], step_of(derived, row[-1]), others


def test_a_joint_that_no_tool_gets_to_any_more():
    derived, order, made, last, others = before_last_of_row(700.0)
    found = closes_off(derived, order, made, (last,), done=others)
    assert found.text.startswith(
        "After this, 1 joint is out of reach of every tool you have: 'Rivet"
    )
    assert found.joints == ("on",)
    assert found.by == (last,)
    assert found.is_grave
    assert not any("too late" in line for line in found.more)


def test_a_joint_that_only_the_longest_tool_gets_to():
    derived, order, made, _, others = before_last_of_row(400.0)
    horn = next(tool for tool in derived.shelf.tools if tool.id == "horn_anvil").name
    told = [
        closes_off(derived, order, made[:at], (step_of(derived, joint),), done=others).text
        for at, joint in enumerate(made)
    ]
    words = f"After this, 1 joint is out of reach of everything but the {lowered(horn)}: 'Rivet"
    # The first rivet bars the anvils of the bench, the second the bench block of 160 mm.
    assert told[1].startswith(words)
    assert not told[0].startswith(words)
    assert told[2] == ALONE


def test_a_rivet_hidden_under_a_boss_before_it_is_set_comes_too_late(cop):
    derived, order = cop
    under = derived.assembly.covers[0].joint
    others = [s for s in derived.order if under not in derived.work.sets(derived.work.step(s))]
    last = step_of(derived, "boss_right")
    found = closes_off(
        derived, order, ["boss_left"], (last,), done=[s for s in others if s != last]
    )
    assert found.is_grave
    title = derived.work.setting(under).title
    assert found.text == f"After this, 1 head lies hidden and not set: '{title}'. Set it first."


def test_the_first_rivet_of_a_boss_says_what_the_last_one_will_hide(cop):
    derived, order = cop
    under = [cover.joint for cover in derived.assembly.covers]
    covered = {step_of(derived, joint) for joint in under}
    first, last = step_of(derived, "boss_left"), step_of(derived, "boss_right")
    done = [s for s in derived.order if s not in {first, last, *covered}]
    found = closes_off(derived, order, (), (first,), done=done)
    assert found.text == (
        "After the next one, 2 heads lie hidden and not set: 2 of 'Rivet middle petal and lace "
        "tab'. Set those before that."
    )
    assert set(found.joints) >= set(under)
    assert not found.is_grave
    # Set by then, they are hidden as they have to be, and nobody is stopped.
    alone = closes_off(derived, order, under, (first,), done=done)
    assert alone.text == ALONE


def test_a_row_says_from_its_first_rivet_which_joint_its_last_puts_out_of_reach():
    derived, order = tube(700.0)
    others = [s.id for s in derived.work.steps if not derived.work.sets(s)]
    row = [f"row_{at}" for at in range(len(SPOTS[700.0]))]
    told = [
        closes_off(derived, order, row[:at], (step_of(derived, joint),), done=others)
        for at, joint in enumerate(row)
    ]
    out = "1 joint is out of reach of every tool you have: 'Rivet"
    assert [one.text.partition(out)[0] for one in told] == [
        *["After the last of this row, "] * 5,
        "After the next one, ",
        "After this, ",
    ]
    assert [one.is_grave for one in told] == [False] * 6 + [True]


def test_nothing_is_closed_off_once_it_is_set():
    derived, order, made, last, others = before_last_of_row(700.0)
    assert closes_off(derived, order, [*made, "on"], (last,), done=others).text == ALONE


def test_a_step_that_comes_too_late_is_named():
    derived, order, made, last, others = before_last_of_row(700.0)
    fit = next(step for step in derived.work.of_kind(StepKind.DRY_FIT))
    left = [one for one in others if one != fit.id]
    found = closes_off(derived, order, [*made, "on"], (last,), done=left)
    assert not {NOTHING, ALONE}.intersection((found.text, *found.more))
    first = derived.work.setting("on")
    late = closes_off(derived, order, (), (first.id,), done=left)
    assert late.text == f"After this it is too late for '{fit.title}'."
    assert late.is_grave


def test_heads_under_a_boss_are_hidden_for_good(cop):
    derived, order = cop
    under = [cover.joint for cover in derived.assembly.covers]
    last = step_of(derived, "boss_right")
    found = closes_off(derived, order, [*under, "boss_left"], (last,), done=derived.order)
    assert any(
        line.startswith("This hides 2 heads for good: ") for line in (found.text, *found.more)
    )
    half = closes_off(derived, order, under, (last,), done=())
    assert not any("hides" in line for line in (half.text, *half.more))


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (StepKind.CUT, "what is cut stays cut"),
        (StepKind.PUNCH, "a hole stays a hole"),
        (StepKind.DYE, "dye only ever gets darker"),
    ],
)
def test_what_is_for_good_is_said_before_it_is_done(cop, kind, words):
    derived, order = cop
    step = derived.work.of_kind(kind)[0]
    done = [one.id for one in derived.work.steps if one.id != step.id]
    assert closes_off(derived, order, (), (step.id,), done=done).text == (
        f"This cannot be taken back: {words}."
    )


def test_in_its_own_order_nothing_comes_too_late_and_each_line_takes_no_time(cop):
    derived, order = cop
    made, done, spent = [], [], []
    for one in derived.order:
        began = process_time()
        found = closes_off(derived, order, made, (one,), done=done)
        spent.append(process_time() - began)
        assert not found.is_grave, found.text
        made += derived.work.sets(derived.work.step(one))
        done.append(one)
    assert sum(spent) / len(spent) <= MOST_S
