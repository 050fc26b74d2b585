"""The plan for a spreadsheet: what comes back from it is what was planned."""

import csv
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from io import StringIO

from sheets.week_scene import DRY, FIT, FORM, PAIR, table

from armorplan.sheets.week_csv import COLUMNS, week_csv

HOUR = timedelta(hours=1)


def rows() -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(week_csv(table()), newline="")))


def test_each_line_comes_back_with_its_instants():
    found = rows()
    assert tuple(found[0]) == COLUMNS
    form = next(row for row in found if row["task"] == FORM.title)
    assert datetime.fromisoformat(form["start"]) == FORM.start_at
    assert datetime.fromisoformat(form["end"]) == FORM.end_at
    assert datetime.fromisoformat(form["begin_by"]) == FORM.begin_by_at
    assert (form["minutes"], form["who"]) == ("20", "Maker")
    dry = next(row for row in found if row["task"] == DRY.title)
    assert (dry["who"], dry["begin_by"]) == ("", "")
    assert datetime.fromisoformat(dry["surely_by"]) == DRY.surely_at


def test_who_is_beside_has_a_column_of_their_own():
    (row,) = csv.DictReader(StringIO(week_csv(table(PAIR)), newline=""))
    assert (row["who"], row["also"], row["beside"]) == ("Apprentice", "Maker", "Maker")


def test_no_cell_is_reckoned_with():
    fit = next(row for row in rows() if row["task"] == FIT.title)
    assert fit["build"] == "'=collar-1"
    assert fit["build_title"] == "'=Collar"


def test_lines_end_as_rfc_4180_asks():
    text = week_csv(table())
    assert text.count("\r\n") == text.count("\n") == 5


def test_the_hour_that_comes_twice_in_autumn_is_told_apart():
    # EU summer time ends on the last Sunday of October at 01:00 UTC (Directive 2000/84/EC).
    first = datetime(2027, 10, 31, 0, 30, tzinfo=UTC)
    lines = [
        replace(FORM, id=f"cop-1/{at}", start_at=first + at * HOUR, end_at=first + at * HOUR)
        for at in (0, 1)
    ]
    found = list(csv.DictReader(StringIO(week_csv(table(*lines)), newline="")))
    assert [row["start"] for row in found] == [
        "2027-10-31T01:30+01:00",
        "2027-10-31T01:30+00:00",
    ]
