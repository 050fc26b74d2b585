"""Bars, blocks, lanes and clock labels of the coming days."""

from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from armorplan.app.rows import BenchState
from armorplan.app.week_rows import BarKind, By, LaneKind, Week, WeekBar, WeekLane
from armorplan.desktop.week_layout import (
    hour_step,
    hours,
    lanes,
    midnight,
    midnights,
    span,
)

LONDON = ZoneInfo("Europe/London")
NINE_AT = datetime(2026, 5, 4, 8, 0, tzinfo=UTC)


def bar(step, start_min, minutes, *, lane="Maker", state=BenchState.WAITING, **more):
    start_at = NINE_AT + timedelta(minutes=start_min)
    return WeekBar(
        key=step,
        step=step,
        title=step,
        kind=BarKind.DRIES if lane == "Drying" else BarKind.WORK,
        lane=lane,
        who=lane,
        start_at=start_at,
        end_at=start_at + timedelta(minutes=minutes),
        state=state,
        **more,
    )


def lane_of(name, kind=LaneKind.PERSON, **more):
    return WeekLane(id=name, name=name, kind=kind, **more)


def chart(*bars, lanes=None):
    return Week(
        by=By.PERSON,
        bars=bars,
        lanes=lanes or (lane_of("Maker"), lane_of("Drying", LaneKind.DRYING)),
        closed=(),
        now_at=NINE_AT,
        zone="Europe/London",
        reach=(NINE_AT, max(b.end_at for b in bars)),
    )


def blocks(lane):
    return [[b.step for b in block.bars] for block in lane.blocks]


def test_short_bars_in_a_row_are_one_block_and_part_when_one_zooms_in():
    shown = chart(bar("cut", 0, 5), bar("bevel", 5, 5), bar("punch", 10, 5), bar("dye", 90, 60))
    assert blocks(lanes(shown, 40)[0]) == [["cut", "bevel", "punch"], ["dye"]]
    assert blocks(lanes(shown, 900)[0]) == [["cut"], ["bevel"], ["punch"], ["dye"]]


def test_a_block_speaks_with_its_loudest_state_but_never_mixes_done_with_undone():
    shown = chart(
        bar("cut", 0, 5, state=BenchState.DONE),
        bar("bevel", 5, 5, state=BenchState.READY),
        bar("punch", 10, 5),
    )
    done, rest = lanes(shown, 40)[0].blocks
    assert (done.state, done.steps) == (BenchState.DONE, ("cut",))
    assert (rest.state, rest.steps) == (BenchState.READY, ("bevel", "punch"))


def test_pieces_that_dry_at_once_hang_in_rows_and_never_on_each_other():
    shown = chart(*(bar(f"dry {i}", 30 * i, 200, lane="Drying") for i in range(12)))
    lane = lanes(shown, 60)[1]
    assert lane.rails == frozenset(range(7))
    assert [s for block in lane.blocks for s in block.steps] == [f"dry {i}" for i in range(12)]
    for row in range(lane.rows):
        in_row = [b for b in lane.blocks if b.row == row]
        assert all(a.end_at <= b.start_at for a, b in pairwise(in_row))
    assert lane.rows == 7  # 200 min over a start each 30 min: seven at once


def test_pieces_hung_up_and_taken_down_together_are_one_block():
    shown = chart(*(bar(f"dry {i}", i, 300, lane="Drying") for i in range(3)))
    assert blocks(lanes(shown, 30)[1]) == [["dry 0", "dry 1", "dry 2"]]


def test_a_lane_without_bars_keeps_its_place():
    maker, drying = lanes(chart(bar("cut", 0, 5)), 40)
    assert (maker.rows, drying.rows, drying.blocks) == (1, 1, ())


def test_the_days_run_from_local_midnight_to_local_midnight():
    start_at, end_at = span(chart(bar("cut", 0, 5)), LONDON)
    assert start_at == datetime(2026, 5, 3, 23, 0, tzinfo=UTC)
    assert end_at == datetime(2026, 5, 4, 23, 0, tzinfo=UTC)


def test_a_day_may_have_23_or_25_hours():
    # Summer time in Europe/London: 29 March to 25 October 2026, from the IANA time zone database.
    for day, length_h in ((29, 23), (30, 24)):
        noon = datetime(2026, 3, day, 12, tzinfo=UTC)
        ahead = midnight(noon, LONDON, days=1) - midnight(noon, LONDON)
        assert ahead == timedelta(hours=length_h)
    autumn = list(
        midnights(
            datetime(2026, 10, 25, 1, tzinfo=UTC), datetime(2026, 10, 26, 1, tzinfo=UTC), LONDON
        )
    )
    assert autumn[1] - autumn[0] == timedelta(hours=25)


def test_clock_labels_keep_apart_and_leave_midnight_to_the_day():
    assert hour_step(60, 50) == 1
    assert hour_step(20, 50) == 3
    assert hour_step(1, 50) == 24
    day = (NINE_AT, NINE_AT + timedelta(days=1))
    local = [at.astimezone(LONDON).hour for at in hours(*day, LONDON, 6)]
    assert local == [12, 18, 6]


def test_a_block_of_several_builds_is_stamped_with_the_open_one():
    other = bar("sew", 0, 10, build="collar", build_title="Collar", tag="E")
    (block,) = lanes(chart(other, bar("cut", 12, 10, tag="A")), 40)[0].blocks
    assert block.tags == ("A", "E")
