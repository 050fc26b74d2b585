"""Three-point tables of textbooks, each recomputed.

Sources: E, a network of fourteen activities from course material on project evaluation; its stored
page prints the means, the standard deviations and the table of A to F. G, the eight-activity
factory example of B. Render, R. M. Stair, 'Quantitative Analysis for Management' (from memory). H,
a seven-activity publishing example of textbooks (from memory; the average finish is 19.50, often
printed as the sum of rounded figures, 19.51). I, a single path with standard deviations 2, 4, 2
and 1: within one standard deviation beyond the average lie 84.13 % (tables of the normal curve).
"""

from math import isclose, sqrt

import pytest

from armorplan.schedule.odds import ThreeTimes, finish_odds


def network(text):
    """Read ``A 5 5 7; C 5 5 5 <A``: a name, three times, whom it waits for."""
    times, waits_for = {}, {}
    for item in text.split(";"):
        own, _, firsts = item.partition("<")
        name, least, likely, most = own.split()
        times[name] = ThreeTimes(
            least_min=float(least), likely_min=float(likely), most_min=float(most)
        )
        waits_for[name] = [first for first in firsts.strip().split(",") if first]
    return times, waits_for


E = network(
    "A 5 5 7; B 1 2 5; C 5 5 5 <A; D 4 8 13 <A; E 1 10 17 <B,C; F 1 5 7 <D; G 2 6 9 <D;"
    "H 4 4 6 <E,F; I 2 7 10 <G,H; J 2 4 7 <I; K 6 10 13 <I; L 2 6 6 <J; M 2 2 3 <K; N 7 7 12 <L,M"
)
G = network(
    "A 1 2 3; B 2 3 4; C 1 2 3 <A; D 2 4 6 <B; E 1 4 7 <C; F 1 2 9 <C; G 3 4 11 <D,E; H 1 2 3 <F,G"
)
H = network("A 2 4 6; B 3 5 9; C 4 5 7 <A; D 4 6 10 <A; E 4 5 7 <B,C; F 3 4 8 <D; G 3 5 8 <E")


@pytest.mark.parametrize(
    ("table", "finish", "variance", "path"),
    [(E, 50.83, 11.194, "ACEHIKMN"), (G, 15.0, 3.111, "ACEGH"), (H, 19.5, None, "ACEG")],
    ids=["E", "G", "H"],
)
def test_average_finish_variance_and_critical_path(table, finish, variance, path):
    odds = finish_odds(*table)
    assert odds.expected_min == pytest.approx(finish, abs=0.005)
    assert "".join(odds.path) == path
    assert variance is None or odds.variance_min2 == pytest.approx(variance, abs=0.0005)


@pytest.mark.parametrize(
    ("table", "by", "chance"),
    [(E, 53, 0.741), (E, 55, 0.8935), (G, 16, 0.715)],
    ids=["E 53", "E 55", "G 16"],
)
def test_the_chance_of_a_date(table, by, chance):
    assert finish_odds(*table).chance_by(by) == pytest.approx(chance, abs=0.001)


def test_slack():
    slack = finish_odds(*G).slack_min
    assert {i: round(slack[i], 2) for i in "ABCDEFGH"} == {
        **dict.fromkeys("ACEGH", 0),
        "B": 1,
        "D": 1,
        "F": 6,
    }
    slack = finish_odds(*H).slack_min
    assert [round(slack[i], 2) for i in "BDF"] == [3.83, 4.67, 4.67]


def test_one_standard_deviation_beyond_the_average():
    spreads = (2, 4, 2, 1)
    times = {
        str(at): ThreeTimes(
            least_min=9 - 3 * spread if spread < 3 else 0,
            likely_min=9 if spread < 3 else 6,
            most_min=9 + 3 * spread if spread < 3 else 24,
        )
        for at, spread in enumerate(spreads)
    }
    assert sqrt(sum(t.variance_min2 for t in times.values())) == 5
    odds = finish_odds(times, {"1": ["0"], "2": ["1"], "3": ["2"]})
    assert isclose(odds.variance_min2, 25)
    assert odds.chance_by(odds.expected_min + 5) == pytest.approx(0.8413, abs=0.00005)
