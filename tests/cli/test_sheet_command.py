"""``armorplan sheet``: what is written, and the words for what cannot be."""

import json
import re
import shutil
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path

import pytest
from pypdf import PdfReader
from schemas_cli import schema

from armorplan.cli.program import run

FROM = "2026-11-30T09:00"
CUFF = Path(__file__).parents[1] / "golden_patterns" / "form_1" / "first_words"


def said(*words, answer=0):
    with redirect_stdout(StringIO()) as out:
        assert run(list(words)) == answer
    return out.getvalue()


def texts(path):
    return [page.extract_text() for page in PdfReader(path).pages]


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    path = tmp_path_factory.mktemp("sheet") / "elbow.pdf"
    answer = said("sheet", "elbow_cop", "-o", str(path), "--full-size", "--from", FROM, "--json")
    return path, json.loads(answer), texts(path)


def test_the_answer_fits_the_shipped_schema(written):
    path, answer, pages = written
    schema("sheet").validate(answer)
    (one,) = answer["sheets"]
    assert one["file"] == str(path)
    assert (one["pages"], one["full_size_parts"], one["dated"]) == (len(pages), 8, True)
    assert one["missing_letters"] == ""


def test_the_sheet_tells_steps_dates_reasons_and_parts(written):
    _, answer, pages = written
    text = "\n".join(pages)
    assert "Elbow cop of the lantern watch" in pages[0]
    assert "costume, not protective equipment" in pages[0]
    for words in (
        "Cut left petal",
        "Mon 30 Nov 09:00",
        "Begin between",
        "Two-part tubular rivet, 9 mm head",
        "The dry fit is the last point at which",
        "Wear eye protection",
        "Lay it out first, without pins",
        "closing strap: tile A1 of 2",
    ):
        assert words in text
    count = answer["sheets"][0]["steps"]
    assert f"{count}" in text


_BEGUN = re.compile(r"^\w{3} (\d{1,2}) (\w{3}) (\d\d:\d\d) \N{EN DASH} ", re.MULTILINE)


def test_the_pages_follow_the_clock(written):
    _, _, pages = written
    text = "\n".join(pages).split("Monday, 30 November")[0]
    months = {"Nov": 11, "Dec": 12}
    begun = [(months[month], int(day), at) for day, month, at in _BEGUN.findall(text)]
    # The cover tells from when to when; the contents come before all steps.
    assert len(begun) > 30
    assert begun == sorted(begun)


def test_what_is_cased_lies_ready_before_anything_is_formed(written):
    text = "\n".join(written[2])
    assert text.index("Case boss for forming") < text.index("Dish left petal, middle petal")


ODD = "Blütenblatt Ω 花"


@pytest.fixture(scope="module")
def sold(tmp_path_factory):
    """A sheet to go with a pattern, one of whose parts is named with letters that no face has."""
    folder = tmp_path_factory.mktemp("sold")
    pattern = Path(shutil.copytree(CUFF, folder / "cuff"))
    file = pattern / "pattern.toml"
    text = file.read_text(encoding="utf-8")
    odd = text.replace('name = "cuff plate"', f'name = "{ODD}"')
    assert odd != text
    file.write_text(odd, encoding="utf-8")
    path = folder / "sold.pdf"
    with redirect_stderr(StringIO()) as warned:
        told = said("sheet", str(pattern), "-o", str(path), "--undated", "--paper", "Letter")
    assert f"Written: {path}" in told
    return warned.getvalue(), "\n".join(texts(path))


def test_a_sheet_for_a_pattern_that_is_sold_has_no_dates(sold):
    _, text = sold
    assert "Begin between" not in text
    assert "Day by day" not in text
    assert "Start 9 to 52 min after casing" in text.replace("\n", " ")


def test_odd_letters_in_names_are_told_and_stop_nothing(sold):
    warned, text = sold
    assert "花 (U+82B1)" in warned
    assert "Cut Blütenblatt Ω □" in text


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("sheet.txt", "Let the name of the file end in .pdf"),
        ("nowhere/sheet.pdf", "cannot be written there"),
        ("folder.pdf", "cannot be written there"),
    ],
)
def test_a_file_that_cannot_be_is_told_before_any_work(tmp_path, capsys, name, words):
    (tmp_path / "folder.pdf").mkdir()
    assert run(["sheet", "no_such_pattern", "-o", str(tmp_path / name)]) == 2
    told = capsys.readouterr().err
    assert words in told
    assert "Traceback" not in told


BARE = """\
<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="400mm" viewBox="0 0 {wide} 400">
{parts}
</svg>
"""


def drawn(folder, name="plate"):
    drawing = folder / f"{name}.svg"
    part = f'<path id="{name}" d="M10 10 H150 V90 H10 Z"/>'
    drawing.write_text(BARE.format(wide=200, parts=part), encoding="utf-8")
    return drawing


def test_a_disk_that_refuses_keeps_what_was_there(tmp_path, capsys, monkeypatch):
    drawing = drawn(tmp_path)
    folder = tmp_path / "sheets"
    folder.mkdir()
    path = folder / "sheet.pdf"
    path.write_bytes(b"the former sheet")

    def refuse(_path, _data):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("pathlib.Path.write_bytes", refuse)
    assert run(["sheet", str(drawing), "-o", str(path), "--undated"]) == 2
    assert "cannot be written (no space left on device)" in capsys.readouterr().err
    assert path.read_bytes() == b"the former sheet"
    assert [file.name for file in folder.iterdir()] == ["sheet.pdf"]


def test_a_bare_drawing_without_a_joint_has_a_sheet(tmp_path):
    path = tmp_path / "plate.pdf"
    said("sheet", str(drawn(tmp_path)), "-o", str(path), "--undated", "--full-size")
    text = "\n".join(texts(path))
    assert "Cut plate" in text
    assert "Parts at full size" in text


SHOP = """\
zone = "UTC"

[people.maker]
name = "Maker"
hours = [{hours}]

[builds.first]
pattern = "{pattern}"

[builds.second]
title = "Cuff of the night round"
pattern = "{pattern}"
"""


def test_a_shop_gets_a_sheet_for_each_build(tmp_path):
    file = tmp_path / "shop.toml"
    days = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
    hours = ", ".join(f'{{ day = "{day}", from = "07:00", to = "21:00" }}' for day in days)
    file.write_text(SHOP.format(hours=hours, pattern=CUFF.as_posix()), encoding="utf-8")
    path = tmp_path / "week.pdf"
    answer = json.loads(said("sheet", str(file), "-o", str(path), "--json", "--from", FROM))
    schema("sheet").validate(answer)
    assert [Path(one["file"]).name for one in answer["sheets"]] == [
        "week-first.pdf",
        "week-second.pdf",
    ]
    assert answer["sheets"][1]["title"] == "Cuff of the night round"
    assert {f.name for f in tmp_path.iterdir()} == {
        "shop.toml",
        "week-first.pdf",
        "week-second.pdf",
    }
    first, second = (texts(tmp_path / f"week-{one}.pdf") for one in ("first", "second"))
    assert "Planned" in first[0]
    assert "Cuff of the night round" in second[0]
