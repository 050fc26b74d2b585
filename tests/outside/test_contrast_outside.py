"""Every colour pair of both themes against the contrast formula of WCAG 2.2.

Sources: W3C, Web Content Accessibility Guidelines 2.2, definitions of relative luminance and
contrast ratio; least ratios from success criteria 1.4.3 (text, 4.5) and 1.4.11 (parts of
controls and marks, 3). The check values are the published black on white 21:1 and widely
published ratios of named colours.
"""

import pytest
from contrasts import contrast

from armorplan.desktop.colours import DARK, LIGHT, Colours, Pair, pairs


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        ("#000000", "#ffffff", 21.0),
        ("#767676", "#ffffff", 4.54),
        ("#777777", "#ffffff", 4.48),
        ("#595959", "#ffffff", 7.00),
        ("#949494", "#ffffff", 3.03),
        ("#ffff00", "#ffffff", 1.07),
        ("#0000ff", "#ffffff", 8.59),
        ("#ff0000", "#ffffff", 4.00),
        ("#0000ff", "#ff0000", 2.15),
        ("#008000", "#ffffff", 5.14),
        # Okabe and Ito's hues on white: only black and blue pass as text.
        ("#e69f00", "#ffffff", 2.25),
        ("#56b4e9", "#ffffff", 2.31),
        ("#009e73", "#ffffff", 3.42),
        ("#f0e442", "#ffffff", 1.32),
        ("#0072b2", "#ffffff", 5.19),
        ("#d55e00", "#ffffff", 3.87),
        ("#cc79a7", "#ffffff", 3.06),
    ],
)
def test_the_formula_gives_the_published_ratios(one, other, expected):
    assert contrast(one, other) == pytest.approx(expected, abs=0.005)


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_every_pair_reaches_its_ratio(colours: Colours):
    short: list[tuple[Pair, float]] = [
        (pair, round(contrast(pair.front, pair.ground), 2))
        for pair in pairs(colours)
        if contrast(pair.front, pair.ground) < pair.least
    ]
    assert short == []


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_the_table_names_every_colour_of_the_theme(colours: Colours):
    named = {p.name for p in pairs(colours)} | {p.on for p in pairs(colours)}
    fields = set(Colours.__dataclass_fields__) - {"dark"}
    assert fields <= named
