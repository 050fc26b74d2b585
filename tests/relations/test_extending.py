"""An index that was extended is the one of all steps and relations indexed at once."""

from dataclasses import fields, replace

from hypothesis import given
from hypothesis import strategies as st

from armorplan.relations.extending import extended
from armorplan.relations.index import index_relations
from armorplan.relations.model import AfterAny, Apart, Before, BeforeAll, Force, Reason, Together

STEPS = tuple("abcdefgh")


def reason(force):
    return Reason(rule="r", text="t", force=force, source="made up")


@st.composite
def relations(draw, among):
    step = st.sampled_from(among)
    some = st.frozensets(step, min_size=1, max_size=3)
    why = reason(draw(st.sampled_from(Force)))
    kind = draw(st.sampled_from("bltap"))
    if kind == "b":
        return Before(first=draw(step), then=draw(step), reason=why)
    if kind == "l":
        return BeforeAll(first=draw(step), of=draw(some), reason=why)
    if kind == "t":
        return Together(of=draw(some), reason=why)
    if kind == "a":
        return AfterAny(then=draw(step), of=draw(some), reason=why)
    return Apart(of=draw(some), on="press", reason=why)


def overruled(relation):
    return replace(relation, reason=replace(relation.reason, overruled=True))


@given(
    st.integers(1, 7),
    st.lists(relations(STEPS), max_size=6),
    st.lists(relations(STEPS), max_size=6),
    st.sets(st.integers(0, 5)),
)
def test_extended_is_indexed_at_once(cut, first, more, aside):
    index = index_relations(STEPS[:cut], first)
    instead = {at: overruled(index.relations[at]) for at in aside if at < len(index.relations)}
    found = extended(index, STEPS[cut:], more, instead=instead)
    kept = tuple(instead.get(at, relation) for at, relation in enumerate(index.relations))
    at_once = index_relations(STEPS, (*kept, *more))
    for one in fields(found):
        assert getattr(found, one.name) == getattr(at_once, one.name), one.name
