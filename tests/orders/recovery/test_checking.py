"""The statement of a way back, held against faults planted in one that is sound."""

import pytest

from armorplan.orders.recovery.checking import faults_of
from armorplan.orders.recovery.model import Bar, Cost, Doing, Means, RecoveryProblem, TakeBack

COVER = Bar(id="hidden", first="boss", of=frozenset({"trim"}), bars_opening=True, why="Covered.")
SHUT = Bar(id="shut", first="strap", of=frozenset({"row_1", "row_2"}), why="The row is closed.")
TRIM_OFF = TakeBack(
    id="trim-off", means=Means.UNSCREW, title="Undo the trim", clears=frozenset({"trim"})
)
BOSS_OUT = TakeBack(
    id="boss-out", means=Means.DRILL, title="Drill the boss", clears=frozenset({"boss"})
)
ROW_OUT = TakeBack(
    id="row-out", means=Means.DRILL, title="Drill the last rivet", clears=frozenset({"row_2"})
)
STRAP = Doing(id="strap", does="strap", title="Set the strap", cost=Cost(minutes=4))
STAKE = Doing(
    id="stake",
    does="strap",
    title="Set the strap over the long stake",
    means=Means.OTHER_TOOL,
    in_spite_of=frozenset({"shut"}),
    leaves="A mark inside.",
)
ROW = Doing(id="row", does="row_2", title="Set the last rivet anew")
BOSS = Doing(id="boss", does="boss", title="Set the boss")
TRIM = Doing(id="trim", does="trim", title="Screw the trim on")
MOVES = (TRIM_OFF, BOSS_OUT, ROW_OUT, STRAP, STAKE, ROW, BOSS, TRIM)
PROBLEM = RecoveryProblem(
    done=frozenset({"row_1", "row_2", "boss", "trim"}),
    goal=frozenset({"row_1", "row_2", "boss", "trim", "strap"}),
    bars=(COVER, SHUT),
    moves=MOVES,
)


@pytest.mark.parametrize("moves", [(ROW_OUT, STRAP, ROW), (STAKE,)])
def test_a_sound_way_back_has_no_fault(moves):
    assert faults_of(PROBLEM, moves) == ()


@pytest.mark.parametrize(
    ("moves", "words"),
    [
        ((STRAP,), "comes too late"),
        ((BOSS_OUT, STAKE, BOSS), "cannot be got at"),
        ((TRIM_OFF, BOSS_OUT, TRIM, STAKE), "has to come first"),
        ((ROW_OUT, STRAP), "Not done at the end: row_2"),
        ((ROW_OUT, ROW_OUT, STRAP, ROW), "does not stand"),
        ((ROW_OUT, STRAP, STRAP, ROW), "stands already"),
        ((Doing(id="magic", does="strap", title="Wish"),), "no such move"),
    ],
)
def test_each_planted_fault_is_told(moves, words):
    assert any(words in fault for fault in faults_of(PROBLEM, moves))


def test_what_needs_a_step_open_is_refused_while_it_stands():
    anew = TakeBack(
        id="anew",
        means=Means.REMAKE,
        title="Cut the plate anew",
        clears=frozenset({"boss"}),
        needs_open=frozenset({"trim"}),
    )
    problem = RecoveryProblem(
        done=PROBLEM.done, goal=frozenset({"boss"}), bars=(), moves=(*MOVES, anew)
    )
    assert any("still stands" in fault for fault in faults_of(problem, (anew, BOSS)))
    assert faults_of(problem, (TRIM_OFF, anew, BOSS)) == ()
