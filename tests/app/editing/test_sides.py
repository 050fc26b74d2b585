"""Left and right with drawings of their own, and folded into one again."""

from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from app.editing.edited import bench, sample, taken, why

from armorplan.app.draft import Draft, drafted
from armorplan.app.editing.holes import add_hole, drop_holes, move_holes
from armorplan.app.editing.pairing import paired
from armorplan.app.editing.parts import drop_parts
from armorplan.app.editing.twin_pieces import twin_of
from armorplan.app.editing.unpairing import unpaired
from armorplan.files.source import read_folder
from armorplan.geometry.gathering import QUICK_TOPICS, measures
from armorplan.geometry.measures import Topic
from armorplan.pattern.choosing import settled
from armorplan.pattern.parts import MadeOn, Part
from armorplan.pattern.pattern import Pattern, Piece
from armorplan.relations.model import Before
from armorplan.steps.model import SETS_JOINT, StepKind


@cache
def parted_of(name: str) -> Draft:
    """A sample whose elbow, and what it is joined to, has two drawings."""
    return taken(unpaired(sample(name), "elbow"))


def pattern(draft: Draft) -> Pattern:
    assert draft.pattern is not None
    return draft.pattern


def mirrored(draft: Draft) -> dict[str, str]:
    return {piece.id: f"{piece.id}_right" for piece in pattern(draft).pieces if piece.mirrored}


@pytest.mark.parametrize(
    "name", ["three_lames", pytest.param("arm_harness", marks=pytest.mark.long)]
)
def test_what_was_parted_and_folded_again_is_what_it_was(name):
    draft = sample(name)
    parted = parted_of(name)
    assert not any(each.mirrored for each in pattern(parted).pieces)
    assert parted.read_findings == draft.read_findings
    folded = taken(paired(parted, {"elbow": "elbow_right"}))
    assert len(folded.told) == len(mirrored(draft)) - 1
    assert folded.values == draft.values
    svg = {name: text for name, text in folded.texts if name.endswith(".svg")}
    assert svg == {name: text for name, text in draft.texts if name.endswith(".svg")}


def test_each_hand_has_the_rows_covers_and_lames_of_the_pair():
    draft = sample("three_lames")
    parted = parted_of("three_lames")
    shelf = bench().shelf
    pair, hands = (
        Counter(
            (m.topic, m.verdict)
            for m in measures(settled(pattern(each)), shelf, QUICK_TOPICS)
            if m.topic is not Topic.POSTS  # which tells alike stacks once
        )
        for each in (draft, parted)
    )
    assert hands == Counter({key: 2 * count for key, count in pair.items()})
    left_end = max(x for part in pattern(draft).parts for x, _ in part.outline)
    for part in pattern(draft).parts:
        assert min(x for x, _ in pattern(parted).part(_right(parted, part.id)).outline) > left_end
        right = pattern(parted).part(_right(parted, part.id))
        assert right.up_deg == (180 - part.up_deg) % 360
        sizes = [hole.diameter_mm for hole in part.holes]
        assert [hole.diameter_mm for hole in right.holes] == pytest.approx(sizes, abs=0.001)


def _right(draft: Draft, part: str) -> str:
    ids = {each.id for each in pattern(draft).parts}
    return next(name for name in (f"{part}_right", f"{part}_right_2") if name in ids)


def test_the_reasons_of_both_hands_are_those_of_the_pair():
    draft = sample("three_lames").checked()
    parted = parted_of("three_lames").checked()
    assert _joining(draft) == _joining(parted)
    assert [f for f in parted.findings if f not in draft.findings] == []


def _joining(draft: Draft) -> Counter[str]:
    """Count by rule the reasons of two steps that punch or set joints."""
    derived = draft.derived
    assert derived is not None
    kinds = {*SETS_JOINT, StepKind.PUNCH}
    return Counter(
        relation.reason.rule.removesuffix("_right")
        for relation in derived.relations
        if isinstance(relation, Before)
        and {derived.work.step(step).kind for step in (relation.first, relation.then)} <= kinds
    )


def test_the_twin_of_a_piece_is_the_one_whose_parts_mirror_its_own():
    draft = parted_of("arm_harness")
    ids = [piece.id for piece in pattern(draft).pieces]
    assert len(ids) == 6
    for piece in ids[::2]:
        twin = twin_of(pattern(draft), piece)
        assert twin
        assert twin.id in {f"{piece}_right", piece.removesuffix("_right")} - {piece}
    alone = replace(pattern(draft), pieces=(Piece(id="elbow", name="Elbow"), *_arms(draft)))
    assert twin_of(alone, "elbow") is None


def _arms(draft: Draft) -> tuple[Piece, ...]:
    return tuple(p for p in pattern(draft).pieces if p.id.startswith("upper_arm"))


def test_what_is_made_on_one_side_or_copied_stays_so():
    draft = drafted(read_folder(_every_word()), bench(), is_hasty=True)
    parted = taken(unpaired(draft, "thigh"))
    read = pattern(parted)
    assert "lantern_loop_right" not in {part.id for part in read.parts}
    assert read.part("lantern_loop").piece == "thigh"
    badge, copy = read.part("watch_badge"), read.part("watch_badge_right")
    by = copy.outline[0][0] - badge.outline[0][0]
    assert [x for x, _ in copy.outline] == pytest.approx(
        [x + by for x, _ in badge.outline], abs=0.05
    )
    assert read.joint("belt_to_right").stack[0] == "plate_hang_right"
    assert read.joint("belt_to_left").stack[0] == "plate_hang"
    assert {s.id: s.piece for s in read.suspensions} == {
        "left_leg": "thigh",
        "right_leg": "thigh_right",
    }
    moves = {c.id: (c.holes, c.move_mm) for c in read.corrections}
    assert moves["trim_low_right"] == (("plate_trim_2_right",), (0.0, -1.5))
    assert [r.others[0] for r in read.own_relations if r.id.startswith("wax_after")] == [
        "own/gild_waves",
        "own/gild_waves_right",
    ]
    folded = taken(paired(parted, mirrored(draft)))
    assert pattern(folded).part("lantern_loop").made_on is MadeOn.LEFT
    assert {j.id: j.made_on for j in pattern(folded).joints}["belt_to_right"] is MadeOn.RIGHT


def _every_word() -> Path:
    return Path(__file__).parents[2] / "golden_patterns" / "form_1" / "every_word"


def test_what_differs_between_the_hands_is_told_in_mm_and_kept_as_an_exception():
    draft = sample("three_lames")
    parted = parted_of("three_lames")
    hole = pattern(parted).part("boss").holes[0].id
    right = next(h.id for h in pattern(parted).part(_right(parted, "boss")).holes)
    moved = taken(move_holes(parted, [right], (1.2, 0.0)))
    strap = pattern(parted).part(_right(parted, "upper_strap"))
    fewer = taken(drop_holes(moved, [strap.holes[0].id]))
    folded = taken(paired(fewer, mirrored(draft)))
    assert [told for told in folded.told if " mm elsewhere" in told] == [
        f'The hole "{hole}" lies 1.2 mm elsewhere on the right; the left holds.'
    ]
    assert any("there on the left only" in told for told in folded.told)
    assert MadeOn.LEFT in {joint.made_on for joint in pattern(folded).joints}


def test_a_part_and_a_hole_that_only_the_right_has_are_kept():
    draft = sample("three_lames")
    parted = parted_of("three_lames")
    boss, strap = _right(parted, "boss"), _right(parted, "upper_strap")
    spot = _middle(pattern(parted).part(boss))
    more = taken(add_hole(parted, boss, spot, diameter_mm=3.0, hole="boss_extra"))
    more = taken(drop_parts(more, ["upper_strap"]))
    folded = taken(paired(more, mirrored(draft)))
    read = pattern(folded)
    assert read.part(strap).made_on is MadeOn.RIGHT
    assert read.part(strap).piece == "elbow"
    assert {j.made_on for j in read.joints if strap in read.stack_parts(j.id)} == {MadeOn.RIGHT}
    known = {hole.id for hole in pattern(draft).part("boss").holes}
    assert [h.diameter_mm for h in read.part("boss").holes if h.id not in known] == [3.0]
    assert any('"boss_extra" of the boss' in told for told in folded.told)


def _middle(part: Part) -> tuple[float, float]:
    xs, ys = [x for x, _ in part.outline], [y for _, y in part.outline]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def test_two_pieces_that_are_no_pair_are_told():
    draft = sample("three_lames")
    assert "from one drawing already" in why(paired(draft, {"elbow": "elbow"}))
    cop = sample("elbow_cop")
    assert "no [pieces.leg]" in why(paired(cop, {"elbow_cop": "leg"}))
    assert "made left and right" in why(unpaired(cop, "elbow_cop"))
