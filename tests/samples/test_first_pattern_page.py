"""The pattern that the help has a newcomer write is sound as it stands there."""

import re

import pytest

from armorplan.app.derived import derive_build
from armorplan.app.opening import check_folder
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.kernel.findings import Severity
from armorplan.kernel.shipped import resources_folder
from armorplan.workshop.shop import one_maker

_BLOCK = re.compile(r"^```(?P<kind>\w+)\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL)


def blocks(page):
    text = (resources_folder() / "help" / f"{page}.md").read_text(encoding="utf-8")
    return [(found["kind"], found["text"]) for found in _BLOCK.finditer(text)]


@pytest.fixture
def band(tmp_path):
    folder = tmp_path / "band"
    folder.mkdir()
    written = dict(blocks("first_pattern"))
    (folder / "band.svg").write_text(written["svg"], encoding="utf-8")
    (folder / "pattern.toml").write_text(written["toml"], encoding="utf-8")
    return folder


def test_it_has_nothing_to_mend(band):
    found = check_folder(band, read_shelf(), one_maker()).findings
    assert [f for f in found if f.severity is not Severity.NOTE] == []


def test_its_order_begins_with_paper_and_sets_rivets_after_the_dry_fit(band):
    shelf = read_shelf()
    pattern = read_pattern(read_folder(band), shelf).pattern
    derived = derive_build(pattern, shelf, one_maker(), build="band")
    tails = ["/".join(step.split("/")[3:]) for step in derived.order]
    assert tails[0] == "measure-print/wrist_band"
    assert tails.index("dry-fit/wrist_band") < tails.index("rivet/strap_tip_side")
    assert tails.index("punch/band") < tails.index("form/round")


def test_the_mistake_it_proposes_is_told_with_the_nearest_name(band):
    file = band / "pattern.toml"
    file.write_text(file.read_text(encoding="utf-8").replace('"band_1"', '"band_9"'))
    (found,) = [
        f for f in check_folder(band, read_shelf(), one_maker()).findings if f.severity == "error"
    ]
    assert "band_9" in found.text
    assert "band_" in found.remedy
    assert found.place.line


@pytest.mark.parametrize(
    ("table", "text"), [(kind, text) for kind, text in blocks("own_order") if kind == "toml"]
)
def test_what_the_page_on_ones_own_order_shows_can_be_read(band, table, text):
    file = band / "pattern.toml"
    own = '\n[own_steps.line_band]\nname = "Line the band"\npiece = "wrist_band"\n'
    file.write_text(file.read_text(encoding="utf-8") + own + text, encoding="utf-8")
    found = check_folder(band, read_shelf(), one_maker()).findings
    assert [f for f in found if f.severity is Severity.ERROR] == []
