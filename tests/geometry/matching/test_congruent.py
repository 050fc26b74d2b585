"""Sets of holes that one motion lays on others, against trying every set (brute force)."""

from itertools import combinations, permutations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from armorplan.geometry.matching.congruent import common_sets, like_pairs
from armorplan.geometry.matching.laying import misses

MISFIT_MM = 0.5
spot = st.builds(complex, st.integers(0, 60), st.integers(0, 60))


def far_apart(spots):
    return all(abs(one - other) >= 6 for one, other in combinations(spots, 2))


sets = st.lists(spot, min_size=3, max_size=5, unique=True).filter(far_apart)


def tried(first, second):
    """The most holes that one motion, turned over or not, lays on others."""
    for count in range(min(len(first), len(second)), 2, -1):
        for ones in combinations(range(len(first)), count):
            for others in permutations(range(len(second)), count):
                for there in (second, second.conj()):
                    if misses(first[list(ones)], there[list(others)]).most_mm <= MISFIT_MM:
                        return count
    return 0


def sizes(first, second):
    return np.full(len(first), 4.0), np.full(len(second), 4.0)


@given(
    sets,
    st.lists(spot, max_size=2),
    st.floats(0, 6.28),
    st.booleans(),
    st.lists(st.floats(-0.3, 0.3), min_size=7, max_size=7),
)
def test_the_largest_common_set_is_found(held, more, turn, over, shaken):
    first = np.array(held[:4], dtype=complex)
    there = np.array([*held, *more], dtype=complex) * np.exp(1j * turn) + 200
    there = there.conj() if over else there
    second = there + np.array(shaken[: len(there)])
    found = common_sets(first, second, sizes(first, second), MISFIT_MM)
    assert max((len(each) for each in found), default=0) == tried(first, second)


def test_holes_of_unlike_size_are_no_common_set():
    spots = np.array([0, 30, 10 + 20j])
    assert len(common_sets(spots, spots, sizes(spots, spots), MISFIT_MM)) > 0
    wider = sizes(spots, spots)[0], np.array([4.0, 5.0, 4.0])
    assert common_sets(spots, spots, wider, MISFIT_MM) == ()


def test_parts_without_three_distances_in_common_are_not_looked_at():
    triangle = np.array([0, 30, 10 + 20j])
    other = np.array([0, 41, 10 + 50j])
    assert list(like_pairs([triangle, other, triangle * 1j], MISFIT_MM)) == [(0, 2)]
