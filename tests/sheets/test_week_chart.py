"""The figure of the days: nothing overlaps, everything is named, the picture is a picture."""

import itertools
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.sheets.week_bars import (
    DayBar,
    DaysFigure,
    gather,
    legend,
    stack,
    stretches,
)
from armorplan.sheets.week_chart import draw_days, save_days

MONDAY = datetime(2026, 11, 30, tzinfo=UTC)


def bar(start_min: int, end_min: int, *, lane: str = "Maker", drying: bool = False) -> DayBar:
    return DayBar(
        title=f"Step {start_min}",
        lane=lane,
        start_at=MONDAY + timedelta(minutes=start_min),
        end_at=MONDAY + timedelta(minutes=end_min),
        drying=drying,
    )


def figure(*bars: DayBar) -> DaysFigure:
    return DaysFigure(
        title="Elbow cop",
        sentence="This plan cannot be shortened.",
        zone="UTC",
        bars=bars,
        lanes=("Maker", "Drying"),
        closed=((MONDAY, MONDAY + timedelta(hours=9)),),
        now_at=MONDAY + timedelta(hours=9),
    )


@given(st.lists(st.tuples(st.integers(0, 3000), st.integers(1, 900)), max_size=12))
def test_stacked_bars_never_overlap(spans):
    rows = stack([bar(start, start + minutes) for start, minutes in spans])
    assert sum(len(row) for row in rows) == len(spans)
    for row in rows:
        for former, later in itertools.pairwise(row):
            assert former.end_at <= later.start_at


def test_work_after_a_short_break_is_one_stretch():
    (first, second) = gather([bar(0, 3), bar(3, 6), bar(60, 70)], within=timedelta(minutes=20))
    assert first.title == "Step 0 and 1 more"
    assert first.end_at == MONDAY + timedelta(minutes=6)
    assert second.title == "Step 60"


def test_the_legend_numbers_hands_on_work_only():
    shown = figure(bar(540, 600), bar(600, 2000, lane="Drying", drying=True), bar(800, 860))
    assert len(stretches(shown)) == 2
    assert legend(shown)[0] == "1  Mon 30 Nov 09:00–10:00  Maker: Step 540"


def test_clock_times_are_the_shop_s():
    shown = figure(bar(540, 600))
    lisbon = DaysFigure(
        **{**{f: getattr(shown, f) for f in shown.__slots__}, "zone": "Asia/Tokyo"}
    )
    assert "18:00–19:00" in legend(lisbon)[0]


@pytest.mark.parametrize("ending", ["png", "svg", "pdf"])
def test_a_picture_is_written(tmp_path, ending):
    file = tmp_path / f"days.{ending}"
    save_days(file, figure(bar(540, 600), bar(600, 2000, lane="Drying", drying=True)))
    start = file.read_bytes()[:200]
    assert {"png": b"PNG", "svg": b"<?xml", "pdf": b"%PDF"}[ending] in start


def test_an_empty_plan_is_a_picture_too(tmp_path):
    save_days(tmp_path / "empty.png", figure())
    assert (tmp_path / "empty.png").stat().st_size > 1000


def test_days_are_named_in_local_time_also_where_the_clock_changes():
    """Berlin put its clocks back in the night to Sunday 26 October 2025: a day of 25 hours."""
    from matplotlib.figure import Figure

    shown = figure()
    saturday = datetime(2025, 10, 25, 7, tzinfo=UTC)
    changes = {
        "zone": "Europe/Berlin",
        "closed": (),
        "now_at": saturday,
        "bars": (
            DayBar(
                title="Light oil",
                lane="Drying",
                start_at=saturday,
                end_at=saturday + timedelta(days=2),
                drying=True,
            ),
        ),
    }
    berlin = DaysFigure(**{**{f: getattr(shown, f) for f in shown.__slots__}, **changes})
    axes = Figure().add_subplot()
    draw_days(axes, berlin)
    names = [label.get_text().strip() for label in axes.get_xticklabels()]
    assert names == ["Sat 25 Oct", "Sun 26 Oct", "Mon 27 Oct"]
    first, second, third = axes.get_xticks()
    assert second - first == pytest.approx(1)
    assert third - second == pytest.approx(25 / 24)
    assert "now" in [text.get_text() for text in axes.texts]
