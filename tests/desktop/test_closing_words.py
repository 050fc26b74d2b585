"""Sentences about reach: places, what is lost, the way in with its numbers."""

from math import inf

import pytest

from armorplan.app.reach_rows import (
    JointReach,
    ReachFrame,
    ReachStop,
    RowReach,
    RowsInWay,
    WayIn,
)
from armorplan.desktop.closing_words import (
    counts,
    lost_words,
    need_words,
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


def margin(standing: Standing, opening_mm: float | None = 96.0, least_mm: float = 140.0) -> Margin:
    way = Way(
        through=Through.RIM, name="rim-1", along_mm=182.0, least_mm=least_mm, opening_mm=96.0
    )
    return Margin(standing=standing, tool="horn", way=way, opening_mm=opening_mm, reach_mm=150.0)


def way(reach: JointReach, bars: tuple[RowsInWay, ...] = ()) -> WayIn:
    return WayIn(
        joint="a",
        title="Rivet strap",
        reach=reach,
        through="the mouth",
        tool="Horn anvil",
        barred_by=bars,
    )


@pytest.mark.usefixtures("qapp")
def test_a_place_says_how_many_are_set_and_what_comes_next():
    assert place_words(STOPS, 1) == "1 of 2 set. Next: Rivet left row, 2 of 2"
    assert place_words(STOPS, 2) == "2 of 2 set. All is closed."


@pytest.mark.usefixtures("qapp")
def test_what_is_lost_and_not_set_is_told_before_what_was_set_in_time():
    joints = (JointReach(id="a", is_set=True), JointReach(id="b", is_set=False))
    titles = {"a": "Rivet A", "b": "Rivet B"}
    late = ReachFrame(at=1, joints=joints, rows=(), lost=("a", "b"))
    assert lost_words(late, titles) == "Out of reach from here on, and not set yet: Rivet B."
    early = ReachFrame(at=1, joints=joints, rows=(), lost=("a",))
    assert lost_words(early, titles) == "Out of reach from here on, and set in time: Rivet A."
    assert lost_words(ReachFrame(at=1, joints=joints, rows=()), titles) == ""


@pytest.mark.usefixtures("qapp")
def test_the_way_in_tells_length_opening_and_reach():
    told = way_words(way(JointReach(id="a", is_set=False, margin=margin(Standing.END))))
    assert told == (
        "Chosen: reach may end. It takes 140 to 182 mm in through the mouth (96 mm wide). "
        "Horn anvil reaches 150 mm."
    )


@pytest.mark.usefixtures("qapp")
def test_an_opening_as_wide_as_one_likes_has_no_number():
    told = way_words(way(JointReach(id="a", is_set=True, margin=margin(Standing.INSIDE, inf))))
    assert told.startswith("Chosen, set already: deep inside. It takes 140 to 182 mm in through")
    assert "wide" not in told
    assert "inf" not in told


@pytest.mark.usefixtures("qapp")
def test_rows_that_bar_together_are_told_with_what_they_do():
    bars = (
        RowsInWay(rows=frozenset("lr"), names=("left row", "right row"), standing=Standing.CANNOT),
        RowsInWay(rows=frozenset("t"), names=("top row",), standing=Standing.CANNOT),
        RowsInWay(rows=frozenset("l"), names=("left row",), standing=Standing.END),
    )
    told = way_words(way(JointReach(id="a", is_set=False, margin=margin(Standing.INSIDE)), bars))
    assert told.endswith(
        "Out of reach once closed: left row and right row; or top row. "
        "Reach may end once closed: left row."
    )


@pytest.mark.usefixtures("qapp")
def test_what_no_shell_holds_and_what_no_tool_fits_is_said():
    assert way_words(way(JointReach(id="a", is_set=False))) == "Chosen: no shell is in its way."
    none = JointReach(id="a", is_set=False, margin=Margin(standing=Standing.CANNOT))
    assert way_words(way(none)) == "Chosen: out of reach. No tool fits."


@pytest.mark.usefixtures("qapp")
def test_a_length_that_is_certain_is_one_number():
    assert need_words(margin(Standing.INSIDE, least_mm=182.0)) == "182 mm"


@pytest.mark.usefixtures("qapp")
def test_only_what_is_met_is_counted_and_what_is_set_counts_for_none():
    joints = (
        JointReach(id="a", is_set=True, margin=margin(Standing.CANNOT)),
        JointReach(id="b", is_set=False, margin=margin(Standing.INSIDE)),
        JointReach(id="c", is_set=False),
    )
    frame = ReachFrame(at=1, joints=joints, rows=())
    assert counts(frame) == ((Standing.INSIDE, 1), (Standing.CANNOT, 0))


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
