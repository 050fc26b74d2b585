"""Skills signed off at the bench say who does which kind of step."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.workshop.shop import Person, Shop, one_maker, usual_hours
from armorplan.workshop.skill_how import SkillHow
from armorplan.workshop.skills import SignedOff, with_skills

HOURS = usual_hours()
MAKER = Person(id="maker", name="Maker", hours=HOURS)
KINDS = ("cut", "rivet", "dye")


def apprentice(**skills: tuple[str, ...]) -> Person:
    return Person(id="apprentice", name="Apprentice", hours=HOURS, **skills)


def said(how: SkillHow, kind: str = "rivet", person: str = "apprentice") -> SignedOff:
    at = datetime(2026, 12, 1, tzinfo=UTC)
    return SignedOff(person=person, kind=kind, how=how, by="maker", at=at)


def done(person: Person, kind: str = "rivet") -> tuple[bool, bool]:
    return person.does(kind), person.does_beside(kind)


def signed(person: Person, *rows: SignedOff) -> Person:
    return with_skills(Shop(people=(MAKER, person)), rows).people[1]


@pytest.mark.parametrize(
    ("skills", "alone", "beside"),
    [
        ({}, True, False),
        ({"can": ("cut",)}, False, False),
        ({"can": ("rivet",)}, True, False),
        ({"cannot": ("rivet",)}, False, False),
        ({"beside": ("rivet",)}, False, True),
        ({"can": ("cut",), "beside": ("rivet",)}, False, True),
        ({"can": ("cut", "rivet"), "beside": ("rivet",)}, False, True),
        ({"cannot": ("rivet",), "beside": ("rivet",)}, False, True),
    ],
    ids=[
        "all",
        "not named",
        "named",
        "cannot",
        "beside",
        "beside only",
        "over can",
        "over cannot",
    ],
)
def test_the_shop_file_says_what_somebody_does_alone_or_beside(skills, alone, beside):
    assert done(apprentice(**skills)) == (alone, beside)


@pytest.mark.parametrize(
    ("how", "expected"),
    [
        (SkillHow.ALONE, (True, False)),
        (SkillHow.BESIDE, (False, True)),
        (SkillHow.NOT_YET, (False, False)),
        (SkillHow.AS_FILED, (False, True)),
    ],
    ids=lambda value: str(value) if isinstance(value, SkillHow) else "",
)
def test_what_is_signed_off_goes_over_the_file(how, expected):
    assert done(signed(apprentice(beside=("rivet",)), said(how))) == expected


def test_only_the_kind_signed_off_changes():
    person = signed(apprentice(can=("cut",)), said(SkillHow.ALONE))
    assert [person.does(kind) for kind in KINDS] == [True, True, False]


def test_the_last_word_counts_and_taking_it_back_leaves_the_file():
    filed = apprentice(can=("cut",))
    assert done(signed(filed, said(SkillHow.ALONE), said(SkillHow.NOT_YET))) == (False, False)
    assert signed(filed, said(SkillHow.ALONE), said(SkillHow.AS_FILED)) == filed


def test_names_serve_as_ids_and_strangers_say_nothing():
    assert signed(apprentice(can=("cut",)), said(SkillHow.ALONE, person="APPRENTICE")).does(
        "rivet"
    )
    shop = one_maker()
    assert with_skills(shop, (said(SkillHow.NOT_YET, person="somebody else"),)) is shop


def test_a_shop_in_which_a_skill_was_signed_off_is_planned_by_it():
    shop = Shop(people=(MAKER, apprentice()))
    assert not shop.is_detailed
    assert with_skills(shop, (said(SkillHow.NOT_YET),)).is_detailed


rows = st.lists(
    st.builds(
        said,
        st.sampled_from(SkillHow),
        kind=st.sampled_from(KINDS),
        person=st.sampled_from(("maker", "apprentice", "stranger")),
    ),
    max_size=8,
)


@given(first=rows, then=rows)
def test_applied_anew_it_says_what_it_would_of_the_shop_as_filed(first, then):
    shop = Shop(people=(MAKER, apprentice(can=("cut",), beside=("dye",))))
    assert with_skills(with_skills(shop, first), then) == with_skills(shop, then)
    assert with_skills(with_skills(shop, first), ()) == shop


@given(said_rows=rows)
def test_of_each_person_and_kind_the_last_row_counts(said_rows):
    shop = Shop(people=(MAKER, apprentice(can=("cut",), beside=("dye",))))
    after = with_skills(shop, said_rows)
    for before, person in zip(shop.people, after.people, strict=True):
        for kind in KINDS:
            about = [r.how for r in said_rows if (r.person, r.kind) == (person.id, kind)]
            last = about[-1] if about else SkillHow.AS_FILED
            filed = before.how_filed(kind)
            assert person.how(kind) == (filed if last is SkillHow.AS_FILED else last)
        assert replace(person, signed_off=()) == before
