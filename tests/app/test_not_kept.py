"""A wish that the order does not keep is said so: at the step, in the window's reasons, by the check."""

from dataclasses import replace

import pytest
from schemas_cli import schema

from armorplan.app.bench_states import states_now
from armorplan.app.derived import derive_build
from armorplan.app.reason_rows import Reasons
from armorplan.app.reports import order_report
from armorplan.app.snapshots import plain
from armorplan.cli.order_words import order_lines
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.findings import Severity
from armorplan.ledger.state import derive
from armorplan.pattern.own_work import OwnKind, OwnRelation
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part, sketch_treatment
from armorplan.workshop.shop import one_maker

WISH = OwnRelation(
    id="dye_flat",
    kind=OwnKind.BEFORE,
    step="dye/dye.coat-1",
    others=("cut/plate",),
    why="I like it",
)


@pytest.fixture(params=[False, True])
def derived(request):
    drawn = sketch(
        sketch_part("plate"),
        sketch_part("lame"),
        treatments=(sketch_treatment("dye", "plate", "lame"),),
        mirrored=request.param,
    )
    pattern = replace(drawn, own_relations=(WISH,))
    return derive_build(pattern, sketch_shelf(), one_maker(), build="b")


def test_the_check_notes_it_once_with_what_it_gives_way_to(derived):
    notes = [f for f in derived.findings if f.code == "own-relation-not-kept"]
    assert [(note.severity, note.about) for note in notes] == [(Severity.NOTE, ("dye_flat",))]
    assert "'dye_flat' is not kept" in notes[0].text
    assert "gives way to" in notes[0].text
    binding = [r.reason.text.rstrip(".") for r in derived.relations if r.reason.binds]
    assert any(text in notes[0].text for text in binding)


def test_the_order_says_not_kept_and_never_because(derived):
    report = order_report(derived, SystemClock())
    schema("order").validate(plain(report))
    lines = [line.strip() for line in order_lines(report, derived) if "I like it" in line]
    assert lines
    assert all(line.startswith("not kept: I like it") for line in lines)
    told = [r for step in report.steps for r in step.reasons if r.rule == "own:dye_flat"]
    assert told
    assert all(reason.not_kept.startswith("It gives way to: ") for reason in told)


def test_the_window_waits_for_nothing_by_it(derived):
    (relation, *_) = derived.not_kept
    untouched = derive(())
    reasons = Reasons(derived, states_now(derived, untouched, SystemClock().now()), untouched)
    (line,) = [w for w in reasons.why(relation.then).needs if w.rule == "own:dye_flat"]
    assert line.not_kept == derived.not_kept[relation]
    assert line.met


def test_a_wish_that_is_kept_is_a_reason_like_any(derived):
    kept = replace(WISH, step="cut/plate", others=("dye/dye.coat-1",))
    pattern = replace(derived.pattern, own_relations=(kept,))
    anew = derive_build(pattern, sketch_shelf(), one_maker(), build="b")
    assert anew.not_kept == {}
    assert not [f for f in anew.findings if f.code == "own-relation-not-kept"]
