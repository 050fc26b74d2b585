"""Models and answers come through JSON the same."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st
from solving.small_models import long_search, two_tasks

from armorplan.solving.model import (
    Answer,
    AtLeastOne,
    Cumulative,
    Effort,
    Element,
    ExactlyOne,
    Interval,
    Latest,
    Least,
    Linear,
    Model,
    NoOverlap,
    Number,
    Outcome,
    opposite,
)
from armorplan.solving.wire import (
    answer_from_wire,
    answer_to_wire,
    model_from_wire,
    model_to_wire,
)

names = st.text(min_size=1, max_size=8)
whole = st.integers(-(2**50), 2**50)
terms = st.lists(st.tuples(names, whole), max_size=3).map(tuple)
ranges = st.lists(st.tuples(whole, whole), min_size=1, max_size=3).map(tuple)
several = st.lists(names, max_size=3).map(tuple)
constraints = st.one_of(
    st.builds(Linear, terms=terms, ranges=ranges, only_if=several),
    st.builds(Element, index=names, table=st.lists(whole).map(tuple), target=names),
    st.builds(NoOverlap, intervals=several),
    st.builds(Cumulative, intervals=several, demands=st.just((1, 2)), capacity=whole),
    st.builds(ExactlyOne, literals=several),
    st.builds(AtLeastOne, literals=several),
)
models = st.builds(
    Model,
    effort=st.builds(
        Effort,
        seconds=st.floats(0, 1e6),
        workers=st.integers(1, 8),
        seed=st.integers(0, 99),
        repeatable=st.booleans(),
        work=st.none() | st.floats(0, 1e6),
    ),
    numbers=st.lists(st.builds(Number, name=names, ranges=ranges), max_size=3).map(tuple),
    booleans=several,
    intervals=st.lists(
        st.builds(
            Interval,
            name=names,
            start=names | whole | st.tuples(names, whole),
            size=names | whole,
            end=st.none() | names,
            only_if=st.none() | names,
        ),
        max_size=3,
    ).map(tuple),
    constraints=st.lists(constraints, max_size=4).map(tuple),
    objective=st.none()
    | st.builds(Least, terms=terms)
    | st.builds(Latest, of=terms, ranges=ranges),
    hints=terms,
)
answers = st.builds(
    Answer,
    status=st.sampled_from(Outcome),
    values=terms,
    objective=st.none() | whole,
    bound=st.none() | whole,
    wall_s=st.floats(0, 1e6),
)


@given(models)
def test_a_model_comes_back_the_same(model):
    assert model_from_wire(json.loads(json.dumps(model_to_wire(model)))) == model


@given(answers)
def test_an_answer_comes_back_the_same(answer):
    assert answer_from_wire(json.loads(json.dumps(answer_to_wire(answer)))) == answer


def test_a_model_that_came_back_can_be_hashed():
    for model in (two_tasks(), long_search()):
        back = model_from_wire(json.loads(json.dumps(model_to_wire(model))))
        assert hash(back) == hash(model)


def test_an_unknown_kind_of_constraint_is_refused():
    raw = json.loads(json.dumps(model_to_wire(two_tasks())))
    raw["constraints"][0]["kind"] = "Wish"
    with pytest.raises(KeyError):
        model_from_wire(raw)


def test_the_opposite_of_the_opposite_is_the_literal_itself():
    assert opposite("x") == "~x"
    assert opposite(opposite("x")) == "x"
