"""The page that tells what is new: found in the help, true to the commands, samples and pages."""

import re

import pytest

from armorplan.app.help_pages import HelpGroup, help_page, help_pages, page_text, pages_with
from armorplan.app.opening import first_sample
from armorplan.cli.program import run
from armorplan.kernel.shipped import samples_folder

PAGE = "changes"


def test_it_is_the_last_page_to_begin_with():
    assert [p.id for p in help_pages() if p.group is HelpGroup.BEGIN][-1] == PAGE
    assert help_page(PAGE).title == "What is new"


def test_the_newest_stands_first():
    heads = re.findall(r"^## (.+)$", page_text(PAGE), re.MULTILINE)
    assert heads == [
        "At the bench",
        "A week of several builds",
        "Order from reach",
        "Shapes that meet",
        "The whole language",
        "First light",
    ]


def test_it_is_found_by_its_words_and_leads_to_other_pages():
    assert pages_with("what is new")[0].id == PAGE
    assert "[Your own order](page:own_order)" in page_text(PAGE)


@pytest.mark.parametrize(
    "command", ["bring", "needs", "check", "order", "plan", "rules", "strip", "why"]
)
def test_the_commands_it_names_are_there(command, capsys):
    assert f"`armorplan {command}" in page_text(PAGE)
    with pytest.raises(SystemExit) as left:
        run([command, "--help"])
    assert left.value.code == 0
    assert command in capsys.readouterr().out


def test_the_samples_it_names_are_there():
    assert "`three_lames`" in page_text(PAGE)
    assert "`arm_harness`" in page_text(PAGE)
    assert {"three_lames", "collar", first_sample().name} <= {
        path.name for path in samples_folder().iterdir()
    }
