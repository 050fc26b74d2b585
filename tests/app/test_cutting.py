"""Cutting at the bench: the list of the build, its files, and the log in the workshop file."""

from dataclasses import replace

import pytest
from clocks import FakeClock

from armorplan.app.cut_sections import cut_sections
from armorplan.app.cutting import Cutting, Tried, cut_page, save_cut_page
from armorplan.app.derived import derive_build
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import ArmorplanError
from armorplan.needs.cutting.model import Bed, CutAsked, Cutter
from armorplan.rules.trade.punch_after_forming import RULE
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.cut_settings import CutResult
from armorplan.workshop.shop import one_maker

ASKED = CutAsked(cutter=Cutter.LASER, bed=Bed(wide_mm=600.0, high_mm=400.0), kerf_mm=0.2)


@pytest.fixture(scope="module")
def page(pairs):
    return cut_page(pairs, ASKED)


@pytest.fixture
def cutting(pairs, tmp_path):
    workshop = WorkshopFile.open(tmp_path / "workshop.sqlite", FakeClock())
    yield Cutting(lambda: pairs, workshop.cut_log, FakeClock(), who="Ib")
    workshop.close()


@pytest.fixture
def tried(page):
    return Tried(
        machine="loft laser",
        leather=page.found.leathers[0],
        words="power 60, speed 12",
        passes=2,
        result=CutResult.THROUGH,
        kerf_mm=0.18,
    )


def test_what_is_asked_is_reckoned_with_words_and_beds(cutting, page):
    asked = cutting.asking(ASKED)()
    assert asked == page
    assert len(page.beds) == sum(len(one.beds) for one in page.found.leathers)
    pieces = sum(one.pieces for one in page.found.leathers if one.beds)
    assert sum(len(bed.shapes) for bed in page.beds) == pieces
    assert {section.id for section in page.sections} >= {"beds", "kerf", "cautions"}


def test_setting_up_is_told_apart_and_no_less_is_bought_than_the_blanks_take(page):
    leather = page.found.leathers[0]
    assert leather.beds_dm2 > leather.buy_dm2  # boxes of round parts take more than their yield
    total = page.sections[0].rows[-1].remarks
    assert f"Buy {leather.beds_dm2:.1f} dm²" in total[0]
    assert f"{leather.buy_dm2:.1f} dm² would do" in total[0]
    beds = len(leather.beds)
    assert leather.set_up_min == 8 * beds
    assert total[1].endswith(f"of cutting and {8 * beds} min to set up {beds} beds.")
    wide = replace(leather, beds=())
    (section, *_) = cut_sections(replace(page.found, leathers=(wide,)))
    assert f"Buy {leather.buy_dm2:.1f} dm²" in section.rows[-1].remarks[0]


def test_holes_that_bending_parts_are_not_cut_flat():
    bent = RULE.examples[0].pattern
    derived = derive_build(bent, read_shelf(), one_maker("UTC"), build="b")
    waiting = {
        derived.work.step(relation.then).parts[0]
        for relation in derived.relations
        if relation.reason.rule == RULE.code
    }
    parts = cut_page(derived, ASKED).found.leathers[0].parts
    assert waiting
    assert {part.part for part in parts if part.after_shaping} == waiting
    assert all(not part.holes for part in parts if part.after_shaping)
    assert any(part.holes for part in parts)


def test_the_ending_says_which_file_is_meant(page, tmp_path):
    (table,) = save_cut_page(page, tmp_path / "list.csv")
    assert table.read_text(encoding="utf-8-sig").startswith("leather,")
    drawings = save_cut_page(page, tmp_path / "beds.dxf")
    assert len(drawings) == len(page.beds)
    with pytest.raises(ArmorplanError, match=r"\.svg or \.dxf"):
        save_cut_page(page, tmp_path / "beds.pdf")


def test_a_drawing_of_nothing_is_refused(pairs, tmp_path):
    bare = cut_page(pairs, CutAsked(cutter=Cutter.LASER))
    with pytest.raises(ArmorplanError, match="nothing lies on a bed"):
        save_cut_page(bare, tmp_path / "beds.svg")
    assert not list(tmp_path.iterdir())


def test_one_bed_alone_keeps_the_name_given(page, tmp_path):
    one = replace(page, beds=page.beds[:1])
    assert save_cut_page(one, tmp_path / "beds.svg") == (tmp_path / "beds.svg",)


def test_a_trial_is_kept_and_offered_for_such_a_leather(cutting, tried, page):
    kept = cutting.keep(tried)
    assert kept.who == "Ib"
    assert cutting.good(page.found.leathers[0]) == (kept,)
    worse = cutting.keep(replace(tried, words="power 20", result=CutResult.SPOTS))
    assert cutting.log() == (worse, kept)
    assert cutting.good(page.found.leathers[0]) == (kept,)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"machine": " "}, "the machine"),
        ({"words": ""}, "what it was set to"),
        ({"passes": 0}, "1 to 50"),
        ({"kerf_mm": 9.0}, "0 to 3 mm"),
    ],
)
def test_what_is_missing_is_told_and_nothing_is_kept(cutting, tried, changed, said):
    with pytest.raises(ArmorplanError, match=said):
        cutting.keep(replace(tried, **changed))
    assert cutting.log() == ()
