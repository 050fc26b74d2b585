"""Sentences about reach: places, the opening as it stands, the way in with its numbers."""

import pytest

from armorplan.app.reach_rows import (
    JointReach,
    Opening,
    ReachStop,
    RowReach,
    RowsInWay,
    WayIn,
)
from armorplan.desktop.closing_words import (
    need_words,
    opening_words,
    place_words,
    row_words,
    way_words,
)
from armorplan.desktop.standing_glyphs import standing_word
from armorplan.geometry.reach.model import Margin, Standing, Through, Way

STOPS = (
    ReachStop(step="s1", title="Rivet left row, 1 of 2", joints=("a",)),
    ReachStop(step="s2", title="Rivet left row, 2 of 2", joints=("b",)),
)


def margin(standing: Standing, least_mm: float = 140.0) -> Margin:
    way = Way(
        through=Through.RIM, name="rim-1", along_mm=182.0, least_mm=least_mm, opening_mm=96.0
    )
    return Margin(standing=standing, tool="horn", way=way, opening_mm=96.0, reach_mm=150.0)


MOUTH = Opening(words="by the mouth", wide_mm=96.0)


def way(
    reach: JointReach, bars: tuple[RowsInWay, ...] = (), opening: Opening | None = MOUTH
) -> WayIn:
    return WayIn(
        joint="a",
        title="Rivet strap",
        reach=reach,
        opening=opening,
        tool="Horn anvil",
        barred_by=bars,
    )


@pytest.mark.usefixtures("qapp")
def test_a_place_says_how_many_are_set_and_what_comes_next():
    assert place_words(STOPS, 1) == "1 of 2 set. Next: Rivet left row, 2 of 2"
    assert place_words(STOPS, 2) == "2 of 2 set. All is closed."


@pytest.mark.usefixtures("qapp")
def test_the_way_in_tells_length_opening_and_reach():
    told = way_words(way(JointReach(id="a", is_set=False, margin=margin(Standing.END))))
    assert told == (
        "Chosen: at the end of reach, 140 to 182 mm in by the mouth (96 mm wide). "
        "Horn anvil reaches 150 mm."
    )


@pytest.mark.usefixtures("qapp")
def test_an_opening_tells_its_width_as_it_stands():
    assert opening_words(Opening(words="from the edge")) == "from the edge"
    half = Opening(words="by the mouth", wide_mm=77.7, once_shut=True)
    assert opening_words(half) == "by the mouth (78 mm wide once all is closed)"
    ball = Opening(words="by the mouth", wide_mm=144.0, at_most=True)
    assert opening_words(ball) == "by the mouth (at most 144 mm wide)"
    row = Opening(words="by the open left row", wide_mm=37.6, row="left_row")
    assert opening_words(row) == "by the open left row, which gapes 38 mm there"


@pytest.mark.usefixtures("qapp")
def test_what_lies_flat_takes_any_tool():
    flat = JointReach(id="a", is_set=False, margin=Margin(standing=Standing.FLAT))
    assert way_words(way(flat, opening=None)) == "Chosen: lies flat, any tool serves."


@pytest.mark.usefixtures("qapp")
def test_what_was_set_in_time_is_told_so():
    done = JointReach(id="a", is_set=True, margin=Margin(standing=Standing.CANNOT))
    told = way_words(way(done, opening=None))
    assert told == "Chosen, set in time; by now out of reach, no tool goes in."


@pytest.mark.usefixtures("qapp")
def test_rows_that_bar_together_are_told_with_what_they_do():
    bars = (
        RowsInWay(rows=frozenset("lr"), names=("left row", "right row"), standing=Standing.CANNOT),
        RowsInWay(rows=frozenset("t"), names=("top row",), standing=Standing.CANNOT),
        RowsInWay(rows=frozenset("l"), names=("left row",), standing=Standing.END, along_mm=181.6),
    )
    told = way_words(way(JointReach(id="a", is_set=False, margin=margin(Standing.INSIDE)), bars))
    assert told.endswith(
        "Out of reach once closed: left row and right row; or top row. "
        "At the end of reach, up to 182 mm in, once closed: left row."
    )


@pytest.mark.usefixtures("qapp")
def test_what_no_shell_holds_and_what_no_tool_fits_is_said():
    assert way_words(way(JointReach(id="a", is_set=False))) == "Chosen: no shell is in its way."
    none = JointReach(id="a", is_set=False, margin=Margin(standing=Standing.CANNOT))
    assert way_words(way(none, opening=None)) == "Chosen: out of reach, no tool goes in."


@pytest.mark.usefixtures("qapp")
def test_a_length_that_is_certain_is_one_number():
    assert need_words(margin(Standing.INSIDE, least_mm=182.0)) == "182 mm"


@pytest.mark.usefixtures("qapp")
def test_where_a_straight_tool_may_need_nothing_only_the_most_is_told():
    assert need_words(margin(Standing.INSIDE, least_mm=0.0)) == "up to 182 mm"


@pytest.mark.usefixtures("qapp")
def test_a_row_tells_its_gape_until_it_is_closed():
    def row(*gapes: float | None) -> RowReach:
        is_set = tuple(gape == 0.0 for gape in gapes)
        return RowReach(id="l", name="left row", joints=("a", "b"), is_set=is_set, gapes_mm=gapes)

    told = [row_words(row(*gapes)) for gapes in ((None, None), (0.0, 12.4), (0.0, 0.0))]
    assert told == ["left row: open", "left row: gapes 12 mm", ""]


@pytest.mark.usefixtures("qapp")
def test_every_standing_has_a_word_of_its_own():
    assert len({standing_word(standing) for standing in Standing}) == len(Standing)
