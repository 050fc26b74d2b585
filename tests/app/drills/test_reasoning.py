"""The second question: one reason decides; the others are true and settle nothing, or are not true."""

import re
from dataclasses import replace

import pytest
from app.drills.drill_sources import asked, source_of, tube

from armorplan.app.drills.first_truth import decided
from armorplan.app.drills.reasoning import why_asked
from armorplan.app.drills.registry import KINDS
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.app.drills.source import DrillSource
from armorplan.app.drills.untrue import untrue
from armorplan.practice.drill import Because, DrillKind
from armorplan.relations.index import index_relations, named_steps
from armorplan.relations.model import Quantity

SETTLED = "True, but it is seen to already"
ASIDE = "True, but it speaks of"
FALSE = "Not true"


def rightly(source, kind, seed, **also):
    drill = drill_for(source, asked(kind, seed, **also))
    if drill is None:
        return None, None
    return drill, judged(source, drill, solved(source, drill).answer)


def question(source, kind, seed, **also):
    drill, found = rightly(source, kind, seed, **also)
    return drill, found, found and why_asked(source, drill, found)


@pytest.fixture(scope="module", params=["elbow_cop", "three_lames"])
def asked_why(request):
    """Return of each kind two exercises answered rightly, with the second question."""
    source = source_of(request.param)
    found = [question(source, kind, seed) for kind in KINDS for seed in range(2)]
    return source, [(drill, judged, why) for drill, judged, why in found if why]


def test_one_of_three_or_four_decides_and_each_has_its_why(asked_why):
    _, questions = asked_why
    assert len({drill.asked.kind for drill, _, _ in questions}) >= len(KINDS) - 1
    for drill, found, why in questions:
        assert 3 <= len(why.choices) <= 4
        ids = [choice.id for choice in why.choices]
        assert [name for name, _ in why.because] == ids
        right = next(choice for choice in why.choices if choice.id == why.right)
        assert right.title in {because.text for because in found.because}
        assert len({choice.title for choice in why.choices}) == len(ids), drill.asked
        for name, words in why.because:
            begins = (SETTLED, ASIDE, FALSE)
            assert words.startswith(begins) == (name != why.right)


def test_what_settles_nothing_is_true_and_touches_no_answer(asked_why):
    source, questions = asked_why
    derived = source.derived
    by_text = {}
    for relation in derived.relations:
        by_text.setdefault(relation.reason.text, []).append(relation)
    for drill, found, why in questions:
        steps = {step for choice in drill.choices for step in choice.steps}
        told = dict(why.because)
        for choice in why.choices:
            words = told[choice.id]
            if words.startswith(FALSE):
                assert choice.title not in by_text
            if not words.startswith((SETTLED, ASIDE)):
                continue
            true = [r for r in by_text[choice.title] if set(choice.steps) == named_steps(r)]
            assert true
            assert not any(relation.reason.overruled for relation in true)
            assert choice.title not in {because.text for because in found.because}
            if words.startswith(SETTLED):
                assert any(relation.first in drill.done for relation in true)
            else:
                assert steps.isdisjoint(choice.steps)


def test_taking_out_what_settles_nothing_leaves_the_answer():
    source = source_of("elbow_cop")
    for seed in range(3):
        drill, _, why = question(source, DrillKind.FIRST, seed)
        steps = [choice.steps[0] for choice in drill.choices]
        before = decided(source.derived, steps, drill.done)
        told = dict(why.because)
        aside = {c.title for c in why.choices if told[c.id].startswith((SETTLED, ASIDE))}
        index = source.derived.index
        kept = tuple(r for r in index.relations if r.reason.text not in aside)
        assert len(kept) < len(index.relations)
        thinner = replace(source.derived, index=index_relations(index.steps, kept))
        assert decided(thinner, steps, drill.done) == before


def test_it_is_asked_the_same_again_and_not_after_a_wrong_answer():
    source = source_of("elbow_cop")
    drill, found, why = question(source, DrillKind.FIRST, 0)
    assert why_asked(source, drill, found) == why
    wrong = next(c for c in drill.choices if c.id not in found.nearest)
    assert why_asked(source, drill, judged(source, drill, (wrong.id,))) is None


def test_the_true_reason_has_no_fixed_place():
    source = source_of("elbow_cop")
    kinds = (DrillKind.FIRST, DrillKind.FASTENER)
    whys = [question(source, kind, seed)[2] for kind in kinds for seed in range(5)]
    assert len({why.right for why in whys}) > 1


def test_a_joint_within_reach_could_wait():
    """What no tool gets to: the false number lies within the reach that the reason itself names."""
    source = tube(250.0)
    _, found, why = question(source, DrillKind.FIRST, 0, focus="reach-before-closed")
    told = dict(why.because)
    false = next(c for c in why.choices if told[c.id].startswith(FALSE))
    said = re.search(r"at least (\d+) mm.*of (\d+) mm", false.title)
    assert float(said[1]) <= float(said[2]) == 250.0
    true = {number.name: number.value for number in found.because[0].exact}
    assert true["a straight tool needs at least"] > true["reach"] == 250.0


def test_a_false_sum_does_not_lead_to_its_post():
    source = source_of("three_lames")
    for seed in range(4):
        _, _, why = question(source, DrillKind.FASTENER, seed)
        told = dict(why.because)
        false = next(c for c in why.choices if told[c.id].startswith(FALSE))
        least, most = map(
            float, re.search(r": ([\d.]+) to ([\d.]+) mm\. So", false.title).groups()
        )
        post = float(re.search(r"So ([\d.]+) mm holds", false.title)[1])
        assert not least <= post <= most


def test_a_head_hardly_covered_and_a_few_seconds_are_no_reason():
    cover = because("Boss lies on it (over 32 % of its head).", ("head covered", 32.4, "%"))
    assert "over 2 % of" in untrue(cover).text
    price = because("It costs about 40 seconds more.", ("costs more", 0.63, "min"))
    assert "about 10 seconds more" in untrue(price).text
    assert "40 seconds" in untrue(price).why_not
    assert untrue(because("It costs about 10 seconds more.", ("costs more", 0.2, "min"))) is None


def test_a_wait_longer_than_the_plan_s_would_not_be_kept():
    wait = because(
        "It begins 64 min after; 60 min are asked for.",
        ("wait in this plan", 64.0, "min"),
        ("least wait", 60.0, "min"),
    )
    assert untrue(wait).text == "It begins 64 min after; 79 min are asked for."
    assert untrue(because("It begins 64 min after.", ("wait in this plan", 64.0, "min"))) is None


@pytest.mark.parametrize(("takes", "passed"), [(300.0, 200.0), (100.0, 200.0)])
def test_what_dries_takes_the_other_side_of_what_has_passed(takes, passed):
    dries = because(
        f"So 8 min did what {passed:.0f} min do there, of {takes:.0f} min that it takes.",
        ("needed at the reference", takes, "min"),
        ("passed at the reference", passed, "min"),
    )
    told = re.search(r"of (?:(\d+) h)? ?(?:(\d+) min)? ?that it takes", untrue(dries).text)
    false = 60 * int(told[1] or 0) + int(told[2] or 0)
    assert (false > passed) != (takes > passed)


def because(text, *numbers):
    exact = tuple(Quantity(name=n, value=v, unit=u) for n, v, u in numbers)
    return Because(rule="any", name="Any", text=text, exact=exact)


def test_a_build_with_too_few_reasons_asks_nothing():
    source = source_of("elbow_cop")
    drill, found, _ = question(source, DrillKind.FIRST, 1)
    index = source.derived.index
    bare = replace(source.derived, index=index_relations(index.steps, ()))
    assert why_asked(DrillSource(derived=bare), drill, found) is None
