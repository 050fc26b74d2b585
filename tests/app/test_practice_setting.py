"""The exercise that is worth most now is looked for among real ones, and not for ever."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from armorplan.app import practice_setting
from armorplan.app.practice_reasons import BuildReasons
from armorplan.app.practice_setting import MOST_TRIES, ComingAsked, FindComing
from armorplan.practice.drill import AnswerForm, Asked, Choice, Drill, DrillKind, Level
from armorplan.practice.grades import Grade, Review
from armorplan.practice.memory import met

AT = datetime(2027, 3, 1, 9, tzinfo=UTC)
ORDER, FIRST, DRY = DrillKind.ORDER, DrillKind.FIRST, DrillKind.DRY
PLAIN = Asked(kind=ORDER, seed=1)
MISSED = met(None, Review(at=AT, grade=Grade.MISSED))


class Makers:
    """Stands for the makers: which rules an exercise of a kind needs, and which it never does."""

    def __init__(self) -> None:
        self.rules = {ORDER: None, FIRST: ("reach-before-closed",), DRY: ()}
        """``None``: whatever is asked for."""
        self.none = set()
        self.asked = []
        self.alike = 1
        """So many seeds make the same exercise."""

    def __call__(self, _source, asked):
        self.asked.append(asked)
        if asked.kind in self.none:
            return None
        needed = self.rules[asked.kind]
        rules = (asked.focus,) if needed is None and asked.focus else needed or ()
        name = str(asked.seed // self.alike)
        return Drill(
            asked=asked,
            title=asked.kind.value,
            question="",
            choices=(Choice(id=name, title=name),),
            form=AnswerForm.ONE,
            rules=rules,
        )


@pytest.fixture
def makers(monkeypatch):
    made = Makers()
    monkeypatch.setattr(practice_setting, "drill_for", made)
    return made


@pytest.fixture
def reasons(pairs):
    return BuildReasons(pairs)


def find(reasons, **asked):
    given = {"kinds": (ORDER,), "former": (), "last": None, "memories": {}, "at": AT, "seed": 1}
    return FindComing(None, reasons, ComingAsked(**{**given, **asked}))()


def test_it_needs_the_reason_that_was_missed(makers, reasons):
    found = find(reasons, memories={"dye-oil-finish": MISSED})
    assert found.rules == ("dye-oil-finish",)
    assert found.asked.level is Level.STRAP


def test_the_kind_that_can_ask_it_is_found_and_the_others_are_not_tried_again(makers, reasons):
    memories = {"dye-oil-finish": MISSED}
    for _ in range(3):
        find(reasons, kinds=(FIRST, ORDER), memories=memories)
    wanted = [one.kind for one in makers.asked if one.focus == "dye-oil-finish"]
    assert wanted == [FIRST, ORDER, ORDER, ORDER]


def test_a_kind_that_asks_what_is_rare_has_its_turn_unless_something_was_missed(makers, reasons):
    former = tuple(replace(PLAIN, kind=ORDER, seed=seed) for seed in range(8))
    # Each time one kind that is not known yet is looked at.
    for _ in range(2):
        find(reasons, kinds=(ORDER, FIRST))
    found = find(reasons, kinds=(ORDER, FIRST), former=former, seed=20)
    assert found.asked.kind is FIRST
    assert found.asked.focus == "reach-before-closed"
    missed = {"dye-oil-finish": MISSED}
    found = find(reasons, kinds=(ORDER, FIRST), former=former, seed=20, memories=missed)
    assert found.asked.focus == "dye-oil-finish"


def test_where_no_kind_can_ask_it_another_reason_is_asked_before_long(makers, reasons):
    found = find(reasons, kinds=(DRY,))
    assert found.asked.kind is DRY
    assert len(makers.asked) <= MOST_TRIES + 2


def test_a_kind_of_which_the_build_holds_nothing_is_passed_over(makers, reasons):
    makers.none = {ORDER}
    assert find(reasons) is None
    assert find(reasons, kinds=(ORDER, FIRST)).asked.kind is FIRST


def test_the_same_exercise_under_another_seed_is_not_set_again(makers, reasons):
    makers.alike = 2
    last = find(reasons, seed=2)
    again = find(reasons, seed=3, last=last)
    assert again.choices != last.choices
    assert again.asked.seed == 4


def test_the_last_exercise_of_an_earlier_sitting_is_not_set_again_either(makers, reasons):
    makers.alike = 2
    last = find(reasons, seed=2)
    again = find(reasons, seed=3, last=last.asked)
    assert again == find(reasons, seed=3, last=last)
    assert again.choices != last.choices


def test_a_build_that_holds_one_exercise_alone_says_that_there_is_no_other(makers, reasons):
    makers.alike = 1000
    last = find(reasons, seed=2)
    assert find(reasons, seed=3, last=last) is None


def test_what_is_wished_for_rules(makers, reasons, pairs):
    piece = pairs.pattern.pieces[0].id
    found = find(reasons, level=Level.PIECE, piece=piece)
    assert (found.asked.level, found.asked.piece) == (Level.PIECE, piece)
    assert all(one.piece == piece for one in makers.asked)


def test_nothing_that_was_found_out_before_changes_what_is_asked_but_the_time_it_takes(
    makers, reasons, pairs
):
    memories = {"dye-oil-finish": MISSED}
    first = find(reasons, kinds=(FIRST, ORDER), memories=memories)
    anew = find(BuildReasons(pairs), kinds=(FIRST, ORDER), memories=memories)
    again = find(reasons, kinds=(FIRST, ORDER), memories=memories)
    assert first == anew == replace(again)
