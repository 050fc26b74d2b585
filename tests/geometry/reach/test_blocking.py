"""Minimal sets of monotone functions, against trying every subset."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from armorplan.geometry.reach.blocking import minimal_sets, shrunk

ATOMS = "abcdefg"
families = st.lists(st.frozensets(st.sampled_from(ATOMS), max_size=5), max_size=12)


def truth(family):
    return lambda atoms: any(one <= atoms for one in family)


def by_trying(atoms, is_true):
    found = []
    for size in range(len(atoms) + 1):
        for some in map(frozenset, combinations(atoms, size)):
            if is_true(some) and not any(less <= some for less in found):
                found.append(some)
    return set(found)


@given(families)
def test_all_minimal_sets_are_found(family):
    found = minimal_sets(ATOMS, truth(family))
    assert found.complete
    assert set(found.sets) == by_trying(ATOMS, truth(family))
    assert len(found.sets) == len(set(found.sets))


@given(families, st.integers(1, 4))
def test_cut_short_it_says_so_and_what_it_found_is_minimal(family, most):
    every = by_trying(ATOMS, truth(family))
    found = minimal_sets(ATOMS, truth(family), most=most)
    assert found.complete == (len(every) <= most)
    assert len(found.sets) == min(most, len(every))
    assert set(found.sets) <= every


def test_functions_of_a_count():
    # At least 4 of 7: 35 minimal sets, and as many ways to avoid them.
    found = minimal_sets(ATOMS, lambda atoms: len(atoms) >= 4)
    assert found.complete
    assert len(found.sets) == 35


def test_pairs_are_found_although_what_avoids_them_doubles_with_each():
    # x1y1, x2y2, ... 7 pairs: 128 ways to avoid them.
    pairs = [frozenset((f"x{at}", f"y{at}")) for at in range(7)]
    found = minimal_sets(sorted(set().union(*pairs)), truth(pairs))
    assert found.complete
    assert set(found.sets) == set(pairs)


def test_the_search_stops_where_what_avoids_them_is_too_much():
    pairs = [frozenset((f"x{at}", f"y{at}")) for at in range(20)]
    found = minimal_sets(sorted(set().union(*pairs)), truth(pairs))
    assert not found.complete
    assert set(found.sets) < set(pairs)


def test_never_true_and_always_true():
    assert minimal_sets(ATOMS, lambda _: False).sets == ()
    assert minimal_sets(ATOMS, lambda _: True).sets == (frozenset(),)
    assert minimal_sets((), lambda _: False).complete


@given(families.filter(lambda family: truth(family)(frozenset(ATOMS))))
def test_what_is_given_up_first_is_missing(family):
    left = shrunk(ATOMS, truth(family))
    assert truth(family)(left)
    assert not any(truth(family)(left - {atom}) for atom in left)
    # It does without the first atoms as far as any minimal set does.
    given_up = [atom in left for atom in ATOMS]
    assert given_up == min(
        [atom in one for atom in ATOMS] for one in by_trying(ATOMS, truth(family))
    )
