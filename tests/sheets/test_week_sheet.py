"""The week on paper: stretches of work, what is spare or late, every letter of a name."""

import re
from dataclasses import replace
from datetime import timedelta

import pytest
from sheets.week_scene import CASE, DRY, FIT, FORM, NOW_AT, PAIR, later, table

from armorplan.sheets.week_sheet import save_week, spare_words, stretches, week_pdf


def test_work_of_one_person_at_one_build_is_one_stretch():
    more = replace(CASE, id="cop-1/b", title="Case lame for forming")
    after = later(more, 30 + 15)
    later_on = replace(later(more, 120), id="cop-1/c", title="Case rim")
    found = stretches(table(CASE, after, later_on))
    assert [(one.start_at, one.end_at) for one in found] == [
        (CASE.start_at, after.end_at),
        (later_on.start_at, later_on.end_at),
    ]
    assert found[0].text == "Case shell for forming; Case lame for forming"


def test_people_and_builds_are_told_apart_and_what_dries_from_work():
    found = stretches(table())
    assert [one.who for one in found] == ["Apprentice", "Maker", "", "Maker"]
    assert found[1].text == f"{FORM.title}, begin by Mon 09:30"
    assert found[2].text == DRY.title
    assert found[3].text == f"{FIT.title} (Blue tray) with Captain"


def test_who_is_beside_somebody_is_told_with_them():
    alone, together = stretches(table(CASE, PAIR))
    assert (alone.who, together.who) == ("Apprentice", "Apprentice, with Maker beside")
    assert (alone.text, together.text) == (CASE.title, PAIR.title)


def test_a_long_stretch_tells_how_much_more_there_is():
    many = [
        replace(later(CASE, 30 * at), id=f"cop-1/{at}", title=f"Case {at}") for at in range(11)
    ]
    (one,) = stretches(table(*many))
    assert one.text.endswith("Case 7; and 3 more")


def test_spare_and_late_are_said():
    cop, collar = table().builds
    assert spare_words(cop) == "31 h to spare"
    assert spare_words(collar) == "late by 20 min"
    assert spare_words(replace(cop, due_at=None)) == ""
    assert spare_words(replace(cop, due_at=cop.finish_at)) == "just in time"


def test_the_sheet_is_a_pdf_of_a4_pages_with_its_font_in_it(tmp_path):
    path = tmp_path / "week.pdf"
    save_week(path, table(), printed_at=NOW_AT)
    data = path.read_bytes()
    assert data.startswith(b"%PDF-")
    box = re.search(rb"/MediaBox \[ 0 0 ([\d.]+) ([\d.]+) \]", data)
    # ISO 216: A4 is 210 mm by 297 mm; a point is 1/72 inch.
    assert float(box[1]) * 25.4 / 72 == pytest.approx(210, abs=0.5)
    assert float(box[2]) * 25.4 / 72 == pytest.approx(297, abs=0.5)
    assert b"DejaVuSans" in data


def test_long_weeks_run_over_pages():
    many = [
        replace(later(CASE, 24 * 60 * at), id=f"cop-1/{at}", title=f"Case {at}")
        for at in range(40)
    ]
    one, more = (
        week_pdf(table(*lines), printed_at=NOW_AT).count(b"/Type /Page\n")
        for lines in (many[:2], many)
    )
    assert one == 1
    assert more > 1


def test_markup_in_a_name_is_no_markup():
    odd = replace(CASE, title="Punch <b> & 3 holes", end_at=CASE.end_at + timedelta(minutes=1))
    assert week_pdf(table(odd), printed_at=NOW_AT).startswith(b"%PDF-")
