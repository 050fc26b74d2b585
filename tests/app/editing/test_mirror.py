"""A piece turned over in its drawing: the same piece of the other hand, and back again."""

from dataclasses import replace

import pytest
from app.editing.edited import sample, taken, why

from armorplan.app.draft import Draft
from armorplan.app.editing.mirror import middles_mm, turned_over
from armorplan.geometry.gathering import QUICK_TOPICS, measures
from armorplan.pattern.choosing import settled
from armorplan.pattern.pattern import Pattern


def pattern(draft: Draft) -> Pattern:
    assert draft.pattern is not None
    return draft.pattern


@pytest.mark.parametrize(
    ("name", "piece"),
    [
        ("elbow_cop", "elbow_cop"),
        ("collar", "collar"),
        pytest.param("arm_harness", "lower_arm", marks=pytest.mark.long),
    ],
)
def test_turning_over_twice_changes_nothing(name, piece):
    draft = sample(name)
    once = taken(turned_over(draft, piece))
    assert once != draft
    assert dict(taken(turned_over(once, piece)).texts) == dict(draft.texts)


def test_the_other_hand_has_the_same_rows_covers_and_lames():
    cop = sample("elbow_cop")
    told = {"name": "drawn low", "holes": ["left_2"], "move_mm": [0.5, -1.5]}
    cop = taken(cop.add_entry("corrections", "low", told))
    made = taken(turned_over(cop, "elbow_cop"))
    shelf = cop.bench.shelf
    before, after = (measures(settled(pattern(d)), shelf, QUICK_TOPICS) for d in (cop, made))
    assert [(m.id, m.verdict) for m in before] == [(m.id, m.verdict) for m in after]
    assert made.read_findings[0].text.count("left")  # what was moved right is moved left
    middles = middles_mm(list(pattern(cop).parts))
    for part in pattern(cop).parts:
        turned = pattern(made).part(part.id)
        assert turned.up_deg == (180 - part.up_deg) % 360
        by = 2 * middles[part.id]
        holes = {hole.id: (by - hole.centre[0], hole.centre[1]) for hole in part.holes}
        assert {h.id: h.centre for h in turned.holes} == {
            name: pytest.approx(centre, abs=0.002) for name, centre in holes.items()
        }
        xs = sorted(by - x for x, _ in part.outline)
        assert sorted(x for x, _ in turned.outline) == pytest.approx(xs, abs=0.05)


def test_what_is_copied_stays_and_nothing_else_is_touched():
    arm = sample("arm_harness")
    made = taken(turned_over(arm, "elbow"))
    copied = [part for part in pattern(arm).parts if part.piece == "elbow" and part.copied]
    others = [part for part in pattern(arm).parts if part.piece != "elbow"]
    for part in (*copied, *others):
        assert pattern(made).part(part.id) == part
    turned = {f.id: f.axis for f in pattern(made).forms}
    kept = {f.id: f.axis for f in pattern(arm).forms}
    own = {part.id for part in pattern(arm).parts if part.piece == "elbow" and not part.copied}
    for form in pattern(arm).forms:
        if form.axis and own.isdisjoint(form.parts):
            assert turned[form.id] == kept[form.id]
    assert replace(pattern(made), parts=(), forms=(), content_hash="") == replace(
        pattern(arm), parts=(), forms=(), content_hash=""
    )
    assert "no [pieces.leg]" in why(turned_over(arm, "leg"))
