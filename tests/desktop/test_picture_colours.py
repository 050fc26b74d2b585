"""Every colour mixed for the pictures can be read in both themes.

Contrast by WCAG 2.2 (relative luminance as in its glossary): 4.5 for text (1.4.3), 3 for marks
and edges (1.4.11).
"""

import pytest
from contrasts import contrast

from armorplan.app.rows import BenchState
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.picture_colours import (
    MOST_LAYERS,
    Look,
    coat,
    leather,
    mixed,
)
from armorplan.desktop.widgets.week_blocks import TICKET_SHARE
from armorplan.pattern.parts import PartKind

THEMES = pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
FILLS = [(kind, layer) for kind in PartKind for layer in range(MOST_LAYERS + 2)]


def test_the_contrast_formula_gives_the_published_pairs():
    # Published pairs for WCAG contrast: black on white 21, #767676 on white 4.54.
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)


@THEMES
@pytest.mark.parametrize(("kind", "layer"), FILLS)
def test_names_and_edges_show_on_every_leather(colours, kind, layer):
    fill = leather(colours, kind, layer)
    for look in Look:
        worn = coat(colours, fill, look)
        assert contrast(worn.text, worn.fill) >= 4.5, look
    plain = coat(colours, fill, Look.PLAIN)
    assert contrast(plain.edge, plain.fill) >= 3
    lit = coat(colours, fill, Look.LIT)
    # The lit edge stands between a halo of the panel's colour and the fill.
    assert contrast(lit.edge, colours.panel) >= 3


@THEMES
def test_layers_outward_differ_until_the_last_that_is_told_apart(colours):
    fills = [leather(colours, PartKind.LAME, layer) for layer in range(MOST_LAYERS + 1)]
    assert len(set(fills)) == len(fills)
    assert leather(colours, PartKind.LAME, MOST_LAYERS + 3) == fills[-1]
    strap, trim = (leather(colours, kind, 0) for kind in (PartKind.STRAP, PartKind.TRIM))
    assert len({strap, trim, fills[0]}) == 3


@THEMES
@pytest.mark.parametrize("state", list(BenchState))
def test_states_show_on_tickets_and_hanging_pieces(colours, state):
    ticket = mixed(colours.panel, colours.leather, TICKET_SHARE)
    for ground in (ticket, colours.panel, colours.chosen):
        assert contrast(colours.state(state), ground) >= 3
    for words in (colours.text, colours.quiet):
        assert contrast(words, ticket) >= 4.5


def test_mixing_reaches_both_ends():
    assert mixed("#102030", "#ffeedd", 0) == "#102030"
    assert mixed("#102030", "#ffeedd", 1) == "#ffeedd"
    assert mixed("#000000", "#ffffff", 0.5) == "#808080"
