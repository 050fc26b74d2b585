"""A mend keeps rows in one go, and falls back on the smallest repair where that is not right."""

from hypothesis import given
from hypothesis import strategies as st

from armorplan.orders.repairing import smallest_repair
from armorplan.orders.tidying import mend_of
from armorplan.relations.checking import breaks
from armorplan.relations.model import Before, BeforeAll, Force, Reason

CANNOT = Reason(rule="r", text="", force=Force.CANNOT, source="")
ROW = ("r1", "r2", "r3", "r4")


def before(first, then):
    return Before(first=first, then=then, reason=CANNOT)


def before_last(first, of):
    return BeforeAll(first=first, of=frozenset(of), reason=CANNOT)


def mended(answer, relations, rows=(ROW,)):
    repair = smallest_repair(answer, relations)
    return mend_of(answer, repair, rows, lambda order: len(breaks(order, relations)))


def test_a_row_begun_at_its_wrong_end_is_turned_as_a_whole():
    deep_first = [before_last("r1", ROW[1:]), before_last("r2", ROW[2:])]
    mend = mended(("a", "r4", "r3", "r2", "r1", "b"), deep_first)
    assert mend.order == ("a", *ROW, "b")
    (move,) = mend.moves
    assert move.turned
    assert move.steps == ROW


def test_what_comes_too_late_goes_before_the_row_and_not_into_it():
    mend = mended((*ROW, "strap"), [before_last("strap", ROW)])
    assert mend.order == ("strap", *ROW)
    (move,) = mend.moves
    assert (move.steps, move.before) == (("strap",), "r1")


def test_two_rivets_of_a_strap_go_before_the_row_too_and_do_not_tear_it():
    strap = ("s1", "s2")
    # The smallest repair puts them behind the first of the row.
    relations = [before(strap_end, rivet) for strap_end in strap for rivet in ROW[1:]]
    mend = mended((*ROW, *strap, "b"), relations, rows=(ROW, strap))
    assert mend.order == (*strap, *ROW, "b")
    (move,) = mend.moves
    assert (move.steps, move.before, move.after) == (strap, "r1", "")


def test_a_row_is_parted_where_nothing_else_is_right():
    relations = [before("r2", "strap"), before("strap", "r3")]
    mend = mended((*ROW, "strap"), relations)
    assert not breaks(mend.order, relations)


def test_a_row_that_comes_too_early_goes_as_a_whole_behind_what_it_waits_for():
    # Two of the row have to wait for each of these: fewer moves than that there are not.
    relations = [before("x", "r1"), before("x", "r2"), before("y", "x")]
    mend = mended((*ROW, "y", "x"), relations)
    assert not breaks(mend.order, relations)
    assert "".join(mend.order).count("".join(ROW)) == 1


def test_a_single_step_is_moved_as_the_smallest_repair_moves_it():
    mend = mended(("b", "a", *ROW), [before("a", "b")])
    (move,) = mend.moves
    assert len(move.steps) == 1
    assert not move.before
    assert not breaks(mend.order, [before("a", "b")])


STEPS = ("a", "b", *ROW)
PAIRS = st.lists(st.permutations(STEPS).map(lambda one: one[:2]), max_size=5)


@given(st.permutations(STEPS), st.permutations(STEPS), PAIRS)
def test_whatever_is_wrong_the_mend_is_right_and_holds_every_step(truth, answer, pairs):
    place = {step: at for at, step in enumerate(truth)}
    relations = [before(*sorted(pair, key=place.get)) for pair in pairs]
    mend = mended(tuple(answer), relations)
    assert sorted(mend.order) == sorted(STEPS)
    assert not breaks(mend.order, relations)
