"""The salvages on the shelf: sane minutes and risks, and something for every mistake."""

import re

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.shipped import resources_folder
from armorplan.orders.recovery.mistakes import MistakeKind
from armorplan.orders.recovery.model import Means
from armorplan.workshop.salvages import MEANS, MISTAKES

SALVAGES = read_shelf().salvages


def test_mistakes_and_means_are_those_of_the_recovery():
    assert set(MISTAKES) == {kind.slug for kind in MistakeKind} - {MistakeKind.CLOSED.slug}
    assert {slug.replace("-", "_").upper() for slug in MEANS} < {means.name for means in Means}


@pytest.mark.parametrize("mistake", MISTAKES)
def test_every_mistake_can_be_lived_with_or_mended(mistake):
    means = {each.means for each in SALVAGES if mistake in each.mends}
    assert "as-is" in means
    assert len(means) > 2


@pytest.mark.parametrize("salvage", SALVAGES, ids=lambda each: each.id)
def test_a_salvage_is_told_whole(salvage):
    assert 0 < salvage.risk_pct <= 50
    assert not salvage.name.endswith(".")
    assert not salvage.leaves or salvage.leaves.endswith(".")
    assert salvage.minutes + salvage.per_hole_min + salvage.per_part_min <= 60
    hands = salvage.minutes + salvage.per_hole_min + salvage.per_part_min
    assert salvage.means == "as-is" or (hands > 0 and (salvage.tool or salvage.means == "plug"))


def test_hardened_leather_is_never_formed_again():
    assert all("harden" in each.not_after for each in SALVAGES if "form" in each.after)


def test_a_maker_s_own_goes_over_it_by_field(tmp_path):
    (tmp_path / "salvages.toml").write_text("[oval_hole]\nrisk_pct = 12\n", encoding="utf-8")
    found = {each.id: each for each in read_shelf(own=tmp_path).salvages}
    assert found["oval_hole"].risk_pct == 12
    assert found["oval_hole"].per_hole_min == 1.5
    assert "own value for risk_pct" in found["oval_hole"].source


def test_what_cannot_be_read_is_told_at_its_key(tmp_path):
    text = '[mine]\nname = "Sew it"\nmeans = "sewn"\nmends = ["torn"]\nrisk_pct = 120\n'
    (tmp_path / "salvages.toml").write_text(text, encoding="utf-8")
    with pytest.raises(UnreadableError) as caught:
        read_shelf(own=tmp_path)
    assert {finding.place.key for finding in caught.value.findings} == {
        "mine.means",
        "mine.mends",
        "mine.risk_pct",
    }


def test_the_salvage_in_the_help_is_one(tmp_path):
    page = (resources_folder() / "help" / "way_back.md").read_text(encoding="utf-8")
    (block,) = re.findall(r"```toml\n(.*?)```", page, re.DOTALL)
    (tmp_path / "salvages.toml").write_text(block, encoding="utf-8")
    found = {each.id: each for each in read_shelf(own=tmp_path).salvages}
    assert found["sew_over"].mends == ("spoilt",)
    assert found["oval_hole"].risk_pct == 3
