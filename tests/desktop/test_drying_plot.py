"""The picture of a drying: drawn at the size asked for, with everything where it is said to lie."""

from datetime import UTC, datetime, timedelta

import pytest
from contrasts import contrast
from desktop.fake_dryings import DYE, FINISH

from armorplan.app.drying_choices import Began, DryingChoice, WhatIf
from armorplan.app.drying_picture import figure_of
from armorplan.app.drying_rows import drying_page, page_if
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.drying_plot import PlotLook, chart_colours, plot_drying
from armorplan.drying.body import Body
from armorplan.workshop.air import Climate, Room

AT = datetime(2026, 11, 29, 16, 0, tzinfo=UTC)


def choice(entry):
    return DryingChoice(
        id="x",
        step="x",
        title="Dry it",
        entry=entry,
        body=Body(),
        start_at=AT,
        began=Began.RUNS,
    )


def look(colours=LIGHT, *, width_px=500, height_px=280, ratio=1.0):
    return PlotLook(
        width_px=width_px,
        height_px=height_px,
        ratio=ratio,
        text_pt=10,
        colours=colours,
    )


def rgb(plot, x, y):
    at = 4 * (round(y * plot.ratio) * plot.width + round(x * plot.ratio))
    return tuple(plot.pixels[at : at + 3])


def ground(colours):
    return tuple(int(colours.panel[at : at + 2], 16) for at in (1, 3, 5))


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_a_picture_has_its_size_and_ground_and_is_drawn_on(colours):
    page = drying_page(choice(FINISH), Room())
    other = page_if(page, WhatIf(air_m_s=1.5))
    plot = plot_drying(figure_of(page, other), look(colours, ratio=2.0))
    assert (plot.width, plot.height) == (1000, 560)
    assert len(plot.pixels) == 4 * 1000 * 560
    assert rgb(plot, 2, 278) == ground(colours)
    likely_at = page.bars[-2].opens.likely_at
    assert likely_at is not None
    # A solid line, in the colour of drying, lies at the top of the curve once it is dry.
    column = [rgb(plot, plot.x(likely_at) + 6, y) for y in range(280)]
    drying = tuple(int(colours.drying[at : at + 2], 16) for at in (1, 3, 5))
    assert drying in column


def test_instants_lie_between_the_axes_and_nowhere_else():
    page = drying_page(choice(DYE), Room())
    plot = plot_drying(figure_of(page), look())
    assert plot.x(AT) == plot.left_px
    assert plot.x(plot.until_at) == pytest.approx(plot.right_px)
    assert plot.x(AT - timedelta(minutes=1)) is None
    assert plot.x(plot.until_at + timedelta(minutes=1)) is None
    assert 0 < plot.top_px < plot.foot_px < 280


@pytest.mark.parametrize("air", [Climate(temperature_c=12, humidity_pct=100), Climate(), None])
def test_what_never_dries_and_what_is_very_small_are_drawn_too(air):
    room = Room(usual=air) if air else Room(by_hour=(Climate(), Climate(temperature_c=4.0)) * 12)
    figure = figure_of(drying_page(choice(FINISH), room))
    plot = plot_drying(figure, look(width_px=200, height_px=120))
    assert (plot.width, plot.height) == (200, 120)


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_words_of_the_picture_stand_out_from_its_grounds_in_every_theme(colours):
    chart = chart_colours(colours)
    for ground in (chart.ground, chart.night):
        for text in (chart.ink, chart.quiet, chart.warm, chart.damp, chart.alarm):
            assert contrast(text, ground) >= 4.5
    assert contrast(chart.ink, chart.holds) >= 4.5
    assert contrast(chart.drying, chart.ground) >= 3
