"""Small relation sets for the laws, and a second opinion on them by trying every order."""

from itertools import permutations

from hypothesis import strategies as st

from armorplan.relations.checking import is_broken_for_good
from armorplan.relations.index import index_relations
from armorplan.relations.mixing import mix
from armorplan.relations.model import (
    AfterAny,
    Apart,
    Before,
    BeforeAll,
    Force,
    Reason,
    Together,
)
from armorplan.relations.settling import settle

NAMES = "abcdefgh"


def reason(force=Force.CANNOT, text="a reason", **more):
    source = "invented for tests"
    return Reason(rule="test-rule", text=text, force=force, source=source, **more)


def before(first, then, force=Force.CANNOT, text="a reason", **more):
    return Before(first=first, then=then, reason=reason(force, text, **more))


def before_all(first, of, force=Force.CANNOT, text="a reason"):
    return BeforeAll(first=first, of=frozenset(of), reason=reason(force, text))


def after_any(then, of, force=Force.CANNOT, text="a reason"):
    return AfterAny(then=then, of=frozenset(of), reason=reason(force, text))


def together(of, force=Force.CANNOT, text="a reason"):
    return Together(of=frozenset(of), reason=reason(force, text))


def apart(of, on="press", force=Force.CANNOT):
    return Apart(of=frozenset(of), on=on, reason=reason(force))


def keeps(order, relation):
    """Tell whether an order of all steps keeps a relation, word by word from its definition."""
    if isinstance(relation, Before):
        return order.index(relation.first) < order.index(relation.then)
    if isinstance(relation, AfterAny):
        return any(order.index(step) < order.index(relation.then) for step in relation.of)
    if isinstance(relation, Together):
        places = [order.index(step) for step in relation.of]
        return max(places) - min(places) < len(places)
    if isinstance(relation, Apart):
        return True
    return any(order.index(relation.first) < order.index(step) for step in relation.of)


def all_orders(steps, relations):
    """Return every order that keeps all relations, by trying them all."""
    return {
        order
        for order in permutations(steps)
        if all(keeps(order, relation) for relation in relations)
    }


def way_on(left, relations, *, after=()):
    """Return an order of the steps left that keeps all relations after others; none: ``None``."""
    index = index_relations((*after, *left), relations)
    to_do = index.left_after(after)
    counted = [at for at in index.others if not index.relations[at].reason.overruled]
    if any(is_broken_for_good(index.relations[at], after, to_do, index) for at in counted):
        return None
    active = bytearray(index.plain)
    for at in counted:
        active[at] = 1
    mixed = mix(index, to_do, active)
    found = settle(mixed)
    assert found.decided
    if not found.possible:
        return None
    return tuple(index.steps[at] for at in mixed.steps_of(found.order, len(index.steps)))


@st.composite
def relation_sets(draw, most_steps=6, most_relations=9, forces=(Force.CANNOT, Force.SPOIL)):
    """Draw steps and relations, half of them 'before all'; many sets are contradictory."""
    steps = NAMES[: draw(st.integers(1, most_steps))]
    step = st.sampled_from(steps)
    force = st.sampled_from(forces)
    plain = st.builds(before, step, step, force)
    with_all = st.builds(before_all, step, st.sets(step, min_size=1, max_size=3), force)
    return tuple(steps), tuple(draw(st.lists(plain | with_all, max_size=most_relations)))


@st.composite
def kept_sets(draw, most_steps=6, most_relations=9, forces=(Force.CANNOT, Force.SPOIL)):
    """Draw steps and relations that one hidden order keeps, so that they never conflict."""
    steps, relations = draw(relation_sets(most_steps, most_relations, forces))
    hidden = draw(st.permutations(steps))
    return steps, tuple(r for r in relations if keeps(hidden, r))


@st.composite
def mixed_sets(draw, most_steps=6, most_relations=7, forces=(Force.CANNOT, Force.SPOIL)):
    """Draw steps and relations of every kind, some overlapping, many contradictory."""
    steps = NAMES[: draw(st.integers(2, most_steps))]
    step = st.sampled_from(steps)
    force = st.sampled_from(forces)
    several = st.sets(step, min_size=1, max_size=3)
    any_kind = (
        st.builds(before, step, step, force)
        | st.builds(before_all, step, several, force)
        | st.builds(after_any, step, several, force)
        | st.builds(together, st.sets(step, min_size=2, max_size=4), force)
        | st.builds(apart, several)
    )
    return tuple(steps), tuple(draw(st.lists(any_kind, max_size=most_relations)))


@st.composite
def kept_mixed_sets(draw, most_steps=6, most_relations=9, forces=(Force.CANNOT, Force.SPOIL)):
    """Draw relations of every kind that one hidden order keeps."""
    steps, relations = draw(mixed_sets(most_steps, most_relations, forces))
    hidden = draw(st.permutations(steps))
    return steps, tuple(r for r in relations if keeps(hidden, r))
