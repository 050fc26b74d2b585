"""The figure of a drying: what stands where, on light and on dark ground."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from contrasts import contrast
from matplotlib.dates import date2num
from matplotlib.figure import Figure

from armorplan.drying.curve import Curve
from armorplan.drying.instants import Instants
from armorplan.sheets.chart_colours import DARK, LIGHT
from armorplan.sheets.drying_chart import draw_drying
from armorplan.sheets.drying_figure import (
    DryingFigure,
    DryingPaper,
    Shades,
    WindowBar,
    day,
)
from armorplan.sheets.drying_layout import PX_AN_INCH, ChartLook
from armorplan.sheets.drying_sheet import drying_sheet, save_drying

START = datetime(2026, 11, 30, 17, tzinfo=UTC)
HOURS = tuple(START + timedelta(hours=hour) for hour in range(25))


def at(*hours: float | None) -> Instants:
    found = [None if h is None else START + timedelta(hours=h) for h in hours]
    return Instants(soonest_at=found[0], likely_at=found[1], latest_at=found[2])


def a_figure(**changes):
    figure = DryingFigure(
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


def a_paper(**changes):
    paper = DryingPaper(
        title="Water dye, wet from Monday",
        sentences=("12 h instead of 8 h.",),
        figure=a_figure(),
    )
    return replace(paper, **changes)


def drawn(figure, *, width_px=900, height_px=600, colours=LIGHT):
    """Return where things lie, and the axes: bars, curve, air, and those of the humidity."""
    sheet = Figure(figsize=(width_px / PX_AN_INCH, height_px / PX_AN_INCH))
    look = ChartLook(width_px=width_px, height_px=height_px, text_pt=9, colours=colours)
    return draw_drying(sheet, figure, look), sheet.axes


def hours_of(days) -> list[float]:
    return [round((x - day(START)) * 24, 3) for x in days]


def bands_on(axes):
    return [each for each in axes.collections if each.get_zorder() == 1]


def words_on(axes):
    return [text.get_text() for text in axes.texts]


def test_time_is_counted_as_matplotlib_counts_it():
    assert day(START) == pytest.approx(date2num(START))


def test_bars_lie_where_it_holds_likely_and_lines_where_the_ends_may_be():
    _, (bars, *_) = drawn(a_figure())
    spans = [hours_of([p.get_x(), p.get_x() + p.get_width()]) for p in bars.patches]
    assert [0.5, 1.5] in spans  # opens to closes
    assert [12.0, 24.0] in spans  # dry, and stays so to the end of the figure
    ranges = [hours_of(line.get_xdata()) for line in bars.lines]
    assert ranges == [[0.3, 0.7], [1.0, 2.0], [9.0, 20.0]]


def test_names_stand_beside_the_bars_or_in_them_as_there_is_room():
    wide, (bars, *_) = drawn(a_figure())
    names = ["Shape it", "Dry to handle", "Cured", "Worn"]
    assert wide.beside
    assert [label.get_text() for label in bars.get_yticklabels()] == names
    assert words_on(bars) == ["Mon 17:30", "Tue 05:00", "Fri 05:00 →", "never"]
    narrow, (bars, *_) = drawn(a_figure(), width_px=440, height_px=280)
    assert not narrow.beside
    assert [words.partition(":")[0] for words in words_on(bars)] == names
    assert not bars.get_yticklabels()


def test_words_stand_in_the_bar_behind_it_or_before_its_end():
    _, (bars, *_) = drawn(a_figure())
    spots = [(hours_of([t.xy[0]])[0], t.get_ha()) for t in bars.texts]
    assert spots == [(1.5, "left"), (12.0, "left"), (24.0, "right"), (24.0, "right")]


@pytest.mark.parametrize(
    ("width_px", "height_px"), [(200, 120), (440, 270), (760, 420), (1500, 900)]
)
def test_nothing_lies_over_another_at_any_size(width_px, height_px):
    place, (bars, curve, air, _) = drawn(a_figure(), width_px=width_px, height_px=height_px)
    assert 0 < place.left < place.right < width_px
    if height_px > 200:
        tops = [place.bars[0], place.bars[1], *place.curve, *place.air]
        assert tops == sorted(tops)
        assert place.air[1] < height_px
    for axes in (bars, curve, air):
        assert hours_of(axes.get_xlim()) == [0, 24]


def test_the_curve_has_its_band_and_says_when_it_does_not_do():
    _, (_, curve, *_) = drawn(a_figure(trouble="would spoil"))
    likely = curve.lines[0]
    assert list(likely.get_ydata())[:4] == [0.0, 8.0, 16.0, 24.0]
    assert len(bands_on(curve)) == 1
    assert words_on(curve) == ["would spoil"]


def test_another_way_is_drawn_beside_it_dashed_and_both_are_named():
    faster = replace(a_figure().curve, dry_pct_likely=(100.0,) * 25, temperature_c=(25.0,) * 25)
    _, (_, curve, air, damp) = drawn(a_figure(other=faster))
    as_it_is, other = (line for line in curve.lines if len(line.get_xdata()) == 25)
    assert (as_it_is.is_dashed(), other.is_dashed()) == (False, True)
    assert len(bands_on(curve)) == 2
    assert [text.get_text() for text in curve.get_legend().get_texts()] == [
        "as it is",
        "if it were so",
    ]
    assert len([line for line in air.lines if len(line.get_xdata()) == 25]) == 2
    assert len(damp.lines) == 2
    assert air.get_ylim()[1] > 25


def test_a_look_that_found_it_damp_is_ringed_where_it_was():
    _, (_, curve, *_) = drawn(a_figure(look_at=HOURS[6]))
    (ring,) = (line for line in curve.lines if line.get_marker() == "o")
    assert (hours_of(ring.get_xdata()), list(ring.get_ydata())) == ([6.0], [48.0])
    assert words_on(curve) == ["found still damp"]


def test_shaded_hours_are_those_that_are_told_and_say_what_they_are():
    shades = Shades(word="night", spans=((HOURS[5], HOURS[14]), (HOURS[23], HOURS[24])))
    _, (bars, curve, air, _) = drawn(a_figure(shades=shades))
    for axes in (bars, curve, air):
        (shaded,) = (each for each in axes.collections if each.get_zorder() == 0)
        ends = [path.get_extents() for path in shaded.get_paths()]
        assert [hours_of([end.x0, end.x1]) for end in ends] == [[5.0, 14.0], [23.0, 24.0]]
    (word,) = curve.texts
    assert (word.get_text(), hours_of([word.xy[0]])) == ("night", [9.5])
    _, (_, bare, *_) = drawn(a_figure())
    assert words_on(bare) == []


def test_the_air_names_its_units_and_the_coldest_that_a_film_forms_in():
    _, (*_, air, damp) = drawn(a_figure(film_c=10.0))
    low, high = air.get_ylim()
    assert low < 9.0
    assert high > 18.0
    assert words_on(air) == ["no film below 10 °C"]
    assert [label.get_text() for label in air.get_yticklabels()] == ["9 °C", "18 °C"]
    assert [label.get_text() for label in damp.get_yticklabels()] == ["55 %", "80 %"]


def test_what_has_no_windows_leaves_no_row_for_them():
    place, (bars, *_) = drawn(a_figure(windows=(), trouble="would spoil"))
    assert place.bars[0] == place.bars[1]
    assert not bars.get_visible()


@pytest.mark.parametrize(("film_c", "side"), [(8.0, "top"), (12.0, "bottom")])
def test_the_words_of_the_film_stand_off_the_temperature(film_c, side):
    _, (*_, air, _) = drawn(a_figure(film_c=film_c))
    assert [text.get_va() for text in air.texts] == [side]


def test_air_that_hardly_changes_looks_so_and_humidity_is_dashed():
    steady = replace(a_figure().curve, temperature_c=(18.0,) * 25, humidity_pct=(99.0,) * 25)
    _, (*_, air, damp) = drawn(a_figure(curve=steady))
    for axes, least in ((air, 4), (damp, 20)):
        low, high = axes.get_ylim()
        assert high - low > least
        assert len(axes.get_yticks()) == 1
    assert damp.lines[0].is_dashed()
    assert not air.lines[0].is_dashed()


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_the_sheet_has_its_title_times_and_notes_on_its_ground(tmp_path, colours):
    sheet = drying_sheet(a_paper(notes=("Times: trade page.",)), colours)
    assert [text.get_text() for text in sheet.texts] == [
        "Water dye, wet from Monday",
        "12 h instead of 8 h.",
        "Times: trade page.",
    ]
    lowest = sheet.axes[2]
    assert "00:00\nTue 1 Dec" in [label.get_text() for label in lowest.get_xticklabels()]
    save_drying(tmp_path / "a.png", a_paper(), colours)
    from matplotlib.image import imread

    corner = imread(tmp_path / "a.png")[0, 0, :3]
    assert (corner.mean() > 0.9) == (colours is LIGHT)


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_words_and_lines_stand_out_from_their_ground(colours):
    for ground in (colours.ground, colours.night):
        for text in (colours.ink, colours.quiet, colours.warm, colours.damp, colours.alarm):
            assert contrast(text, ground) >= 4.5
        assert contrast(colours.drying, ground) >= 3
    assert contrast(colours.ink, colours.holds) >= 4.5
