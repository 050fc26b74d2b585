"""The page on shapes says what the program does: its numbers, names and example hold."""

import re
from pathlib import Path

from armorplan import geometry
from armorplan.app.help_pages import help_page, page_text
from armorplan.cli.program import run
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.measures import Topic
from armorplan.workshop.constants import Constants

TEXT = page_text("shapes")
GEOMETRY = Path(geometry.__file__).parent


def test_the_page_has_a_section_for_every_topic():
    assert help_page("shapes").title == "What the shapes tell"
    heads = {head.casefold() for head in re.findall(r"(?m)^## (.+)$", TEXT)}
    assert {topic.value for topic in Topic} <= heads


def test_every_constant_stands_there_with_its_number_as_shipped():
    constants = read_shelf().constants
    _, heading, numbers_of_reach = page_text("reach").partition("## Your numbers")
    assert heading
    _, heading, numbers_of_learning = page_text("learning").partition("## Numbers you may change")
    assert heading
    told_at = f"{TEXT}\n{numbers_of_reach}\n{numbers_of_learning}"
    rows = [line for line in told_at.splitlines() if line.startswith("| `")]
    told = {}
    for row in rows:
        names, shipped = row.split("|")[1:3]
        numbers = re.findall(r"\d+(?:\.\d+)?", shipped)
        told |= dict(zip(re.findall(r"`(\w+)`", names), map(float, numbers), strict=True))
    assert told == {name: getattr(constants, name).value for name in Constants.__slots__}


def test_the_strip_shown_there_can_be_reckoned(tmp_path, capsys):
    (command,) = re.findall(r"(?m)^armorplan (strip .+)$", TEXT)
    assert run([*command.split(), "--catalogues", str(tmp_path)]) == 0
    assert "K = " in capsys.readouterr().out


def test_slides_told_there_are_those_of_two_circles():
    """d / R, two 4 mm layers: the mid surfaces lie 4 mm apart (geometry of two arcs)."""
    for radius_mm, pct in ((95, "4.2"), (45, "8.9"), (30, "13")):
        assert f"{radius_mm} mm" in TEXT
        assert f"{pct} %" in TEXT
        assert round(400 / radius_mm, 1 if radius_mm > 30 else 0) == float(pct)


def test_verdicts_quoted_there_are_in_the_programs_words():
    said = "".join(file.read_text("utf-8") for file in sorted(GEOMETRY.rglob("*.py")))
    quoted = re.findall(r"(?m)^\| \*(.+?)\*", TEXT)
    assert len(quoted) >= 20
    words = {word.removesuffix("s") for each in quoted for word in re.findall(r"[a-z]{4,}", each)}
    assert sorted(word for word in words if word not in said) == []
