"""Which wishes fit, against trying them one by one."""

from hypothesis import given
from hypothesis import strategies as st

from armorplan.orders.fitting import not_fitting

MOST = 8
clashes = st.lists(st.frozensets(st.integers(0, MOST - 1), min_size=1, max_size=3), max_size=10)


def fits(wishes, clashing):
    return not any(clash <= frozenset(wishes) for clash in clashing)


def one_by_one(wishes, clashing):
    held = []
    for wish in wishes:
        if fits([*held, wish], clashing):
            held.append(wish)
    return [wish for wish in wishes if wish not in held]


class Trials:
    """Holds wishes, and tells one of the sets that clash, or nothing where it is not known."""

    def __init__(self, clashing, told):
        self.clashing, self.told = clashing, told
        self.held, self.count = [], 0

    def __call__(self, wishes):
        self.count += 1
        asked = frozenset((*self.held, *wishes))
        found = [clash for clash in self.clashing if clash <= asked]
        if not found:
            self.held += wishes
            return None
        return self.told(found)


@given(st.permutations(range(MOST)), clashes, st.randoms(use_true_random=False))
def test_the_same_are_left_out_as_one_by_one(wishes, clashing, chance):
    trial = Trials(clashing, lambda found: chance.choice([*found, frozenset()]))
    dropped = not_fitting(wishes, trial)
    assert sorted(dropped) == sorted(one_by_one(wishes, clashing))
    assert sorted((*trial.held, *dropped)) == sorted(wishes)


def test_what_all_fits_takes_one_trial_and_each_that_does_not_one_more():
    trial = Trials([frozenset((3,)), frozenset((5, 9))], lambda found: found[0])
    assert not_fitting(range(20), trial) == [3, 9]
    assert trial.count == 1 + 2


def test_one_comes_back_when_what_stood_against_it_is_left_out():
    # 2 does not fit beside 1, but 1 does not fit beside 0.
    trial = Trials([frozenset((1, 2)), frozenset((0, 1))], lambda found: found[0])
    assert not_fitting([0, 1, 2], trial) == [1]
    assert trial.held == [0, 2]


def test_without_a_word_on_what_clashes_halves_are_tried():
    trial = Trials([frozenset((6,))], lambda _: frozenset())
    assert not_fitting(range(MOST), trial) == [6]
    assert trial.count == 1 + 2 * 3


def test_nothing_wished_takes_no_trial():
    assert not_fitting([], None) == []
