"""One factor learned from many cases, against integrals done by an adaptive rule."""

from itertools import permutations
from math import erf, exp, inf, log, pi, sqrt

import pytest
from scipy.integrate import quad

from armorplan.kernel.learning import Case, Prior, learn

PRIOR = Prior(spread=0.3, runs=0.15)


def normal(x, middle, spread):
    return exp(-0.5 * ((x - middle) / spread) ** 2) / (spread * sqrt(2 * pi))


def upto(x, middle, spread):
    return 0.5 * (1 + erf((x - middle) / (spread * sqrt(2))))


def seen(case, middle, spread):
    """The same likelihood, but summed up over what the case's own factor may be."""
    low = log(case.above) if case.above else -8.0
    high = log(case.upto) if case.upto < inf else 8.0

    def at(own):
        told = 1.0 if case.about is None else normal(log(case.about), own, case.about_spread)
        return told * normal(own, middle, spread)

    return quad(at, low, high, points=[max(low, min(high, middle))], limit=200)[0]


@pytest.mark.parametrize(
    "cases",
    [
        [Case(id="a", above=0.6, upto=0.8)],
        [Case(id="a", above=0.9), Case(id="b", upto=1.1)],
        [Case(id="a", about=0.8, about_spread=0.1)],
        [Case(id="a", above=0.7, upto=0.95, about=0.8, about_spread=0.2)],
        [Case(id="a", above=0.6, upto=0.8), Case(id="b", above=2.5, upto=3.0)],
    ],
)
def test_the_update_is_the_integral_of_what_was_seen_over_all_factors(cases):
    def weight(middle):
        found = normal(middle, 0.0, PRIOR.median_spread)
        for case in cases:
            odd = seen(case, 0.0, PRIOR.odd_spread)
            found *= (1 - PRIOR.odd_share) * seen(case, middle, PRIOR.runs) + PRIOR.odd_share * odd
        return found

    whole = quad(weight, -2, 2, limit=200)[0]
    middle = quad(lambda m: m * weight(m), -2, 2, limit=200)[0] / whole
    spread = quad(lambda m: (m - middle) ** 2 * weight(m), -2, 2, limit=200)[0] / whole
    found = learn(PRIOR, cases)
    assert log(found.factor) == pytest.approx(middle, abs=2e-4)
    assert found.spread == pytest.approx(sqrt(spread + PRIOR.runs**2), rel=1e-3)


def test_a_factor_measured_of_one_case_moves_the_median_as_two_normal_laws_do():
    # Without odd cases the answer is exact (normal prior, normal measuring; any textbook).
    prior = Prior(spread=0.3, runs=0.15, odd_share=0.0)
    noise = 0.15**2 + 0.1**2
    found = learn(prior, [Case(id="a", about=0.8, about_spread=0.1)])
    pull = prior.median_spread**2 / (prior.median_spread**2 + noise)
    assert log(found.factor) == pytest.approx(pull * log(0.8), abs=1e-6)
    left = prior.median_spread**2 * noise / (prior.median_spread**2 + noise)
    assert found.spread == pytest.approx(sqrt(left + 0.15**2), rel=1e-5)


def test_nothing_seen_leaves_what_was_known_before():
    found = learn(PRIOR, [])
    assert (found.factor, found.spread, found.seen, found.damped) == (1.0, 0.3, 0, ())
    assert found.interval[0] == pytest.approx(exp(-1.28155 * PRIOR.median_spread), rel=1e-4)


def test_what_says_nothing_changes_nothing():
    found = learn(PRIOR, [Case(id="a", upto=50.0), Case(id="b", above=0.01)])
    assert found.factor == pytest.approx(1.0, abs=2e-3)
    assert found.spread == pytest.approx(0.3, abs=2e-3)


def test_the_order_of_cases_does_not_matter():
    cases = [
        Case(id="a", above=0.6, upto=0.8),
        Case(id="b", about=0.9, about_spread=0.1),
        Case(id="c", upto=0.7),
        Case(id="d", above=3.0, upto=4.0),
    ]
    assert len({repr(learn(PRIOR, order)) for order in permutations(cases)}) == 1


def test_one_wild_case_moves_little_and_is_named():
    near = [Case(id=f"a{at}", above=0.85, upto=1.0 + at / 50) for at in range(6)]
    wild = Case(id="wild", above=6.0, upto=8.0)
    without, with_it = learn(PRIOR, near), learn(PRIOR, [*near, wild])
    assert with_it.factor == pytest.approx(without.factor, rel=0.02)
    assert [damped.id for damped in with_it.damped] == ["wild"]
    assert with_it.damped[0].share < 0.01
    assert with_it.seen == 7


def test_many_that_agree_are_believed_however_far_off_they_are():
    far = [Case(id=f"a{at}", above=2.6, upto=3.2) for at in range(6)]
    found = learn(PRIOR, far)
    assert 2.5 < found.factor < 3.2
    assert found.damped == ()


def test_two_that_share_one_weight_count_as_one():
    one = learn(PRIOR, [Case(id="a", above=0.6, upto=0.8)])
    two = learn(PRIOR, [Case(id=i, above=0.6, upto=0.8, weight=0.5) for i in "ab"])
    assert two.factor == pytest.approx(one.factor)
    assert two.spread == pytest.approx(one.spread)
    assert two.seen == 1
