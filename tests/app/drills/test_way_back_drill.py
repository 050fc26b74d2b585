"""'The way back': the cheapest way that leads back is right, by a search of its own from what stands."""

from collections import Counter
from dataclasses import replace

import pytest
from app.drills.way_back_sets import MADE, SEEDS, asked, every_drill, source, verdicts
from orders.recovery.build_scenes import SAMPLES, derived_sample
from orders.recovery.random_recoveries import mild_first

from armorplan.app.drills.setting import answer_from, drill_for, judged, solved
from armorplan.app.drills.source import DrillSource
from armorplan.app.drills.way_back_drill import MAKER, WAYS_OFFERED
from armorplan.app.drills.way_back_prices import MARGIN_MIN, MARGIN_SHARE
from armorplan.app.mending import WAY_BACK
from armorplan.app.ways_back import ways_back
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.recovery.model import TICKS
from armorplan.practice.drill import AnswerForm
from armorplan.relations.model import Before, BeforeAll


@pytest.fixture(scope="module")
def drills():
    """Return by sample its exercises with what each of their answers is worth."""
    return every_drill()


MOST_MOVES = 14
"""Of so many moves all states are walked in no time."""


@pytest.mark.parametrize("name", SAMPLES)
def test_every_sample_holds_exercises_and_none_is_trivial(name, drills):
    assert len(drills[name]) == len(SEEDS)
    for drill, worth in drills[name]:
        right = [one for one in worth.values() if one.right]
        assert drill.form is AnswerForm.ONE
        assert 3 <= len(drill.choices) <= WAYS_OFFERED[drill.asked.level]
        assert 1 <= len(right) < len(worth)
        assert len({one.title for one in drill.choices}) == len(drill.choices)
        assert drill.given
        assert drill.hint


def test_neither_the_place_nor_the_kind_of_way_gives_the_answer_away(drills):
    places, words = Counter(), Counter()
    for name in SAMPLES:
        for drill, worth in drills[name]:
            first = next(c for c in drill.choices if worth[c.id].right)
            places[drill.choices.index(first)] += 1
            words[first.title.split()[0]] += 1
    assert len(places) >= 3
    assert max(places.values()) < 0.6 * sum(places.values())
    assert max(words.values()) < 0.5 * sum(words.values())


@pytest.mark.parametrize("name", SAMPLES)
def test_the_same_asked_makes_the_same(name, drills):
    for drill, _ in drills[name][:1]:
        fresh = DrillSource(derived=replace(derived_sample(name)))
        assert MAKER.make(fresh, drill.asked) == drill


@pytest.mark.parametrize("name", SAMPLES)
def test_a_search_from_what_stands_finds_the_same_cheapest_way(name, drills):
    for drill, worth in drills[name]:
        mistakes = MADE[name, drill.asked].trouble.mistakes
        assert bool(mistakes) is (drill.rules == (WAY_BACK,))
        found = ways_back(derived_sample(name), drill.done, mistakes).ways
        right = {drill.choice(one).title for one, each in worth.items() if each.right}
        assert any(title.startswith(found[0].title) for title in right)
        most = found[0].price + max(MARGIN_MIN, MARGIN_SHARE * found[0].price)
        near = {way.title for way in found if way.price <= most and not way.is_risky}
        for title in right - _more_than_needed(drill, worth):
            assert title.startswith(tuple(near))


def _more_than_needed(drill, worth):
    """Return right ways that the search itself does not tell: they open a little more than they must."""
    return {
        drill.choice(one).title
        for one, each in worth.items()
        if each.right and "near enough" in each.sentence
    }


def test_what_is_said_to_halt_is_barred_by_a_relation_of_the_build(drills):
    """Told by the relations alone, without the search: all that comes behind it still stands."""
    halted = 0
    for name in SAMPLES:
        relations = derived_sample(name).index.relations
        for _, worth in drills[name]:
            for each in worth.values():
                last = each.play[-1]
                if last.said.startswith("Here it halts") and last.amiss:
                    halted += 1
                    stands = set(last.done)
                    assert any(_is_shut(r, step, stands) for r in relations for step in last.amiss)
                    assert not each.right
    assert halted > 3


def _is_shut(relation, step, stands):
    if isinstance(relation, Before):
        return relation.first == step and relation.then in stands
    if isinstance(relation, BeforeAll):
        return relation.first == step and relation.of <= stands
    return False


def test_a_wrong_choice_is_told_the_nearest_right_one_and_what_it_costs(drills):
    for name in SAMPLES:
        for drill, worth in drills[name]:
            (answer,) = {n for each in worth.values() if not each.right for n in each.nearest}
            if name == "elbow_cop":
                assert solved(source(name), drill).answer == (answer,)
            for one, each in worth.items():
                assert each.because
                assert all(because.text and because.rule for because in each.because)
                assert (each.distance, each.credit) == ((0, 1.0) if each.right else (1, 0.0))
                assert each.nearest == ((one,) if each.right else (answer,))
                assert each.met
                assert all(met.kept is each.right for met in each.met)
                assert {met.rule for met in each.met} & {b.rule for b in each.because}
            assert worth[answer].right


def test_a_closed_loop_is_opened_by_its_one_rivet():
    drill = drill_for(source("elbow_cop"), asked(5, focus="thread-before-closed"))
    assert drill.rules[0] == "thread-before-closed"
    worth = verdicts("elbow_cop", drill)
    (right,) = [one for one, each in worth.items() if each.right]
    assert drill.choice(right).title == "Drill out 1 rivet, and set it anew"
    assert "keeper on itself" in drill.choice(right).detail
    nothing = next(c for c in drill.choices if "nothing opened" in c.title)
    told = worth[nothing.id]
    assert "there is no end to pass" in told.sentence
    assert told.because[0].rule == "thread-before-closed"
    left = next(c for c in drill.choices if c.title.startswith("Leave it out"))
    assert "too risky" in worth[left.id].sentence
    assert "30 times in a hundred" in worth[left.id].because[0].text
    assert any("eye protection" in caution for caution in drill.cautions)
    assert any(rivet.endswith("rivet/keeper_ends") for rivet in drill.choice(right).steps)


@pytest.mark.parametrize("rule", ["bevel-before-dye", "tool-before-form", "last-fit-last"])
def test_the_reason_asked_for_is_needed_where_it_can_be(rule):
    found = [drill_for(source("elbow_cop"), asked(seed, focus=rule)) for seed in range(2)]
    assert all(rule in drill.rules for drill in found)


def test_a_reason_that_none_needs_gives_way():
    assert drill_for(source("elbow_cop"), asked(1, focus="no-such-rule")) is not None


def test_a_piece_that_is_not_there_gives_none_and_one_that_is_gives_its_own():
    assert drill_for(source("arm_harness"), asked(1, piece="gauntlet")) is None
    drill = drill_for(source("arm_harness"), asked(3, piece="elbow"))
    parts = {part.id: part.part.piece for part in derived_sample("arm_harness").assembly.parts}
    assert "elbow" in {parts[part] for part in drill.parts}


@pytest.mark.parametrize("answer", [(), ("way-1", "way-2"), ("way-9",)])
def test_no_single_way_is_no_answer(answer):
    drill = drill_for(source("elbow_cop"), asked(2))
    with pytest.raises(ArmorplanError, match="Choose one of the ways"):
        judged(source("elbow_cop"), drill, answer)


def test_letters_answer_it():
    drill = drill_for(source("elbow_cop"), asked(2))
    assert answer_from(drill, "b") == (drill.choices[1].id,)


def test_an_exercise_of_another_build_is_told_so():
    drill = drill_for(source("elbow_cop"), asked(2))
    with pytest.raises(ArmorplanError, match="has changed since"):
        judged(source("collar"), drill, ("way-1",))


def test_what_a_way_works_at_is_lit_as_it_is_played():
    """What is cut anew is that part, what is opened those joints."""
    anew, opened = 0, 0
    for name in ("elbow_cop", "collar"):
        derived = derived_sample(name)
        names = {part.id: part.part.name.lower() for part in derived.assembly.parts}
        for seed in SEEDS:
            drill = drill_for(source(name), asked(seed))
            for choice in drill.choices:
                for frame in judged(source(name), drill, (choice.id,)).play[1:]:
                    if frame.said.startswith("Cut ") and " anew" in frame.said:
                        (part,) = frame.parts
                        assert names[part] in frame.said.lower()
                        anew += 1
                    if frame.said.startswith("Drill out"):
                        assert all(derived.work.sets(derived.work.step(s)) for s in frame.opened)
                        assert frame.opened
                        assert not set(frame.opened) & set(frame.done)
                        opened += 1
    assert anew > 3
    assert opened > 3


def test_plain_dijkstra_finds_nothing_cheaper_than_what_is_right(drills):
    """Dijkstra 1959, over all states, with what the moves alone say: it knows nothing of the search."""
    looked = 0
    for name in SAMPLES:
        for drill, _ in drills[name]:
            made = MADE[name, drill.asked]
            if len(made.state.problem.moves) <= MOST_MOVES:
                looked += 1
                assert mild_first(made.state.problem) == round(made.best.way.price * TICKS)
    assert looked > 12
