"""Of two that no relation orders reach tells as the chosen order has it: why, order and Shapes agree."""

import re
from shutil import copytree

import pytest

from armorplan.app.between_rows import between_row
from armorplan.app.derived import derive_build
from armorplan.app.named_work import named_work
from armorplan.app.opening import derive_folder
from armorplan.app.reach_between import both_ways
from armorplan.app.why_between import Answer
from armorplan.cli.program import run
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.measures import Topic
from armorplan.kernel.shipped import samples_folder
from armorplan.relations.model import Force
from armorplan.rules.reaching import LEAST_MIN
from armorplan.workshop.shop import one_maker


@pytest.fixture(scope="module")
def cop():
    shelf = read_shelf()
    pattern = read_pattern(read_folder(samples_folder() / "elbow_cop"), shelf).pattern
    return derive_build(pattern, shelf, one_maker(), build="a")


def test_by_then_the_order_has_the_other_row_shut_and_the_tab_is_better_done_before(cop, capsys):
    """The left row comes last of the two: what is set after it is set with both rows shut."""
    row = between_row(cop, "lace tab", "left row")
    assert (row.answer, row.force) == (Answer.BETTER, Force.EASIER)
    assert "is better done before the last of the joints of 'left row'" in row.sentence
    assert row.sentence.endswith("it costs about 40 seconds more.")
    (link,) = row.chain
    assert link.rule == "easier-while-open"
    assert link.price_min == pytest.approx(row.price_min)
    assert "75 of its 250 mm in" in link.text
    assert "Set after, with right row shut by then in the order chosen here" in row.other_order[0]
    assert "75 of its 250 mm in; that costs about 40 seconds more." in row.other_order[0]
    assert "2 of 2' (75 mm in, about 40 seconds more)" in row.other_order[1]
    # The same joint, depth and minutes stand under the left row in the order.
    assert run(["order", "elbow_cop"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert link.text in said.partition("Rivet left row, 1 of 7")[0]
    # And in the shapes.
    (seat,) = [
        m for m in cop.shapes if m.topic is Topic.REACH and m.id == "reach:seats:petal_middle"
    ]
    (deep,) = [f.value for f in seat.figures if f.name.startswith("way in along")]
    assert round(deep) == 75


def test_what_the_maker_overruled_is_no_reason_any_more(tmp_path):
    folder = tmp_path / "elbow_cop"
    copytree(samples_folder() / "elbow_cop", folder)
    file = folder / "pattern.toml"
    extra = '\n[overruled.open_row]\nrule = "easier-while-open"\nnote = "My stake reaches."\n'
    file.write_text(file.read_text(encoding="utf-8") + extra, encoding="utf-8")
    derived = derive_folder(folder, read_shelf(), one_maker("UTC"))
    for asked in (("lace tab", "row:left_row"), ("row:left_row", "lace tab")):
        row = between_row(derived, *asked)
        assert row.answer == Answer.FREE
        assert not row.chain


def test_asked_the_other_way_round_the_answer_is_the_same(cop):
    one, other = (
        between_row(cop, "lace tab", "left row"),
        between_row(cop, "left row", "lace tab"),
    )
    assert other.answer == Answer.BETTER_LATER
    assert other.price_min == pytest.approx(one.price_min)
    assert other.chain == one.chain
    assert one.sentence in other.sentence


def test_head_and_body_agree_on_every_pair_of_seat_and_row(cop):
    for seat in ("buckle_inner", "buckle_outer", "strap_rim", "boss", "lace tab"):
        for other in ("row:left_row", "row:right_row", "left_row_1"):
            row = between_row(cop, seat, other)
            said = " ".join((row.sentence, *(link.text for link in row.chain), *row.other_order))
            if row.answer == Answer.FREE:
                assert "Nothing forces it" in row.sentence
                assert not re.search(r"costs about \d+ (seconds|minutes) more\.", said), said
            else:
                assert "better done before" in row.sentence
                assert row.price_min >= LEAST_MIN


def test_more_set_before_never_makes_the_other_order_cheaper(cop):
    """All that the order has set by then narrows the way in: alone, with less set, it costs no more."""
    (lasts,) = named_work(cop, "row:left_row").by_side.values()
    (tabs,) = named_work(cop, "lace tab").by_side.values()
    for tab in tabs:
        costs = [both_ways(cop, tab, lasts[: n + 1]).dearer_min for n in range(len(lasts))]
        assert costs == sorted(costs)
