"""The ball-point pen of assembly planning.

Sources: D. G. Ullman, 'The Mechanical Design Process', 4th edition, section 11.5, p. 341 (joins 1
head-body, 2 body-button, 3 head-tube, 4 tube-ink, 5 body-cap; the two precedences '3 before 4' and
'1 before 5'; his example order). The product goes back to A. Bourjault (1984) and T. L. De Fazio,
D. E. Whitney, 'Simplified generation of all mechanical assembly sequences', IEEE Journal of
Robotics and Automation RA-3(6), 1987. That 12 orders remain once the ink has to go in before the
tube is shut in at both ends is the published count as remembered; the third relation is
reconstructed, its 12 orders were found by trying all 120.
"""

from math import comb

from relations.relation_cases import before, before_all

from armorplan.orders.judging import judge_order
from armorplan.orders.next_steps import may_come_next
from armorplan.relations.counting import count_orders

JOINS = "12345"
TWO = (before("3", "4"), before("1", "5"))
INK_BEFORE_BOTH = (*TWO, before_all("4", "12"))
THE_12 = (
    "13425 13452 13542 15342 23415 31425 31452 31542 32415 34125 34152 34215".split()  # noqa: SIM905
)
ULLMANS = "23415"


def walks(relations, done=""):
    """Yield every order one can walk by doing what may come next."""
    if len(done) == len(JOINS):
        yield done
    for join in may_come_next(done, JOINS, relations):
        yield from walks(relations, done + join)


def test_two_precedences_leave_30_orders():
    assert count_orders(JOINS, TWO).number == 30
    assert len(set(walks(TWO))) == 30


def test_ink_before_both_leaves_just_these_12():
    assert count_orders(JOINS, INK_BEFORE_BOTH).number == 12
    assert sorted(walks(INK_BEFORE_BOTH)) == THE_12


def test_ullmans_example_order_is_valid_in_both():
    assert judge_order(ULLMANS, JOINS, TWO).valid
    assert judge_order(ULLMANS, JOINS, INK_BEFORE_BOTH).valid


def test_other_readings_of_the_third_relation_count_differently():
    # Counted for this check by trying all 120 orders; not published.
    assert count_orders(JOINS, (*TWO, before("4", "2"))).number == 10
    assert count_orders(JOINS, (*TWO, before("4", "1"))).number == 5
    assert count_orders(JOINS, (*TWO, before_all("3", "12"))).number == 23


def test_two_pens_side_by_side_interleave():
    second = {join: f"{join}'" for join in JOINS}
    primed = (
        before("3'", "4'"),
        before("1'", "5'"),
        before_all("4'", ("1'", "2'")),
    )
    both = count_orders((*JOINS, *second.values()), (*INK_BEFORE_BOTH, *primed))
    assert both.exact
    assert both.number == 12 * 12 * comb(10, 5)
