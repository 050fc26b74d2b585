"""A mistake is kept in the ledger as it was told."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.recovery.mistakes import (
    WHICH_WAY,
    Mistake,
    MistakeKind,
    kind_of,
    mistake_from,
    mistake_text,
)

MISTAKES = st.builds(
    Mistake,
    kind=st.sampled_from(MistakeKind),
    about=st.lists(st.text(max_size=6), max_size=3).map(tuple),
    mm=st.floats(min_value=0, max_value=50),
    darker=st.sampled_from((None, True, False)),
    note=st.text(max_size=8),
)


@given(MISTAKES)
def test_a_mistake_reads_back_as_it_was_told(mistake):
    text = mistake_text(mistake)
    assert "\n" not in text
    assert mistake_from(text) == mistake


def test_a_kind_is_found_by_its_slug_and_by_its_words():
    for kind in MistakeKind:
        assert kind_of(kind.slug) is kind
        assert kind_of(kind.value) is kind
    assert kind_of("melted") is None


@pytest.mark.parametrize("kind", list(WHICH_WAY))
def test_which_way_it_is_out_reads_back_and_an_unknown_way_is_not_known(kind):
    for way in ("", *WHICH_WAY[kind]):
        mistake = Mistake(kind=kind, about=("a",), way=way)
        assert mistake_from(mistake_text(mistake)) == mistake
    assert mistake_from(mistake_text(Mistake(kind=kind, about=("a",), way="up"))).way == ""


def test_what_a_later_version_adds_is_passed_over():
    text = '{"kind": "spoilt", "about": ["lame_1"], "how_bad": 3}'
    assert mistake_from(text) == Mistake(kind=MistakeKind.SPOILT, about=("lame_1",))


@pytest.mark.parametrize(
    "text",
    ["", "[]", "{}", '{"kind": "melted", "about": []}', '{"kind": "spoilt", "about": 3}', "3"],
)
def test_what_tells_no_mistake_is_refused_in_words(text):
    with pytest.raises(ArmorplanError, match="no mistake that is known"):
        mistake_from(text)
