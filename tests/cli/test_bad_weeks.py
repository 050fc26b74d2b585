"""What no plan can be made of gets one clear message with its line, and no plan is sought for it."""

import shutil
from time import process_time

import pytest

from armorplan.cli.program import run
from armorplan.kernel.shipped import samples_folder

MAKER = """\
zone = "Europe/Lisbon"
[people.maker]
name = "Maker"
hours = [{ day = "mon", from = "08:00", to = "18:00" }, { day = "tue", from = "08:00", to = "18:00" }]
"""
RACK = """\
[racks.line]
name = "Line"
line_mm = 2000
"""
VAT = """\
[baths.vat]
name = "Vat"
area_dm2 = 30
takes = ["alcohol_dye"]
"""
BUILD = """\
[builds.cop]
pattern = "elbow_cop"
"""
SOUND = MAKER + RACK + VAT + BUILD
FIVE_MIN = 'from = "09:00", to = "09:04"'
WITHIN_S = 5.0
FROM = ("--from", "2026-12-07T08:00")


def told(tmp_path, capsys, text, *options, pattern=None):
    """Return the code, what is told, and what is answered; it has to be quick."""
    file = tmp_path / "shop.toml"
    file.write_text(text, encoding="utf-8")
    asked = [str(file)] if pattern is None else [str(pattern), "--shop", str(file)]
    since = process_time()
    code = run(["plan", *asked, *FROM, *options])
    taken_s = process_time() - since
    out, err = capsys.readouterr()
    assert "Traceback" not in err
    assert taken_s < WITHIN_S
    return code, err.splitlines(), out


def one_error(lines):
    """Return the only line that tells an error."""
    (line,) = [line for line in lines if ": error: " in line]
    return line


@pytest.mark.parametrize(
    ("instead", "wanted"),
    [
        (
            ("area_dm2 = 30", "area_dm2 = 0"),
            ("shop.toml:10 (baths.vat.area_dm2): error:", "Write a number above 0"),
        ),
        (
            ("line_mm = 2000", "line_mm = 0"),
            ("shop.toml:7 (racks.line.line_mm): error:", "Write a number above 0"),
        ),
        (
            (MAKER[MAKER.index("hours") :], "hours = []\n"),
            ("shop.toml:2 (people): error: Nobody in this shop has any hours", "Give somebody"),
        ),
        (
            (MAKER[MAKER.index("hours") :], ""),
            ('shop.toml:2 (people.maker): error: [people.maker] lacks "hours"', "Add hours ="),
        ),
        (
            (BUILD, f'{BUILD}from = "2027-01-20"\ndue = "2026-12-20"\n'),
            ("(builds.cop.due): error: This build is due before it may begin.", "or be due later"),
        ),
        (
            (BUILD, f'{BUILD}after = ["b"]\n[builds.b]\npattern = "collar"\nafter = ["cop"]\n'),
            ('These builds wait for each other: "cop" waits for "b" waits for "cop"', "Take one"),
        ),
        (
            (BUILD, f'{BUILD}due = "2027-03-28 01:30"\n'),
            ("(builds.cop.due): error: There is no 01:30 on 28 March 2027", "Write 02:30"),
        ),
    ],
)
def test_a_shop_that_cannot_be_read_says_where_what_and_how(tmp_path, capsys, instead, wanted):
    code, lines, out = told(tmp_path, capsys, SOUND.replace(*instead))
    line = one_error(lines)
    assert all(words in line for words in wanted), line
    assert (code, len(lines), out) == (2, 1, "")


def test_the_shop_that_these_are_made_of_is_sound(tmp_path, capsys):
    code, lines, out = told(tmp_path, capsys, SOUND, "--seconds", "0")
    assert (code, lines) == (0, [])
    assert "Fit Elbow cop" in out


@pytest.fixture
def nothing_sought(monkeypatch):
    """Let any search for a plan be a mistake."""

    def sought(*_args, **_more):
        pytest.fail("a plan is sought")

    monkeypatch.setattr("armorplan.cli.plan_command.planned", sought)


@pytest.mark.parametrize("is_shop", [True, False])
@pytest.mark.usefixtures("nothing_sought")
def test_a_step_longer_than_any_opening_is_told_before_anything_is_sought(
    tmp_path, capsys, is_shop
):
    text = SOUND.replace('from = "08:00", to = "18:00"', FIVE_MIN)
    pattern = None if is_shop else samples_folder() / "elbow_cop"
    code, lines, out = told(tmp_path, capsys, text, pattern=pattern)
    assert (code, out, len(lines)) == (1, "", 1)
    assert (
        "shop.toml:2 (people): error: 'Tool the lantern border into middle petal' takes"
        in (lines[0])
    )
    assert " min in one go, and the longest opening of Maker has 4 min. " in lines[0]
    assert "Give somebody longer hours" in lines[0]


@pytest.mark.usefixtures("nothing_sought")
def test_a_build_beyond_what_a_plan_sees_is_told_once(tmp_path, capsys):
    code, lines, out = told(tmp_path, capsys, f'{SOUND}from = "2028-02-20"\n')
    assert (code, out, len(lines)) == (1, "", 1)
    assert "may begin only in 439 days; a plan looks 400 days ahead." in one_error(lines)


@pytest.mark.usefixtures("nothing_sought")
def test_what_nobody_does_is_told_once_and_then_who_could(tmp_path, capsys):
    text = SOUND.replace("hours =", 'cannot = ["rivet"]\nhours =')
    code, lines, out = told(tmp_path, capsys, text, "--seconds", "0")
    assert code == 1
    line = one_error(lines)
    assert 'Nobody in this shop does "rivet": 23 steps cannot be planned' in line
    assert 'Add "rivet" to what somebody can do' in line
    assert "nobody has hours" not in out
    assert "nobody here may do" not in out
    assert out.startswith("What would free it:\n  Maker may do ")


@pytest.mark.usefixtures("nothing_sought")
def test_as_json_the_answer_says_it_too(tmp_path, capsys):
    text = SOUND.replace('from = "08:00", to = "18:00"', FIVE_MIN)
    code, _, out = told(tmp_path, capsys, text, "--json")
    assert code == 1
    assert '"status": "none possible"' in out
    assert "takes 60 min in one go" in out


def test_due_before_the_plan_begins_is_planned_and_told(tmp_path, capsys):
    code, lines, out = told(tmp_path, capsys, f'{SOUND}due = "2026-11-20"\n', "--seconds", "0")
    assert code == 0
    (line,) = [line for line in lines if "[due-before-start]" in line]
    assert "(builds.cop): warning: Elbow cop of the lantern watch was due on" in line
    assert "Fit Elbow cop" in out


WAITS = """
[relations.one]
first = "cut/petal_left"
then = "cut/petal_middle"
force = "cannot"
lag_min = 50
why = "It is marked out from it."
[relations.two]
first = "cut/petal_left"
then = "cut/petal_middle"
force = "cannot"
max_lag_min = 5
why = "It is marked out from it."
"""


def test_contradictory_times_are_told_once(tmp_path, capsys, monkeypatch):
    asked = []
    monkeypatch.setattr(
        "armorplan.cli.plan_command.say_ways_out", lambda *_, **more: asked.append(more["is_told"])
    )
    folder = tmp_path / "cop"
    shutil.copytree(samples_folder() / "elbow_cop", folder)
    pattern = folder / "pattern.toml"
    pattern.write_text(pattern.read_text(encoding="utf-8") + WAITS, encoding="utf-8")
    code, _, out = told(tmp_path, capsys, SOUND, pattern=folder)
    said = (
        "“Cut middle petal” starts at least 50 min after “Cut left petal” ends, and at most 5 min"
    )
    assert (code, out.count(said), asked) == (1, 1, [True])


def test_a_start_that_the_clock_leaves_out_is_refused(tmp_path, capsys):
    code, lines, out = told(tmp_path, capsys, SOUND, "--from", "2027-03-28T01:30")
    assert (code, out) == (2, "")
    (line,) = lines
    assert "--from: there is no 01:30 on 28 March 2027 in Europe/Lisbon" in line
    assert "Write 02:30" in line
