"""Which relations follow from one another."""

from armorplan.relations.implying import implying, stricter
from armorplan.relations.model import Before, BeforeAll, Force, Reason

CANNOT = Reason(rule="reach", text="", force=Force.CANNOT, source="")
OTHER = Reason(rule="trade", text="", force=Force.CANNOT, source="")


def all_of(first, of, reason=CANNOT):
    return BeforeAll(first=first, of=frozenset(of), reason=reason)


WIDE, PART, PAIR, APART = (all_of("x", of) for of in ("abcd", "abc", "ab", "cde"))


def test_before_the_last_of_a_few_is_stricter_than_before_the_last_of_more():
    assert stricter([WIDE, PART, PAIR, APART]) == {1, 2}
    assert stricter([PAIR, all_of("y", "abc"), all_of("x", "abc", OTHER)]) == frozenset()
    assert stricter([WIDE, WIDE]) == frozenset(), "neither is wider"


def test_before_one_of_them_is_the_strictest():
    one = Before(first="x", then="a", reason=CANNOT)
    assert stricter([one, PAIR]) == {0}


def test_what_implies_a_relation_is_every_part_of_its_set():
    relations = [PAIR, WIDE, APART, PART, all_of("y", "ab")]
    assert implying(relations, [1]) == {0, 3}
    assert implying(relations, [0, 2]) == frozenset()
