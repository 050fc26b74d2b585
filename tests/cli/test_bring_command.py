"""``armorplan bring``: a folder out of a drawing, its answers as a file, and nothing written over."""

import json
import tomllib

import ezdxf
import pytest
from schemas_cli import schema

from armorplan.cli.program import run
from armorplan.kernel.shipped import samples_folder

DRAWING = str(samples_folder() / "elbow_cop" / "elbow_cop.svg")
BAND = """<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 130">
  <rect id="band" x="10" y="10" width="170" height="70"/>
  <circle id="band_1" cx="22" cy="45" r="1.75"/>
  <circle id="band_2" cx="36" cy="45" r="1.75"/>
  <rect id="strap" x="10" y="95" width="150" height="20"/>
  <circle id="strap_1" cx="20" cy="105" r="1.75"/>
  <circle id="strap_2" cx="34" cy="105" r="1.75"/>
</svg>
"""


@pytest.fixture
def band(tmp_path):
    file = tmp_path / "band.svg"
    file.write_text(BAND, encoding="utf-8")
    return file


def brought(folder):
    return tomllib.loads((folder / "pattern.toml").read_text(encoding="utf-8"))


def test_it_writes_a_folder_that_checks_clean(band, tmp_path, capsys):
    folder = tmp_path / "mine"
    assert run(["bring", str(band), "-o", str(folder)]) == 0
    said = capsys.readouterr().out
    assert "What it was taken for (? is a guess worth a look):" in said
    assert f"Written: {folder / 'pattern.toml'}" in said
    assert sorted(p.name for p in folder.iterdir()) == ["as_brought", "band.svg", "pattern.toml"]
    assert (folder / "as_brought" / "band.svg").read_bytes() == band.read_bytes()
    assert run(["check", str(folder)]) == 0


def test_ids_that_a_maker_gave_stay(band, tmp_path, capsys):
    assert run(["bring", str(band), "-o", str(tmp_path / "out"), "--unit", "mm"]) == 0
    made = brought(tmp_path / "out")
    assert set(made["parts"]) == {"band", "strap"}
    stacks = [joint["stack"] for joint in made["joints"].values()]
    assert sorted(outer for outer, _ in stacks) == ["strap_1", "strap_2"]
    assert sorted(inner for _, inner in stacks) == ["band_1", "band_2"]
    assert "Open:" not in capsys.readouterr().out


def test_a_dxf_drawing_in_inches_is_named_by_its_lettering(tmp_path, capsys):
    inch = 25.4
    file = tmp_path / "cutter.dxf"
    drawing = ezdxf.new("R2010", units=1)
    space = drawing.modelspace()
    for name, (x, y, wide, high), holes in (
        ("shoulder band", (0, 0, 170, 70), ((12, 35), (28, 35))),
        ("closing strap", (0, -40, 150, 20), ((10, -30), (26, -30))),
    ):
        corners = [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]
        space.add_lwpolyline([(a / inch, b / inch) for a, b in corners], close=True)
        for a, b in holes:
            space.add_circle((a / inch, b / inch), 1.75 / inch)
        at = ((x + 60) / inch, (y + high / 3) / inch)
        space.add_text(name, height=6 / inch, dxfattribs={"insert": at})
    drawing.saveas(file)
    assert run(["bring", str(file), "-o", str(tmp_path / "out")]) == 0
    made = brought(tmp_path / "out")
    kinds = {name: table["kind"] for name, table in made["parts"].items()}
    assert kinds == {"shoulder_band": "lame", "closing_strap": "strap"}
    assert len(made["joints"]) == 2
    assert "1 unit is 1 inch" in capsys.readouterr().out


def test_the_answer_fits_the_shipped_schema(band, tmp_path, capsys):
    assert run(["bring", str(band), "-o", str(tmp_path / "out"), "--unit", "mm", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    schema("bring").validate(answer)
    assert answer["mm_each"] == 1
    assert (answer["parts"], answer["joints"]) == (2, 2)


def test_answers_that_were_saved_give_the_same_folder(band, tmp_path, capsys):
    answers = tmp_path / "answers.toml"
    first, again = tmp_path / "first", tmp_path / "again"
    run(["bring", str(band), "-o", str(first), "--unit", "mm", "--save-answers", str(answers)])
    assert run(["bring", str(band), "-o", str(again), "--answers", str(answers)]) == 0
    assert (first / "pattern.toml").read_bytes() == (again / "pattern.toml").read_bytes()
    changed = answers.read_text(encoding="utf-8").replace('"strap"\n', '"trim"\n')
    answers.write_text(changed, encoding="utf-8")
    other = tmp_path / "other"
    assert run(["bring", str(band), "-o", str(other), "--answers", str(answers)]) == 0
    assert brought(other)["parts"]["strap"]["kind"] == "trim"
    capsys.readouterr()


def test_an_answer_to_nothing_is_told(band, tmp_path, capsys):
    answers = tmp_path / "answers.toml"
    answers.write_text('[answers]\nunit = 1\n"kind:lining" = "plate"\n', encoding="utf-8")
    assert run(["bring", str(band), "-o", str(tmp_path / "out"), "--answers", str(answers)]) == 0
    assert "The answer to kind:lining answers nothing" in capsys.readouterr().err


def test_only_what_is_sure_leaves_short_rows_free(band, tmp_path, capsys):
    folder = tmp_path / "out"
    assert run(["bring", str(band), "-o", str(folder), "--unit", "mm", "--sure-only"]) == 0
    assert "joints" not in brought(folder)
    assert "Open: The band has 2 holes without a use yet." in capsys.readouterr().out


def test_it_writes_over_nothing(band, tmp_path, capsys):
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "mine.txt").write_text("mine", encoding="utf-8")
    assert run(["bring", str(band), "-o", str(tmp_path / "out")]) == 2
    assert [p.name for p in (tmp_path / "out").iterdir()] == ["mine.txt"]
    assert "is not empty: it holds mine.txt" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("<svg", "[cut-off]"),
        ('<svg xmlns="http://www.w3.org/2000/svg"/>', "[nothing-drawn]"),
        (
            '<svg xmlns="http://www.w3.org/2000/svg"><line x1="0" y1="0" x2="9" y2="9"/></svg>',
            "[no-outline]",
        ),
    ],
)
def test_what_cannot_be_read_is_one_clear_message(text, code, tmp_path, capsys):
    file = tmp_path / "bad.svg"
    file.write_text(text, encoding="utf-8")
    assert run(["bring", str(file), "-o", str(tmp_path / "out")]) == 2
    said = capsys.readouterr()
    assert code in said.err
    assert "Traceback" not in said.err
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("text", ["answers = 3", "[answers]\nunit = [1]", "not toml"])
def test_a_file_that_holds_no_answers_is_told(text, band, tmp_path, capsys):
    answers = tmp_path / "answers.toml"
    answers.write_text(text, encoding="utf-8")
    assert run(["bring", str(band), "-o", str(tmp_path / "out"), "--answers", str(answers)]) == 2
    assert "holds no answers" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_a_unit_that_is_none_is_told(band, tmp_path, capsys):
    with pytest.raises(SystemExit):
        run(["bring", str(band), "-o", str(tmp_path / "out"), "--unit", "ell"])
    assert "'ell' is no unit" in capsys.readouterr().err


def test_a_bare_drawing_goes_through_every_command(capsys):
    assert run(["check", DRAWING]) == 0
    assert "[bare-drawing]" in capsys.readouterr().out
    assert run(["order", DRAWING]) == 0
    assert "Cut petal left" in capsys.readouterr().out


def test_where_answers_cannot_be_kept_nothing_is_written(band, tmp_path, capsys):
    answers = tmp_path / "nowhere" / "answers.toml"
    out = tmp_path / "out"
    assert run(["bring", str(band), "-o", str(out), "--save-answers", str(answers)]) == 2
    assert "file of answers cannot be written there" in capsys.readouterr().err
    assert not out.exists()
    inside = out / "answers.toml"
    assert run(["bring", str(band), "-o", str(out), "--save-answers", str(inside)]) == 0
    assert inside.is_file()


def test_a_folder_is_told_by_its_name(tmp_path, monkeypatch, capsys):
    (tmp_path / "drawings").mkdir()
    monkeypatch.chdir(tmp_path / "drawings")
    assert run(["bring", ".", "-o", str(tmp_path / "out")]) == 2
    assert "drawings is a folder" in capsys.readouterr().err


def test_the_sample_drawing_goes_by_its_name_and_can_be_fitted_at_once(tmp_path, capsys):
    """The sample drawing, only as suggested: both its pieces follow a wearer's measures."""
    folder, wearers = tmp_path / "watch", tmp_path / "wearers.toml"
    assert run(["bring", "watch_parts", "-o", str(folder)]) == 0
    assert "12 parts" in capsys.readouterr().out
    assert (folder / "as_brought" / "watch_parts.svg").is_file()
    measures = "measures.{0} = {1}", "padded.{0} = {1}"
    told = [
        measures[key.endswith("girth")].format(key, table["mm"])
        for key, table in brought(folder)["drawn_for"].items()
    ]
    wearers.write_text("\n".join(["[wearers.mara]", "name = 'Mara'", *told]), encoding="utf-8")
    fit = ["fit", str(folder), "--wearer", f"{wearers}:mara", "-o", str(tmp_path / "mara")]
    assert run(fit) == 0
    assert "Mara" in capsys.readouterr().out
