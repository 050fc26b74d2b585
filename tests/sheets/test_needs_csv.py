"""The take-off as comma-separated values: one number a line, its unit beside it, nothing run."""

import csv
from dataclasses import replace
from io import StringIO

import pytest
from geometry.leather_sketches import pattern, rivet
from hypothesis import given
from hypothesis import strategies as st
from needs.needs_sketches import TRAY, built, plate, shelf

from armorplan.needs.gathering import gather_needs
from armorplan.needs.model import Needs
from armorplan.pattern.joining import Treatment
from armorplan.sheets.needs_csv import COLUMNS, needs_csv
from armorplan.steps.model import Work


def taken_off(name: str = "plate") -> Needs:
    parts = (replace(plate(), name=name), plate("other"))
    dye = Treatment(id="colour", use="dye", parts=("plate",), colour="blue, light")
    made = pattern(*parts, joints=(rivet("row", "plate_hole", "other_hole"),), treatments=(dye,))
    return gather_needs(built(made), Work(steps=()), shelf(), TRAY)


def read(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(text, newline="")))


def test_it_reads_back_with_one_number_a_line():
    rows = read(needs_csv(taken_off()))
    assert tuple(rows[0]) == COLUMNS
    for row in rows:
        assert row["amount"] == "" or float(row["amount"]) >= 0
    by_figure = {(r["item"], r["figure"], r["unit"]): r["amount"] for r in rows}
    assert by_figure["cops, 3.2 mm (8 oz)", "area of the parts", "dm²"] == "4"
    assert by_figure["Cap rivet, post 6 mm", "buy", ""] == "3"
    assert by_figure["Dye, blue, light", "dipped: fill of the tray", "ml"] == "1980"
    assert by_figure["Total", "cost", "crown"] == "4.687"


def test_lines_end_and_cells_are_quoted_as_rfc_4180_has_it():
    text = needs_csv(taken_off())
    assert text.startswith("section,item,figure,amount,unit,note\r\n")
    assert text.count("\n") == text.count("\r\n")
    assert '"Dye, blue, light"' in text


@pytest.mark.parametrize("start", ["=", "+", "-", "@"])
def test_a_name_that_a_spreadsheet_would_reckon_with_is_guarded(start):
    # The largest part is named in a note.
    notes = {row["note"] for row in read(needs_csv(taken_off(f"{start}SUM(A1:A9)")))}
    assert f"'{start}SUM(A1:A9)" in notes
    assert f"{start}SUM(A1:A9)" not in notes


@given(name=st.text(min_size=1, max_size=20))
def test_any_name_reads_back_whole(name):
    notes = {row["note"] for row in read(needs_csv(taken_off(name)))}
    assert name in notes or f"'{name}" in notes
