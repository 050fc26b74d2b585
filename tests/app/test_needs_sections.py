"""The take-off in words: sections, headings, costs, and what a maker has to be told."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import pattern, rivet
from needs.needs_sketches import TRAY, built, plate, shelf

from armorplan.app.needs_sections import needs_page, tray_named
from armorplan.app.needs_words import counted, minutes_words, money_words, volume_words
from armorplan.needs.figures import figures
from armorplan.needs.gathering import gather_needs
from armorplan.pattern.joining import Applying, Joint, JointKind, Treatment
from armorplan.pattern.wearing import HardwareUse
from armorplan.steps.model import Work
from armorplan.workshop.shop import Shop

DYE = Treatment(id="colour", use="dye", parts=("plate",), colour="blue", coats=2)
OIL = Treatment(id="oil", use="oil", parts=("plate",))
ROW = rivet("row", "plate_hole", "other_hole")
GLUE = Joint(id="glue", kind=JointKind.GLUE, layers=("plate", "other"), fastener="cement")
STITCH = Joint(id="stitch", kind=JointKind.STITCH, layers=("plate", "other"), fastener="thread")
RING = HardwareUse(id="ring", use="buckle", part="plate")


def page(*, joints=(ROW, GLUE, STITCH), treatments=(DYE, OIL), on=None, tray=TRAY):
    made = pattern(plate(), plate("other"), joints=joints, treatments=treatments)
    made = replace(made, hardware=(RING,))
    return needs_page(gather_needs(built(made), Work(steps=()), on or shelf(), tray))


def section(made, name: str):
    return next(s for s in made.sections if s.id == name)


def test_every_row_has_a_cell_for_each_heading():
    for one in page().sections:
        for row in one.rows:
            assert len(row.cells) == len(one.heads), one.id


def test_sections_without_a_row_are_left_out():
    assert {"glue", "runs", "hardware", "hours"} & {s.id for s in page(joints=()).sections} == {
        "hardware"
    }


def test_the_pattern_s_way_is_marked_in_its_column():
    (wiped, *_) = section(page(), "treatments").rows
    (dipped, *_) = section(
        page(treatments=(replace(DYE, applying=Applying.DIP),)), "treatments"
    ).rows
    assert ["pattern" in cell for cell in wiped.cells] == [False, True, False]
    assert ["pattern" in cell for cell in dipped.cells] == [False, False, True]


@pytest.mark.parametrize(("times", "words"), [(1, "once"), (2, "twice"), (3, "3 times")])
@pytest.mark.parametrize(
    ("kind", "done"), [("casing", "cased"), ("cleaner", "cleaned"), ("hardener", "hardened")]
)
def test_water_heat_and_cleaner_are_no_coats(kind, done, times, words):
    made = pattern(plate(), treatments=(DYE,))
    needs = gather_needs(built(made), Work(steps=()), shelf(), TRAY)
    (dye,) = needs.liquids
    wet = replace(needs, liquids=(dye, replace(dye, kind=kind, coats=times, least_coats=times)))
    dyed, other = (
        row.remarks[0] for row in section(needs_page(wet), "treatments").rows if not row.under
    )
    assert "2 coats; " in dyed
    assert f"{done} {words}; " in other
    assert "coat" not in other
    figure = {f.figure for f in figures(wet) if f.section == "treatments"}
    assert {"coats", f"times {done}"} <= figure


def test_parts_that_get_fewer_coats_are_told():
    twice = replace(DYE, parts=("plate", "other"))
    (row, *_) = section(page(treatments=(twice, replace(DYE, id="more"))), "treatments").rows
    assert "2 parts, 4.0 dm², up to 4 coats; " in row.remarks[0]


def test_a_bath_is_told_line_by_line_and_what_cannot_be_dipped_has_dashes():
    rows = section(page(), "treatments").rows
    told = {row.cells[0]: row.cells[1:] for row in rows[1:6]}
    assert told["Taken up"] == ("12 ml", "24 ml")
    assert told["Left in the tray"] == ("–", "2.0 l")
    assert told["Have ready"] == ("12 ml", "2.1 l")
    assert told["Hands on"] == ("21 min", "19 min")
    assert told["Costs"] == ("0.24 crown", "40.08 crown")
    oil = {row.cells[0]: row.cells[2] for row in rows[7:] if row.under}
    assert set(oil.values()) == {"–"}


def test_a_tray_of_solvent_carries_its_caution():
    assert any("No flame" in note for note in section(page(), "treatments").notes)
    assert not any(
        "No flame" in note for note in section(page(treatments=(OIL,)), "treatments").notes
    )


def test_no_fitting_post_is_told_with_a_remedy():
    (row, *_) = section(page(joints=(replace(ROW, washer_mm=20.0),)), "fasteners").rows
    assert "no post on sale fits" in row.cells[0]
    assert row.cells[2] == "–"
    assert "row" in row.remarks[0]
    assert "another fastener" in row.remarks[1]


def test_the_total_names_what_it_is_without():
    (row,) = section(page(), "cost").rows
    assert row.cells[0] == "All of it, without what has no price"
    assert "Oil" in row.remarks[0]


def test_without_prices_there_is_no_column_of_costs():
    bare = shelf()
    bare = replace(
        bare,
        leathers=tuple(replace(e, price_per_dm2=None) for e in bare.leathers),
        fasteners=tuple(replace(e, price_each=None) for e in bare.fasteners),
        treatments=tuple(replace(e, price_per_litre=None) for e in bare.treatments),
        hardware=tuple(replace(e, price_each=None) for e in bare.hardware),
        supplies=tuple(replace(e, price_per_m=None) for e in bare.supplies),
    )
    made = page(on=bare)
    assert all("Cost" not in s.heads for s in made.sections)
    assert section(made, "cost").rows[0].cells == ("Not known",)


def test_a_shop_s_trays_are_found_by_id():
    small = replace(TRAY, id="small")
    shop = Shop(people=(), trays=(TRAY, small))
    assert tray_named(shop, "small") is small
    assert tray_named(shop, "none") is TRAY
    assert tray_named(replace(shop, trays=()), "").length_mm == 600.0


@pytest.mark.parametrize(
    ("ml", "words"),
    [(None, "not known"), (0.0, "–"), (0.21, "0.3 ml"), (62.4, "63 ml"), (3352.5, "3.4 l")],
)
def test_volumes_are_rounded_up_to_what_can_be_poured(ml, words):
    assert volume_words(ml) == words


def test_counts_minutes_and_money():
    assert (counted(1, "foot", "feet"), counted(2, "foot", "feet")) == ("1 foot", "2 feet")
    assert (minutes_words(None), minutes_words(0), minutes_words(75)) == (
        "not known",
        "–",
        "1 h 15 min",
    )
    assert (money_words(None, "crown"), money_words(3.0, "")) == ("no price", "3.00")
