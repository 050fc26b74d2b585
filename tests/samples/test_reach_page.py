"""What the page on reach shows is true: its catalogues are read, its numbers are the shelf's."""

import re
import shlex
from dataclasses import fields
from pathlib import Path

import pytest

import armorplan
from armorplan.app.help_pages import help_page, page_text
from armorplan.cli.program import run
from armorplan.desktop.actions import TABLE
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import resources_folder
from armorplan.workshop.shelf import FEET, ToolEntry

TEXT = (resources_folder() / "help" / "reach.md").read_text(encoding="utf-8")
_PACKAGE = Path(armorplan.__file__).parent
_BLOCK = re.compile(r"^```toml\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL)


@pytest.fixture
def own(tmp_path):
    tools, constants = (found["text"] for found in _BLOCK.finditer(TEXT))
    (tmp_path / "tools.toml").write_text(tools, encoding="utf-8")
    (tmp_path / "constants.toml").write_text(constants, encoding="utf-8")
    return tmp_path


def test_its_tools_and_numbers_go_over_those_that_ship(own):
    shipped, shelf = read_shelf(), read_shelf(own=own)
    tools = {tool.id: tool for tool in shelf.tools}
    horn = next(tool for tool in shipped.tools if tool.id == "horn_anvil")
    assert (tools["horn_anvil"].reach_mm, tools["horn_anvil"].opening_mm) == (310.0, 32.0)
    assert tools["horn_anvil"].cautions == horn.cautions
    assert "deep_press" not in {tool.id for tool in shipped.tools}
    assert tools["deep_press"].reach_mm == pytest.approx(120.0)
    assert shelf.constants.row_gape.value < shipped.constants.row_gape.value
    assert shelf.constants.squash_raw.value < shipped.constants.squash_raw.value
    assert shelf.constants.squash_finished == shipped.constants.squash_finished


def test_the_numbers_it_tells_are_the_shelf_s():
    constants = read_shelf().constants
    for told, value in (
        ("gapes by {} mm for each mm", constants.row_gape.value),
        ("wider by hand: {} times", constants.squash_raw.value),
        ("after the finish {}.", constants.squash_finished.value),
        ("up to {} mm in", constants.hand_depth.value),
        ("| {} times |", constants.curved_effort.value),
        ("rising to {} times", constants.inside_effort.value),
        ("| {} times |", constants.end_effort.value),
    ):
        assert told.format(f"{value:g}") in TEXT


def test_it_tells_of_every_field_of_a_tool():
    told = set(
        re.findall(r"`(\w+)`", " ".join(re.findall(r"^\|[^|]*`[^|]*\|", TEXT, re.MULTILINE)))
    )
    assert {field.name for field in fields(ToolEntry)} - {"id"} <= told
    assert all(f"`{foot}`" in TEXT for foot in FEET if foot)


def test_it_tells_of_every_number_that_reach_is_reckoned_with():
    """Numbers of other work, as of weighing what dries, stand on pages of their own."""
    ships = vars_of(read_shelf().constants)
    modules = (*_PACKAGE.glob("geometry/reach/*.py"), *_PACKAGE.glob("app/effort_*.py"))
    source = "\n".join(module.read_text(encoding="utf-8") for module in modules)
    reckoned = [name for name in ships if re.search(rf"\b(numbers|constants)\.{name}\b", source)]
    assert {"row_gape", "squash_finished", "hand_depth", "load_row"} <= set(reckoned)
    for name in reckoned:
        (line,) = (line for line in TEXT.splitlines() if f"`{name}`" in line and line[0] == "|")
        assert f"{ships[name].value:g}" in line


def vars_of(constants):
    return {field.name: getattr(constants, field.name) for field in fields(constants)}


def test_the_commands_it_shows_answer(capsys):
    commands = re.findall(r"`armorplan (why elbow_cop [^`]+)`", TEXT)
    assert len(commands) == 2
    for command in commands:
        assert run(shlex.split(command)) == 0
        assert "reach" in capsys.readouterr().out


def test_its_keys_lead_where_it_says():
    keys = {key: action.id for action in TABLE for key in action.keys}
    named = {
        "Ctrl+K": "reach_shown",
        "F4": "closing_onward",
        "Shift+F4": "closing_back",
        "Ctrl+M": "go_shapes",
        "F3": "go_between",
        "Ctrl+L": "tell_trial",
    }
    for key, action in named.items():
        assert f"`{key}`" in TEXT
        assert keys[key] == action


def test_it_leads_to_the_four_rules_and_is_led_to():
    text = page_text("reach")
    for code in (
        "reach-before-closed",
        "row-from-deep-end",
        "easier-while-open",
        "deep-end-easier",
    ):
        assert f"(page:rule:{code})" in text
    assert "(page:reach)" in page_text("changes")
    assert help_page("reach").title.startswith("Reach")


def test_its_words_for_standings_are_the_window_s():
    from armorplan.desktop.standing_glyphs import standing_word
    from armorplan.geometry.reach.model import Standing

    told = re.findall(r"^\| \*([^*]+)\* \|", TEXT, re.MULTILINE)
    assert told == [standing_word(standing) for standing in Standing]
