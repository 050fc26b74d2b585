import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import UnreadableError
from armorplan.workshop.fastening import choose_length, pinched_mm
from armorplan.workshop.shelf import Fastener

CAP = Fastener(
    id="cap",
    name="Cap rivet",
    kind="rivet",
    head_mm=9.0,
    hole_mm=3.5,
    lengths_mm=(6.0, 8.0, 10.0, 12.0),
    over_stack_mm=(0.0, 3.0),
    source="example",
)


@pytest.mark.parametrize(
    ("stack_mm", "length_mm"),
    [(6.4, 6.0), (6.6, 8.0), (7.2, 8.0), (9.9, 10.0), (13.1, None), (3.0, None), (3.3, 6.0)],
)
def test_the_shortest_post_that_reaches_through_the_pinched_stack(stack_mm, length_mm):
    assert choose_length(stack_mm, CAP, pinch_pct=7.5) == length_mm


@given(st.floats(0.5, 20.0), st.floats(0.0, 15.0))
def test_no_shorter_post_would_do_and_none_is_found_only_where_none_fits(stack_mm, pinch_pct):
    grip = pinched_mm(stack_mm, pinch_pct=pinch_pct)
    fitting = [n for n in CAP.lengths_mm if grip - 1e-9 <= n <= grip + 3.0 + 1e-9]
    assert choose_length(stack_mm, CAP, pinch_pct=pinch_pct) == (fitting[0] if fitting else None)


def test_softer_leather_takes_a_shorter_post():
    assert choose_length(6.6, CAP, pinch_pct=5.0) == 8.0
    assert choose_length(6.6, CAP, pinch_pct=10.0) == 6.0


@pytest.mark.parametrize(
    ("line", "wanted"), [('motion = "loose"', '"turning"'), ('foot = "nut"', '"burr"')]
)
def test_what_a_fastener_does_and_ends_in_is_one_of_a_few_words(tmp_path, line, wanted):
    (tmp_path / "fasteners.toml").write_text(f"[tubular_9]\n{line}\n", encoding="utf-8")
    with pytest.raises(UnreadableError) as caught:
        read_shelf(own=tmp_path)
    (found,) = caught.value.findings
    assert found.code == "wrong-value"
    assert wanted in str(found)


def test_a_maker_s_own_fastener_can_clamp(tmp_path):
    text = '[tubular_9]\nmotion = "fixed"\nfoot = "cap"\n'
    (tmp_path / "fasteners.toml").write_text(text, encoding="utf-8")
    own = read_shelf(own=tmp_path).fastener("tubular_9")
    assert (own.motion, own.foot) == ("fixed", "cap")
