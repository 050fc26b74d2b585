"""``armorplan order`` and the judging of an order somebody wrote."""

import json
import re
from contextlib import redirect_stdout
from functools import cache
from io import StringIO

import pytest
from schemas_cli import schema

from armorplan.app.opening import derive_folder
from armorplan.cli.program import run
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.kernel.units import about_words
from armorplan.relations.model import Together
from armorplan.workshop.shop import one_maker


@pytest.fixture(scope="module")
def told():
    """Return what the command tells of a sample: its answer and its lines, asked for once."""

    @cache
    def of(sample):
        answer = json.loads(said("order", sample, "--json"))
        return answer, tuple(said("order", sample).splitlines())

    return of


def said(*words):
    with redirect_stdout(StringIO()) as out:
        assert run(list(words)) == 0
    return out.getvalue()


def told_steps(told, sample):
    answer, lines = told(sample)
    return answer["steps"], lines


@pytest.mark.parametrize("sample", ["elbow_cop", "collar", "three_lames", "arm_harness"])
def test_the_order_fits_the_shipped_schema(sample, told):
    found, _ = told(sample)
    schema("order").validate(found)
    first, *_, last = found["steps"]
    assert (first["kind"], last["kind"]) == ("measure print", "pack")


def test_every_step_but_the_first_has_a_reason(told):
    steps, _ = told_steps(told, "elbow_cop")
    place = {step["id"]: at for at, step in enumerate(steps)}
    assert all(step["reasons"] for step in steps[1:])
    derived = derive_folder(samples_folder() / "elbow_cop", read_shelf(), one_maker("UTC"))
    in_one_go = {r.reason.rule for r in derived.relations if isinstance(r, Together)}
    for step in steps:
        for reason in step["reasons"]:
            # What is done in one go names the others of it, which may stand behind the step.
            if reason["rule"] not in in_one_go:
                assert place[reason["after"]] < place[step["id"]]


def test_the_text_names_reasons_and_cautions(told):
    text = "\n".join(told_steps(told, "elbow_cop")[1])
    assert "because: Boss lies on the head of 'Rivet middle petal and lace tab" in text
    assert "CAUTION:" in text
    assert "costume, not protective equipment" in text


def test_the_minutes_of_setting_the_joints_are_told_with_their_bound(told):
    answer, lines = told("elbow_cop")
    effort = answer["effort"]
    assert effort["proved"]
    assert effort["bound_min"] == effort["least_min"] <= effort["work_min"]
    rows = {row["row"]: row for row in effort["rows"]}
    assert {"left_row", "right_row"} <= rows.keys()
    assert all(
        row["loaded"] == (row["loaded_min"] < row["one_by_one_min"]) for row in rows.values()
    )
    last = lines[-1]
    assert last.startswith(f"Setting the joints takes {about_words(effort['steps_min'])} in this")
    assert "that is proved" in last


def write_order(tmp_path, told, change):
    steps = [step["id"] for step in told("elbow_cop")[0]["steps"]]
    file = tmp_path / "order.txt"
    file.write_text("\n".join(change(steps)) + "\n", encoding="utf-8")
    return file


def test_the_program_s_own_order_is_right(tmp_path, capsys, told):
    file = write_order(tmp_path, told, lambda steps: steps)
    assert run(["order", "elbow_cop", "--judge", str(file)]) == 0
    assert capsys.readouterr().out.startswith("Right")


def test_a_wrong_order_is_told_with_its_reason(tmp_path, capsys, told):
    file = write_order(tmp_path, told, lambda steps: [steps[1], steps[0], *steps[2:]])
    assert run(["order", "elbow_cop", "--judge", str(file)]) == 1
    assert "wrong scale" in capsys.readouterr().out


def test_a_wrong_order_is_mended_by_as_few_moves_as_it_takes(tmp_path, capsys, told):
    late = lambda steps: [*steps[1:40], steps[0], *steps[40:]]  # noqa: E731
    file = write_order(tmp_path, told, late)
    assert run(["order", "elbow_cop", "--judge", str(file)]) == 1
    said = capsys.readouterr().out
    assert "Mended by moving 1 step:" in said
    assert "'Measure the paper print of Elbow cop' to the very front" in said


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda _: None, "There is no file"),
        (lambda path: path.mkdir(), "is a folder"),
        (lambda path: path.write_bytes(b"\xff\xfe\x00"), "not a text"),
    ],
)
def test_an_order_that_cannot_be_read_is_told_in_plain_words(tmp_path, capsys, make, said):
    file = tmp_path / "order.txt"
    make(file)
    assert run(["order", "elbow_cop", "--judge", str(file)]) == 2
    told = capsys.readouterr().err
    assert "order.txt" in told
    assert said in told
    assert "one step id a line" in told
    assert "Errno" not in told


def test_a_step_that_is_none_is_told_with_the_nearest(tmp_path, capsys, told):
    file = write_order(
        tmp_path, told, lambda steps: [steps[0].replace("print", "prnt"), *steps[1:]]
    )
    assert run(["order", "elbow_cop", "--judge", str(file)]) == 2
    said = capsys.readouterr().err
    assert 'There is no step "elbow_cop/elbow_cop/single/measure-prnt/elbow_cop"' in said
    assert 'Perhaps "elbow_cop/elbow_cop/single/measure-print/elbow_cop" is meant.' in said


def test_many_steps_that_are_none_are_counted(tmp_path, capsys):
    file = tmp_path / "order.txt"
    file.write_text("\n".join(f"zz{n}" for n in range(9)), encoding="utf-8")
    assert run(["order", "elbow_cop", "--judge", str(file)]) == 2
    told = capsys.readouterr().err
    assert 'There is no step "zz0" in this pattern.' in told
    assert "And 6 more that are none." in told


@pytest.mark.parametrize("sample", ["elbow_cop", "collar", "three_lames", "arm_harness"])
def test_every_step_stands_in_the_text_with_number_id_and_detail(sample, told):
    steps, lines = told_steps(told, sample)
    heads = [at for at, line in enumerate(lines) if re.match(r" *\d+  \S", line)]
    assert [int(lines[at].split()[0]) for at in heads] == list(range(1, len(steps) + 1))
    for at, step in zip(heads, steps, strict=True):
        assert lines[at][6:].startswith(step["title"])
        assert lines[at + 1] == f"      {step['id']}"
        if step["detail"]:
            assert lines[at + 2] == f"      {step['detail']}"
    assert any("post" in line for line in lines)


@pytest.mark.parametrize("sample", ["elbow_cop", "three_lames", "arm_harness"])
def test_cautions_are_told_in_full_or_lead_to_where_they_are(sample, told):
    steps, lines = told_steps(told, sample)
    found: dict[int, list[str]] = {}
    for line in lines:
        if re.match(r" *\d+  \S", line):
            found[int(line.split()[0])] = []
        elif line.startswith("      CAUTION"):
            found[list(found)[-1]].append(line.strip())
    shorter = 0
    for number, heard in found.items():
        step = steps[number - 1]
        full = [f"CAUTION: {caution}" for caution in step["cautions"]]
        if heard != full:
            (line,) = heard
            earlier = int(line.removeprefix("CAUTION as at step "))
            assert earlier < number
            assert steps[earlier - 1]["kind"] == step["kind"]
            assert found[earlier] == full
            shorter += 1
    assert shorter > len(steps) / 4


def test_runs_of_like_steps_stand_under_a_heading(told):
    _, lines = told_steps(told, "elbow_cop")
    headings = [line for line in lines if line[:1].strip() and ", steps " in line]
    assert any(re.fullmatch(r"Cut, steps \d+ to \d+  \(.*\)", line) for line in headings)
    assert any(re.match(r"left row: \d+ joints, steps", line) for line in headings)
    assert all(lines[lines.index(line) - 1] == "" for line in headings[1:])


@pytest.mark.parametrize("sample", ["elbow_cop", "collar"])
def test_what_holds_of_a_row_is_told_once_at_its_head(sample, told):
    _, lines = told_steps(told, sample)
    blocks = "\n".join(lines).split("\n\n")
    rows = [block for block in blocks if re.match(r".* row: \d+ joints, steps", block)]
    assert rows
    for row in rows:
        head, first, *_ = re.split(r"\n *\d+  ", row)
        because = re.findall(r"because: (.*)", row)
        assert len(because) == len(set(because))
        assert "[row-in-one-go]" in head
        assert "easier-while-open" not in row.removeprefix(head)
        assert first.startswith("Rivet")


def test_only_the_last_of_several_steps_waits_for_what_comes_before_the_last(told):
    steps, _ = told_steps(told, "elbow_cop")
    place = {step["id"]: at for at, step in enumerate(steps)}
    waiting = {
        step["id"].rpartition("/")[2]
        for step in steps
        for reason in step["reasons"]
        if reason["rule"] == "easier-while-open"
    }
    assert waiting == {"left_row_7"}
    assert place["elbow_cop/elbow_cop/single/rivet/left_row_7"] > max(
        at for step, at in place.items() if "rivet/right_row" in step
    )


def test_a_reason_about_another_joint_names_it(told):
    steps, _ = told_steps(told, "elbow_cop")
    titles = {step["title"] for step in steps}
    texts = [
        reason["text"]
        for step in steps
        for reason in step["reasons"]
        if reason["rule"] in ("easier-while-open", "deep-end-easier")
    ]
    assert texts
    assert all(text.split("'")[1] in titles for text in texts)
    assert all(text.startswith("'") for text in texts)


def joints_last(steps, *names):
    """Return the steps with those of these joints behind all others that set one."""
    moved = [step for step in steps if step.rpartition("/")[2] in names]
    rest = [step for step in steps if step not in moved]
    at = next(at for at, step in enumerate(rest) if "/fit/" in step)
    return [*rest[:at], *moved, *rest[at:]]


def test_an_order_that_is_right_is_told_what_it_costs_and_where(tmp_path, capsys, told):
    late = ("tab_top", "tab_bottom", "boss_left", "boss_right")
    file = write_order(tmp_path, told, lambda steps: joints_last(steps, *late))
    assert run(["order", "elbow_cop", "--judge", str(file)]) == 0
    right, cost, *dearest = capsys.readouterr().out.splitlines()
    assert right.startswith("Right")
    assert re.match(
        r"Setting the joints takes about [\d.]+ minutes more in it than the 1 h \d+ min", cost
    )
    assert len(dearest) == 2
    assert all("minutes for 'Rivet " in line for line in dearest)
    run(["order", "elbow_cop", "--judge", str(file), "--json"])
    found = json.loads(capsys.readouterr().out)["cost"]
    assert found["more_min"] == pytest.approx(sum(d["minutes"] for d in found["dearest"]), abs=0.3)


def test_the_program_s_own_order_costs_nothing_more(tmp_path, capsys, told):
    file = write_order(tmp_path, told, lambda steps: steps)
    run(["order", "elbow_cop", "--judge", str(file)])
    assert capsys.readouterr().out.splitlines()[1].endswith("no order takes less.")


def test_a_boss_before_what_it_hides_goes_behind_it_with_both_its_rivets(tmp_path, capsys, told):
    file = write_order(tmp_path, told, lambda steps: joints_last(steps, "tab_top", "tab_bottom"))
    assert run(["order", "elbow_cop", "--judge", str(file)]) == 1
    *_, lead, move = capsys.readouterr().out.splitlines()
    assert lead == "To mend it:"
    assert "'Rivet boss and middle petal, 1 of 2' to 'Rivet boss and middle petal, 2 of 2'" in move
    assert "to after 'Rivet middle petal and lace tab" in move
