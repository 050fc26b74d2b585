"""``armorplan order`` and the judging of an order somebody wrote."""

import json

import pytest
from schemas_cli import schema

from armorplan.cli.program import run


@pytest.mark.parametrize("sample", ["elbow_cop", "collar", "three_lames"])
def test_the_order_fits_the_shipped_schema(sample, capsys):
    assert run(["order", sample, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    schema("order").validate(found)
    first, *_, last = found["steps"]
    assert (first["kind"], last["kind"]) == ("measure print", "pack")


def test_every_step_but_the_first_has_a_reason(capsys):
    run(["order", "elbow_cop", "--json"])
    steps = json.loads(capsys.readouterr().out)["steps"]
    place = {step["id"]: at for at, step in enumerate(steps)}
    assert all(step["reasons"] for step in steps[1:])
    for step in steps:
        for reason in step["reasons"]:
            assert place[reason["after"]] < place[step["id"]]


def test_the_text_names_reasons_and_cautions(capsys):
    run(["order", "elbow_cop"])
    said = capsys.readouterr().out
    assert "because: Boss lies on the head of 'Rivet middle petal and lace tab" in said
    assert "CAUTION:" in said
    assert "costume, not protective equipment" in said


def write_order(tmp_path, capsys, change):
    run(["order", "elbow_cop", "--json"])
    steps = [step["id"] for step in json.loads(capsys.readouterr().out)["steps"]]
    file = tmp_path / "order.txt"
    file.write_text("\n".join(change(steps)) + "\n", encoding="utf-8")
    return file


def test_the_program_s_own_order_is_right(tmp_path, capsys):
    file = write_order(tmp_path, capsys, lambda steps: steps)
    assert run(["order", "elbow_cop", "--judge", str(file)]) == 0
    assert capsys.readouterr().out.startswith("Right")


def test_a_wrong_order_is_told_with_its_reason(tmp_path, capsys):
    file = write_order(tmp_path, capsys, lambda steps: [steps[1], steps[0], *steps[2:]])
    assert run(["order", "elbow_cop", "--judge", str(file)]) == 1
    assert "wrong scale" in capsys.readouterr().out


def test_a_wrong_order_is_mended_by_as_few_moves_as_it_takes(tmp_path, capsys):
    late = lambda steps: [*steps[1:40], steps[0], *steps[40:]]  # noqa: E731
    file = write_order(tmp_path, capsys, late)
    assert run(["order", "elbow_cop", "--judge", str(file)]) == 1
    said = capsys.readouterr().out
    assert "Mended by moving 1 step:" in said
    assert "'Measure the paper print of Elbow cop' to the very front" in said


def test_an_order_that_cannot_be_read_is_told(tmp_path, capsys):
    assert run(["order", "elbow_cop", "--judge", str(tmp_path / "none.txt")]) == 2
    assert "none.txt" in capsys.readouterr().err
