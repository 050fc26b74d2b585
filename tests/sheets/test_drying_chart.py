"""The figure of a drying: what stands where, on light and on dark ground."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from matplotlib.dates import date2num
from matplotlib.figure import Figure

from armorplan.drying.curve import Curve
from armorplan.sheets.chart_colours import DARK, LIGHT
from armorplan.sheets.drying_chart import (
    DryingFigure,
    Edge,
    WindowBar,
    draw_curve,
    draw_humidity,
    draw_temperature,
    draw_windows,
)
from armorplan.sheets.drying_sheet import drying_sheet, save_drying

START = datetime(2026, 11, 30, 17, tzinfo=UTC)
HOURS = tuple(START + timedelta(hours=hour) for hour in range(25))


def at(*hours: float | None) -> Edge:
    found = [None if h is None else START + timedelta(hours=h) for h in hours]
    return Edge(soonest_at=found[0], likely_at=found[1], latest_at=found[2])


def a_figure(**changes):
    figure = DryingFigure(
        title="Water dye, wet from Monday",
        sentences=("12 h instead of 8 h.",),
        trouble="",
        zone="Europe/Lisbon",
        start_at=START,
        until_at=HOURS[-1],
        windows=(
            WindowBar(
                name="Shape it", words="Mon 17:30", opens=at(0.3, 0.5, 0.7), closes=at(1, 1.5, 2)
            ),
            WindowBar(name="Dry to handle", words="Tue 05:00", opens=at(9, 12, 20)),
            WindowBar(name="Cured", words="Fri 05:00", opens=at(60, 84, None)),
            WindowBar(name="Worn", words="never", opens=at(None, None, None)),
        ),
        curve=Curve(
            at=HOURS,
            dry_pct_low=tuple(min(100.0, 5.0 * n) for n in range(25)),
            dry_pct_likely=tuple(min(100.0, 8.0 * n) for n in range(25)),
            dry_pct_high=tuple(min(100.0, 11.0 * n) for n in range(25)),
            temperature_c=(18.0,) * 12 + (9.0,) * 13,
            humidity_pct=(55.0,) * 12 + (80.0,) * 13,
            air_m_s=(0.1,) * 25,
        ),
    )
    return replace(figure, **changes)


@pytest.fixture
def axes():
    return Figure().add_subplot()


def hours_of(artist_x) -> list[float]:
    return [round((x - date2num(START)) * 24, 3) for x in artist_x]


def words_on(axes):
    return [text.get_text() for text in axes.texts]


def test_bars_lie_where_it_holds_likely_and_lines_where_the_ends_may_be(axes):
    draw_windows(axes, a_figure(), LIGHT)
    bars = [(patch.get_x(), patch.get_x() + patch.get_width()) for patch in axes.patches]
    bars = [hours_of(each) for each in bars if each[1] > each[0]]
    assert [0.5, 1.5] in bars  # opens to closes
    assert [12.0, 24.0] in bars  # dry, and stays so to the end of the figure
    ranges = [hours_of(date2num(line.get_xdata())) for line in axes.lines]
    assert ranges == [[0.3, 0.7], [1.0, 2.0], [9.0, 20.0]]
    assert [label.get_text() for label in axes.get_yticklabels()] == [
        "Shape it",
        "Dry to handle",
        "Cured",
        "Worn",
    ]


def test_words_stand_in_the_bar_behind_it_or_before_its_end(axes):
    draw_windows(axes, a_figure(), LIGHT)
    assert words_on(axes) == ["Mon 17:30", "Tue 05:00", "Fri 05:00 →", "never"]
    spots = [(hours_of([date2num(t.xy[0])])[0], t.get_ha()) for t in axes.texts]
    assert spots == [(1.5, "left"), (12.0, "left"), (24.0, "right"), (24.0, "right")]


def test_the_curve_has_its_band_and_says_when_it_does_not_do(axes):
    draw_curve(axes, a_figure(trouble="would spoil"), LIGHT)
    (likely, _) = axes.lines
    assert list(likely.get_ydata())[:4] == [0.0, 8.0, 16.0, 24.0]
    assert len(axes.collections) == 1
    assert words_on(axes) == ["would spoil"]


def test_the_air_names_its_units_and_the_coldest_that_a_film_forms_in(axes):
    figure = a_figure(film_c=10.0)
    draw_temperature(axes, figure, LIGHT)
    low, high = axes.get_ylim()
    assert low < 9.0
    assert high > 18.0
    assert words_on(axes) == ["no film below 10 °C"]
    axes.figure.canvas.draw()
    assert all(label.get_text().endswith(" °C") for label in axes.get_yticklabels())


def test_air_that_hardly_changes_looks_so_and_humidity_is_dashed(axes):
    steady = replace(a_figure().curve, temperature_c=(18.0,) * 25, humidity_pct=(99.0,) * 25)
    draw_humidity(axes, a_figure(curve=steady), LIGHT)
    low, high = axes.get_ylim()
    assert (round(low), round(high)) == (87, 103)
    assert axes.lines[0].is_dashed()


def test_now_is_marked_only_within_the_figure(axes):
    draw_curve(axes, a_figure(now_at=HOURS[3]), LIGHT)
    firsts = [date2num(list(line.get_xdata())[:1]) for line in axes.lines]
    assert [3.0] in [hours_of(first) for first in firsts]
    other = Figure().add_subplot()
    draw_curve(other, a_figure(now_at=START - timedelta(hours=1)), LIGHT)
    assert len(other.lines) == len(axes.lines) - 1


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_the_sheet_has_its_title_times_and_notes_on_its_ground(tmp_path, colours):
    sheet = drying_sheet(a_figure(notes=("Times: trade page.",)), colours)
    assert [text.get_text() for text in sheet.texts] == [
        "Water dye, wet from Monday",
        "12 h instead of 8 h.",
        "Times: trade page.",
    ]
    lowest = sheet.axes[-1]
    assert "00:00\nTue 1 Dec" in [label.get_text() for label in lowest.get_xticklabels()]
    assert len(sheet.axes) == 4
    save_drying(tmp_path / "a.png", a_figure(), colours)
    from matplotlib.image import imread

    corner = imread(tmp_path / "a.png")[0, 0, :3]
    assert (corner.mean() > 0.9) == (colours is LIGHT)


def contrast(one: str, other: str) -> float:
    """Ratio of WCAG 2.2, success criterion 1.4.3."""

    def light(colour: str) -> float:
        parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    brighter, darker = sorted((light(one), light(other)), reverse=True)
    return (brighter + 0.05) / (darker + 0.05)


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_words_and_lines_stand_out_from_their_ground(colours):
    for ground in (colours.ground, colours.night):
        for text in (colours.ink, colours.quiet, colours.warm, colours.damp, colours.alarm):
            assert contrast(text, ground) >= 4.5
        assert contrast(colours.drying, ground) >= 3
    assert contrast(colours.ink, colours.holds) >= 4.5
