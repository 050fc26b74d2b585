"""Which reasons a build can ask, counted anew here from its relations."""

from dataclasses import replace

import pytest

from armorplan.app.practice_reasons import BuildReasons, reason_name
from armorplan.practice.drill import AnswerForm, Asked, Drill, DrillKind, Level
from armorplan.practice.results import reason_key
from armorplan.relations.index import named_steps

KINDS = (DrillKind.ORDER, DrillKind.FASTENER)
ASKED = Asked(kind=DrillKind.FASTENER, seed=1, focus="cut-before-use")
DRILL = Drill(
    asked=ASKED,
    title="",
    question="",
    choices=(),
    form=AnswerForm.ONE,
    rules=("post-length", "cut-before-use"),
)


@pytest.fixture
def reasons(pairs):
    return BuildReasons(pairs)


def test_what_binds_can_be_asked_as_often_as_it_binds(pairs, reasons):
    bound = [r for r in pairs.relations if r.reason.binds]
    asked = {one.rule: one.binds for one in reasons.askable(KINDS, "")}
    assert asked == {
        rule: sum(r.reason.rule == rule for r in bound) for rule in {r.reason.rule for r in bound}
    }
    (piece,) = pairs.pattern.pieces
    assert {one.rule: one.binds for one in reasons.askable(KINDS, piece.id)} == asked
    assert reasons.askable(KINDS, "no_such_piece") == ()
    assert all(one.kinds == KINDS for one in reasons.askable(KINDS, ""))


def test_a_relation_that_only_steers_is_no_reason_to_be_asked(pairs):
    steered = tuple(
        replace(r, reason=replace(r.reason, overruled=True))
        if r.reason.rule == "cut-before-use"
        else r
        for r in pairs.relations
    )
    reasons = BuildReasons(replace(pairs, relations=steered))
    assert "cut-before-use" not in {one.rule for one in reasons.askable(KINDS, "")}


def test_reasons_of_a_kind_of_step_are_those_between_such_steps(pairs, reasons):
    expected = {
        reason_key(r.reason.rule, pairs.pattern.uuid)
        for r in pairs.relations
        if r.reason.binds and any("/rivet/" in step for step in named_steps(r))
    }
    assert reasons.of_kind("rivet") == expected
    assert reasons.of_kind("sing") == frozenset()


def test_what_an_exercise_was_seen_to_need_can_be_asked_too(reasons):
    assert not reasons.is_known(DrillKind.FASTENER)
    reasons.look_at(DrillKind.FASTENER, DRILL)
    assert reasons.is_known(DrillKind.FASTENER)
    asked = {one.rule: one.binds for one in reasons.askable(KINDS, "")}
    # No relation tells of it, so it stands among the others, neither first nor last.
    others = sorted(binds for rule, binds in asked.items() if rule != "post-length")
    assert others[0] <= asked["post-length"] <= others[-1]
    assert asked["post-length"] in others
    assert "post-length" not in {one.rule for one in reasons.askable((DrillKind.ORDER,), "")}


def test_what_no_exercise_was_found_for_is_told_by_kind_piece_and_level(reasons):
    reasons.never(ASKED)
    assert reasons.is_never(replace(ASKED, seed=9))
    for other in (
        replace(ASKED, focus="dye-oil-finish"),
        replace(ASKED, kind=DrillKind.ORDER),
        replace(ASKED, piece="elbow"),
        replace(ASKED, level=Level.PIECE),
    ):
        assert not reasons.is_never(other)


def test_pieces_hold_their_reasons_by_name(pairs, reasons):
    (piece,) = reasons.pieces()
    assert (piece.piece, piece.name) == (pairs.pattern.pieces[0].id, pairs.pattern.pieces[0].name)
    assert {one.rule for one in piece.reasons} == {one.rule for one in reasons.askable(KINDS, "")}
    assert "Cut before use" in {one.name for one in piece.reasons}


@pytest.mark.parametrize(
    ("rule", "name"),
    [
        ("cut-before-use", "Cut before use"),
        ("post-length", "The post for the stack"),
        ("own:boss_first", "The maker's own: boss first"),
        ("no-such-rule", "No such rule"),
    ],
)
def test_every_reason_has_a_name_for_people(rule, name):
    assert reason_name(rule) == name
