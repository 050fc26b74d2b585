"""Taking back a word on a skill brings back what stood before it, and wipes nothing out."""

from dataclasses import replace
from datetime import timedelta

from hypothesis import given
from hypothesis import strategies as st
from store.shelf_of_builds import SIGNED

from armorplan.app.skill_history import last_said, standing, taking_back
from armorplan.workshop.shop import Person, Shop
from armorplan.workshop.skill_how import SkillHow
from armorplan.workshop.skills import with_skills

SHOP = Shop(
    people=(Person(id="ib", name="Ib", hours=()), Person(id="maud", name="Maud", hours=()))
)
LATER = SIGNED.at + timedelta(hours=1)
SAID = (SkillHow.ALONE, SkillHow.BESIDE, SkillHow.NOT_YET)


def word(kind, how, person="ib"):
    return replace(SIGNED, person=person, kind=kind, how=how, note="")


def back(words, person="ib"):
    return (*words, *taking_back(words, person, by="maud", at=LATER))


def holds(words, person="ib"):
    """By kind, what the shop goes by beside its file."""
    return dict(with_skills(SHOP, words).called(person).signed_off)


def test_nothing_said_is_nothing_to_take_back():
    assert taking_back((), "ib", by="maud", at=LATER) == ()
    assert last_said((), "ib") is None
    assert standing((), "ib") == {}


def test_what_stood_before_stands_again_and_then_the_file():
    words = (word("rivet", SkillHow.BESIDE), word("rivet", SkillHow.ALONE))
    once = back(words)
    assert once[:2] == words
    assert holds(once) == {"rivet": SkillHow.BESIDE}
    assert standing(once, "ib")["rivet"].at == words[0].at
    twice = back(once)
    assert holds(twice) == {}
    assert back(twice) == twice


def test_the_kind_that_was_spoken_of_last_is_taken_back_first():
    words = (
        word("rivet", SkillHow.ALONE),
        word("glue", SkillHow.NOT_YET),
        word("rivet", SkillHow.BESIDE),
        word("cut", SkillHow.ALONE, person="maud"),
    )
    seen = []
    while (last := last_said(words, "ib")) is not None:
        seen.append((last.kind, last.how))
        words = back(words)
    assert seen == [
        ("rivet", SkillHow.BESIDE),
        ("glue", SkillHow.NOT_YET),
        ("rivet", SkillHow.ALONE),
    ]
    assert holds(words, "maud") == {"cut": SkillHow.ALONE}


def test_who_says_that_the_file_counts_clears_the_whole_kind():
    words = (
        word("rivet", SkillHow.BESIDE),
        word("rivet", SkillHow.ALONE),
        word("rivet", SkillHow.AS_FILED),
    )
    assert holds(words) == {}
    assert last_said(words, "ib") is None


said = st.lists(
    st.one_of(
        st.builds(word, st.sampled_from(["rivet", "glue"]), st.sampled_from(SAID)),
        st.just("back"),
    ),
    max_size=10,
)


@given(said)
def test_taking_back_is_as_if_it_had_not_been_said(acts):
    """Against a plain list from which the last word is struck."""
    words, plain = (), []
    for act in acts:
        if act == "back":
            words, plain = back(words), plain[:-1]
        else:
            words, plain = (*words, act), [*plain, act]
        assert holds(words) == holds(tuple(plain))
        last = last_said(words, "ib")
        assert (last.kind, last.how) == (plain[-1].kind, plain[-1].how) if plain else last is None
