"""``armorplan check``: one clear message for each broken folder, and never a traceback."""

import json

import pytest
from folders_cli import BROKEN, copy_sample
from schemas_cli import schema

from armorplan.cli.program import run
from armorplan.cli.shape_words import shape_lines
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity

SLIDE = Figure(
    name="slide per spacing",
    value=8.888888,
    unit="%",
    formula="d / R = 4.0 / 45 = 8.9 %",
    source="circle geometry",
)
LONG = Figure(
    name="what stays under the next plate at the end of the bend",
    value=10.0,
    unit="mm",
    formula="overlap flat less the slide of the edge: " + "23.4 - 45 × 0.298 and so on, " * 4,
    source="common practice, no source",
)


def _measure(**more) -> Measure:
    known = {"id": "bends:cuff", "topic": Topic.BENDS, "title": "cuff", "text": "It bends."}
    return Measure(**(known | {"verdict": "damp, or oval holes"} | more))


@pytest.mark.parametrize("sample", ["elbow_cop", "collar", "three_lames", "arm_harness"])
def test_the_samples_are_sound(sample, capsys):
    assert run(["check", sample]) == 0
    assert "nothing found" in capsys.readouterr().out


@pytest.mark.parametrize("fault", BROKEN)
def test_a_broken_folder_gets_a_clear_message(fault, tmp_path, capsys):
    folder = copy_sample(tmp_path)
    break_it, code, named = BROKEN[fault]
    break_it(folder)
    assert run(["check", str(folder)]) == code
    said = capsys.readouterr()
    assert named in said.out + said.err
    assert "Traceback" not in said.out + said.err


@pytest.mark.parametrize("fault", BROKEN)
def test_faults_fit_the_shipped_schema(fault, tmp_path, capsys):
    folder = copy_sample(tmp_path)
    BROKEN[fault][0](folder)
    run(["check", str(folder), "--json"])
    found = json.loads(capsys.readouterr().out)
    schema("check").validate(found)
    assert any(f["severity"] == "error" for f in found["findings"])
    assert all(f["remedy"] for f in found["findings"])
    assert found["shapes"] == []


@pytest.mark.parametrize("sample", ["elbow_cop", "collar", "three_lames", "arm_harness"])
def test_what_the_shapes_of_a_sample_tell_fits_the_schema(sample, capsys):
    assert run(["check", sample, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    schema("check").validate(found)
    ids = [shape["id"] for shape in found["shapes"]]
    assert len(set(ids)) == len(ids)
    topics = [shape["topic"] for shape in found["shapes"]]
    assert topics == sorted(topics, key=[topic.value for topic in Topic].index)
    assert all(shape["verdict"] and shape["text"] for shape in found["shapes"])
    told = [figure for shape in found["shapes"] for figure in shape["figures"]]
    assert all(figure["formula"] and figure["source"] for figure in told)


@pytest.mark.parametrize("sample", ["elbow_cop", "collar", "three_lames", "arm_harness"])
def test_shapes_are_printed_only_when_asked_for(sample, capsys):
    run(["check", sample])
    plain = capsys.readouterr().out.splitlines()
    assert run(["check", sample, "--shapes"]) == 0
    asked = capsys.readouterr().out.splitlines()
    assert "Fasteners and posts" not in plain
    assert "Fasteners and posts" in asked
    assert plain == [line for line in asked if line in plain]
    assert max(map(len, asked)) <= 100


def test_a_figure_stands_in_columns_with_formula_and_source():
    assert list(shape_lines([_measure(figures=(SLIDE,))])) == [
        "",
        "Bends",
        "  cuff – damp, or oval holes",
        "    slide per spacing      8.9 %  d / R = 4.0 / 45 = 8.9 % [1]",
        "",
        "Sources",
        "  [1]  circle geometry",
    ]


def test_a_source_is_named_once():
    lines = list(shape_lines([_measure(figures=(SLIDE, LONG)), _measure(figures=(SLIDE,))]))
    assert lines[-2:] == ["  [1]  circle geometry", "  [2]  common practice, no source"]
    assert sum(line.endswith("= 8.9 % [1]") for line in lines) == 2


def test_long_names_and_formulas_wrap_within_their_columns():
    lines = list(shape_lines([_measure(figures=(SLIDE, LONG), title="a long title " * 12)]))
    assert max(map(len, lines)) <= 100
    at = next(n for n, line in enumerate(lines) if "10 mm" in line)
    column = lines[at].index("overlap flat")
    more = lines[at + 1 : lines.index("Sources") - 1]
    assert len(more) >= 3
    assert "".join(line[column - 2 : column].strip() for line in more) == ""
    named = " ".join(line[:column].split("10 mm")[0].strip() for line in (lines[at], *more))
    assert named.strip() == LONG.name


def test_the_gravest_finding_stands_before_the_verdict():
    found = Finding(code="bend-too-tight", severity=Severity.WARNING, text=".", remedy=".")
    assert "  cuff – warning: crack" in shape_lines([_measure(findings=(found,), verdict="crack")])


@pytest.mark.parametrize("command", ["order", "plan"])
@pytest.mark.parametrize("fault", ["no drawing", "unknown id"])
def test_other_commands_say_the_same(command, fault, tmp_path, capsys):
    folder = copy_sample(tmp_path)
    break_it, code, named = BROKEN[fault]
    break_it(folder)
    assert run([command, str(folder)]) == code
    assert named in capsys.readouterr().err


def test_a_folder_that_is_not_there(tmp_path, capsys):
    assert run(["check", str(tmp_path / "nowhere")]) == 2
    assert "nowhere" in capsys.readouterr().out


def test_the_folder_one_stands_in_has_its_name(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(copy_sample(tmp_path))
    assert run(["check", "."]) == 0
    assert capsys.readouterr().out.startswith("elbow_cop: ")
