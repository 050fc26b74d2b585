"""The page on learning says what the program does."""

from math import exp

from armorplan.app.help_pages import help_pages, page_text
from armorplan.drying.learned import PRIOR
from armorplan.workshop.constants import Constants

DECILE = 1.2815515655446004
TEXT = page_text("learning")


def test_it_stands_behind_drying_and_leads_there():
    ids = [page.id for page in help_pages()]
    assert ids.index("drying") < ids.index("learning") < ids.index("first_pattern")
    assert "[Drying](page:drying)" in TEXT


def test_its_numbers_are_those_that_are_reckoned_with():
    wide = exp(DECILE * PRIOR.spread)
    assert f"between {1 / wide:.2f} and {wide:.2f}" in " ".join(TEXT.split())
    assert f"within {Constants().dry_share.value:g} % of its weight" in TEXT
