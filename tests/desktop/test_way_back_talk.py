"""What went wrong, asked one question at a time."""

import pytest

from armorplan.app.rows import Selection
from armorplan.desktop.way_back_places import places_of
from armorplan.desktop.way_back_talk import DARKER, NOT_KNOWN, TAKEN_MM, Choice, WayBackTalk
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind

PLACES = {
    kind: (
        Choice(key="one", text="One", about=("a/one",)),
        Choice(key="two", text="Two", about=("a/two", "a/three")),
    )
    for kind in MistakeKind
}


def told(*keys):
    """Answer with these keys; return what came of the last."""
    talk = WayBackTalk(PLACES)
    *first, last = keys
    assert [talk.take(key) for key in first] == [None] * len(first)
    return talk.take(last)


@pytest.mark.parametrize(
    ("keys", "mistake"),
    [
        (("closed", "two"), Mistake(kind=MistakeKind.CLOSED, about=("a/two", "a/three"))),
        (("two-alike", "one"), Mistake(kind=MistakeKind.TWO_ALIKE, about=("a/one",))),
        (
            ("spoilt", "one", "shape"),
            Mistake(kind=MistakeKind.SPOILT, about=("a/one",), way="shape"),
        ),
        (
            ("spoilt", "one", "edge", "3"),
            Mistake(kind=MistakeKind.SPOILT, about=("a/one",), way="edge", mm=3.0),
        ),
        (
            ("wrong-hole", "one", "4", "edge"),
            Mistake(kind=MistakeKind.WRONG_HOLE, about=("a/one",), mm=4.0, way="edge"),
        ),
        (
            ("row-off", "one", NOT_KNOWN, NOT_KNOWN),
            Mistake(kind=MistakeKind.ROW_OFF, about=("a/one",), mm=0.0),
        ),
        (
            ("wrong-colour", "one", DARKER),
            Mistake(kind=MistakeKind.WRONG_COLOUR, about=("a/one",), darker=True),
        ),
        (
            ("wrong-colour", "one", "neither"),
            Mistake(kind=MistakeKind.WRONG_COLOUR, about=("a/one",), darker=None),
        ),
    ],
)
def test_two_to_four_answers_tell_each_mistake(keys, mistake):
    assert told(*keys) == mistake


def test_back_asks_the_question_before_with_the_former_answer_in_hand():
    talk = WayBackTalk(PLACES)
    assert not talk.back()
    talk.take("wrong-hole")
    talk.take("two")
    assert talk.screen().choices[talk.screen().at].key == TAKEN_MM
    talk.take("4")
    assert talk.back()
    assert talk.screen().choices[talk.screen().at].key == "4"
    assert talk.back()
    assert talk.screen().at == 1
    assert talk.back()
    assert talk.is_first
    assert talk.screen().choices[talk.screen().at].key == "wrong-hole"


def test_another_kind_begins_with_its_first_place():
    talk = WayBackTalk(PLACES)
    talk.take("wrong-hole")
    talk.take("two")
    talk.back()
    talk.back()
    talk.take("spoilt")
    assert talk.screen().at == 0


def test_what_is_not_offered_is_not_taken():
    talk = WayBackTalk({MistakeKind.SPOILT: PLACES[MistakeKind.SPOILT]})
    assert [choice.key for choice in talk.screen().choices] == ["spoilt"]
    with pytest.raises(KeyError):
        talk.take("closed")


def test_of_a_closed_row_one_may_have_been_left_out():
    each = tuple(Choice(key=one, text=one, about=(one,)) for one in ("r/1", "r/2", "r/3"))
    row = Choice(key="row", text="Row", about=("r/1", "r/2", "r/3"), each=each)
    answers = {}
    for key in ("all", "r/2"):
        talk = WayBackTalk({MistakeKind.CLOSED: (row,)})
        assert talk.take("closed") is None
        assert talk.take("row") is None
        assert talk.screen().at == 0
        answers[key] = talk.take(key).about
    assert answers == {"all": ("r/1", "r/2", "r/3"), "r/2": ("r/1", "r/3")}


def test_each_kind_keeps_its_digit_and_the_likeliest_is_in_hand():
    likely = {kind: PLACES[kind] for kind in (MistakeKind.SPOILT, MistakeKind.CLOSED)}
    (closed, spoilt), at = WayBackTalk(likely).screen().choices, WayBackTalk(likely).screen().at
    assert (closed.key, closed.number) == ("closed", 1)
    assert (spoilt.key, spoilt.number) == ("spoilt", 6)
    assert at == 1
    assert [one.number for one in WayBackTalk(PLACES).screen().choices] == [1, 2, 3, 4, 5, 6]


def test_what_is_chosen_is_offered_first(session):
    step = next(s for s in session.steps if s.joints)
    places = places_of(session, session.choose_steps((step.id,)))
    assert places[MistakeKind.CLOSED][0].about == (step.id,)
    assert step.id in places[MistakeKind.CLOSED][1].about
    assert {one.about[0] for one in places[MistakeKind.SPOILT][:2]} == set(step.parts)
    holes = places[MistakeKind.WRONG_HOLE]
    assert step.title in holes[0].text
    assert {hole.about[0].partition("/")[0] for hole in holes} == set(step.parts)


def test_what_is_ticked_already_does_not_count_as_closed_too_soon(session):
    steps = tuple(s.id for s in session.steps if s.joints)
    before = {one for c in places_of(session, Selection())[MistakeKind.CLOSED] for one in c.about}
    assert before == set(steps)
    session.done(steps[:1])
    after = {one for c in places_of(session, Selection())[MistakeKind.CLOSED] for one in c.about}
    assert after == set(steps[1:])


def test_two_of_one_hand_are_asked_of_pairs_alone(session):
    assert places_of(session, Selection())[MistakeKind.TWO_ALIKE] == ()
