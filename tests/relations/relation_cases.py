"""Small relation sets for the laws, and a second opinion on them by trying every order."""

from itertools import permutations

from hypothesis import strategies as st

from armorplan.relations.model import Before, BeforeAll, Force, Reason

NAMES = "abcdefg"


def reason(force=Force.CANNOT, text="a reason", numbers=()):
    return Reason(
        rule="test-rule", text=text, force=force, source="invented for tests", numbers=numbers
    )


def before(first, then, force=Force.CANNOT, text="a reason", numbers=()):
    return Before(first=first, then=then, reason=reason(force, text, numbers))


def before_all(first, of, force=Force.CANNOT, text="a reason"):
    return BeforeAll(first=first, of=frozenset(of), reason=reason(force, text))


def keeps(order, relation):
    """Tell whether an order of all steps keeps a relation, word by word from its definition."""
    if isinstance(relation, Before):
        return order.index(relation.first) < order.index(relation.then)
    return any(order.index(relation.first) < order.index(step) for step in relation.of)


def all_orders(steps, relations):
    """Return every order that keeps all relations, by trying them all."""
    return {
        order
        for order in permutations(steps)
        if all(keeps(order, relation) for relation in relations)
    }


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
