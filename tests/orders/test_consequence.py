from hypothesis import given
from hypothesis import strategies as st
from relations.relation_cases import all_orders, before, before_all, kept_sets, relation_sets

from armorplan.orders import consequence
from armorplan.orders.consequence import consequences, consequences_of_all
from armorplan.orders.next_steps import standing
from armorplan.orders.setting_aside import what_still_holds
from armorplan.relations.checking import breaks_of_prefix
from armorplan.relations.index import index_relations
from armorplan.relations.model import Force


def test_a_step_in_its_turn_breaks_nothing():
    relations = (before("a", "b"), before_all("c", "ab"))
    assert consequences("a", (), relations) == ()
    assert consequences("c", "a", relations) == ()


def test_a_step_done_early_breaks_the_relations_that_held_it():
    relations = (before("a", "b"), before("c", "b"), before_all("d", "be"))
    assert consequences("b", (), relations) == relations[:2]
    assert consequences("b", "ae", relations) == relations[1:]


def test_a_dead_end_is_told_though_nothing_is_broken_yet():
    relations = (before("b", "f"), before_all("f", "xb"))
    assert breaks_of_prefix("x", relations) == ()
    assert consequences("x", (), relations) == relations[1:]


def test_what_was_broken_before_is_not_told_again():
    relations = (before("a", "b"), before("a", "c"))
    assert consequences("c", "b", relations) == relations[1:]


def test_only_binding_relations_are_told():
    assert consequences("b", (), (before("a", "b", Force.EASIER),)) == ()


def test_a_step_already_done_or_unknown_breaks_nothing():
    index = index_relations("ab", (before("a", "b"),))
    assert consequences("b", "b", index) == ()
    assert consequences("nobody", (), index) == ()


@given(relation_sets(most_relations=12), st.randoms(use_true_random=False))
def test_a_step_has_consequences_just_when_it_has_to_wait(case, random):
    steps, relations = case
    index = index_relations(steps, relations)
    done = random.sample(steps, random.randint(0, len(steps) - 1))
    stands = standing(done, index)
    for step in set(steps) - set(done):
        assert bool(consequences(step, done, index)) == (step in stands.waits_for)


@given(kept_sets(most_relations=12), st.randoms(use_true_random=False))
def test_after_a_sound_start_the_consequences_are_just_what_is_then_set_aside(case, random):
    steps, relations = case
    index = index_relations(steps, relations)
    order = random.choice(sorted(all_orders(steps, relations)))
    done = order[: random.randint(0, len(order) - 1)]
    for step in order[len(done) :]:
        told = consequences(step, done, index)
        assert sorted(map(repr, told)) == sorted(
            map(repr, standing((*done, step), index).set_aside)
        )


@given(kept_sets(most_relations=12), st.randoms(use_true_random=False))
def test_without_what_is_told_the_rest_can_be_done(case, random):
    steps, relations = case
    order = random.choice(sorted(all_orders(steps, relations)))
    done = order[: random.randint(0, len(order) - 1)]
    step = random.choice(order[len(done) :])
    kept = list(relations)
    for broken in consequences(step, done, relations):
        kept.remove(broken)
    assert any(other[: len(done) + 1] == (*done, step) for other in all_orders(steps, kept))


def test_a_press_of_several_tells_what_a_later_one_of_them_would_have_mended():
    relations = (before("a", "b"), before("c", "a"))
    assert consequences_of_all("ba", (), relations) == relations
    assert consequences_of_all("cab", (), relations) == ()


def test_a_press_of_several_passes_over_what_is_done_or_unknown():
    index = index_relations("abc", (before("a", "b"),))
    assert consequences_of_all(("b", "nobody"), "b", index) == ()
    assert consequences_of_all(("nobody", "b"), (), index) == index.relations


@given(kept_sets(most_relations=12), st.randoms(use_true_random=False))
def test_a_press_of_several_is_told_just_when_one_of_them_in_its_turn_is(case, random):
    steps, relations = case
    index = index_relations(steps, relations)
    order = random.choice(sorted(all_orders(steps, relations)))
    done = order[: random.randint(0, len(order) - 1)]
    pressed = random.sample(order[len(done) :], random.randint(1, len(order) - len(done)))
    one_by_one = [
        consequences(step, (*done, *pressed[:turn]), index) for turn, step in enumerate(pressed)
    ]
    told = consequences_of_all(pressed, done, index)
    assert bool(told) == any(one_by_one)


@given(kept_sets(most_relations=12), st.randoms(use_true_random=False))
def test_a_press_of_several_tells_everything_its_order_breaks(case, random):
    steps, relations = case
    index = index_relations(steps, relations)
    pressed = random.sample(steps, random.randint(1, len(steps)))
    told = consequences_of_all(pressed, (), index)
    broken = [b.relation for b in breaks_of_prefix(pressed, index.relations)]
    assert {r for r in broken if r.reason.force.binds} <= set(told)


def test_a_tray_of_hundreds_is_looked_at_as_a_whole(monkeypatch):
    looks = []
    steps = tuple(f"s{n}" for n in range(300))
    index = index_relations(("first", *steps), tuple(before("first", step) for step in steps))
    monkeypatch.setattr(
        consequence,
        "what_still_holds",
        lambda *args: looks.append(args) or what_still_holds(*args),
    )
    assert consequences_of_all(steps, (), index) == index.relations
    assert len(looks) == 2
