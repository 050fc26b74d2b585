"""The pages on cutting and on the printer's scale are true to the options, layers and rules there are."""

import argparse
import re

import pytest

from armorplan.app.help_pages import help_page, page_text, pages_with
from armorplan.cli.cutlist_options import add_cutlist
from armorplan.cli.sheet_options import add_sheet
from armorplan.desktop.actions import TABLE
from armorplan.rules.registry import all_rules
from armorplan.sheets.cut_layers import LAYERS

KEPT_ELSEWHERE = {"--json", "--full-size", "--catalogues"}


def options(add) -> set[str]:
    parser = argparse.ArgumentParser()
    add(parser)
    return {name for action in parser._actions for name in action.option_strings}


@pytest.mark.parametrize(("page", "add"), [("cutting", add_cutlist), ("sheet", add_sheet)])
def test_the_options_it_names_are_there(page, add):
    named = set(re.findall(r"--[a-z][a-z-]*", page_text(page)))
    assert named
    assert named - KEPT_ELSEWHERE <= options(add)


def test_it_is_found_by_its_words():
    assert help_page("cutting") in pages_with("kerf")


def test_the_layers_rules_and_keys_it_names_are_there():
    text = page_text("cutting")
    for layer in LAYERS:
        assert f"`{layer.name}`" in text
    names = {rule.name for rule in all_rules()}
    for rule in ("Free with the knife what the machine left", "Char off before dye"):
        assert rule in names
        assert rule in text
    keys = {action.id: action.keys for action in TABLE}
    assert f"`{keys['show_cutting'][0]}`" in text
    assert f"`{keys['tell_printer'][0]}`" in page_text("sheet")
