"""``armorplan drill --pdf``: worksheets and the page of progress."""

from io import BytesIO

import pytest
from pypdf import PdfReader

from armorplan.cli.program import run


def text_of(path):
    pages = PdfReader(BytesIO(path.read_bytes())).pages
    return "\n".join(page.extract_text() for page in pages)


def test_a_worksheet_holds_as_many_as_asked_and_names_who_it_is_for(tmp_path, capsys):
    path, workshop = tmp_path / "sheet.pdf", tmp_path / "w.sqlite"
    who = ("--who", "Piet", "--workshop", str(workshop))
    words = ("elbow_cop", "--kind", "fastener", "--count", "3", "--seed", "4", *who)
    assert run(["drill", *words, "--pdf", str(path), "--paper", "letter"]) == 0
    assert "3 exercises, the answers on pages behind" in capsys.readouterr().out
    text = text_of(path)
    assert "Name: Piet" in text
    assert text.count("Which of these holds") == 3
    assert "exercise 4, a row" in text


def test_a_sheet_says_where_a_build_holds_no_more(tmp_path, capsys):
    path = tmp_path / "sheet.pdf"
    words = ("elbow_cop", "--kind", "fastener", "--part", "lace_tab", "--count", "40")
    assert run(["drill", *words, "--pdf", str(path)]) == 0
    assert "The build holds no more of these" in capsys.readouterr().out
    words = ("elbow_cop", "--kind", "first", "--part", "boss")
    assert run(["drill", *words, "--pdf", str(path)]) == 2
    assert "holds no exercise of these: first" in capsys.readouterr().err


def test_progress_goes_on_paper(tmp_path, capsys):
    path, workshop = tmp_path / "page.pdf", tmp_path / "w.sqlite"
    who = ("--who", "Piet", "--workshop", str(workshop), "--progress")
    assert run(["drill", "elbow_cop", *who, "--pdf", str(path)]) == 0
    assert "how far Piet is" in capsys.readouterr().out
    text = text_of(path)
    assert "Reasons known: Piet" in text
    assert "Dry fit before anything permanent" in text


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--pdf", "x.txt"), "a worksheet is a PDF. Let the name of the file end in .pdf"),
        (("--pdf", "no_such_folder/x.pdf"), "cannot be written there"),
        (("--count", "3"), "give --pdf FILE"),
        (("--paper", "letter"), "give --pdf FILE"),
        (("--pdf", "x.pdf", "--answer", "A"), "--pdf goes without --answer"),
        (("--pdf", "x.pdf", "--solution"), "--pdf goes without --solution"),
        (("--pdf", "x.pdf", "--focus", "pack-last"), "--pdf goes without --focus"),
        (("--pdf", "x.pdf", "--json"), "--pdf goes without --json"),
    ],
)
def test_what_does_not_go_with_paper_is_told_in_one_line(words, told, capsys):
    assert run(["drill", "elbow_cop", *words]) == 2
    found = capsys.readouterr()
    assert told in found.err
    assert len(found.err.splitlines()) == 1
