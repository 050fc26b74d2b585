"""Which exercise ``armorplan drill`` is asked for: by its number, as it was shown, and what cannot be read."""

import re
import shlex
from shutil import copytree

import pytest
from cli.drill_said import answered, said

from armorplan.cli.program import run
from armorplan.kernel.shipped import samples_folder


def test_what_is_printed_to_type_answers_this_very_exercise(capsys):
    told = said(
        capsys, "elbow_cop", "--kind", "order", "--seed", "3", "--focus", "bevel-before-dye"
    )
    line = told.splitlines()[-1]
    assert "bevel" not in line
    typed = shlex.split(line)
    assert typed[:2] == ["armorplan", "drill"]
    assert run(typed[1:]) in (0, 1)
    judged = capsys.readouterr().out
    letters = re.findall(r"^  ([A-Z])  ", told, flags=re.MULTILINE)
    assert sorted(re.findall(r"^  ([A-Z])  ", judged, flags=re.MULTILINE)) in ([], sorted(letters))


def test_one_number_makes_what_was_made_for_a_rule_and_tells_nobody_which(capsys):
    words = ("elbow_cop", "--kind", "order", "--level", "1")
    made = answered(capsys, *words, "--seed", "3", "--focus", "bevel-before-dye")
    number = str(made["exercise"]["asked"]["seed"])
    assert made["exercise"]["asked"]["focus"] == ""
    assert f"--seed {number} " in made["answer_with"]
    again = answered(capsys, *words, "--seed", number)
    assert again == made
    assert answered(capsys, *words, "--seed", "3")["exercise"] != made["exercise"]


def test_an_answer_to_what_was_shown_before_a_change_is_not_judged(tmp_path, capsys):
    """A coat less, and the exercise of the same number is another one."""
    folder = tmp_path / "cop"
    copytree(samples_folder() / "elbow_cop", folder)
    words = (str(folder), "--kind", "next", "--seed", "4", "--level", "4")
    typed = shlex.split(said(capsys, *words).splitlines()[-1])
    assert typed[typed.index("--shown") + 1].isalnum()
    assert run(typed[1:]) in (0, 1)
    capsys.readouterr()
    pattern = folder / "pattern.toml"
    text = pattern.read_text(encoding="utf-8")
    assert "coats = 2" in text
    pattern.write_text(text.replace("coats = 2", "coats = 1"), encoding="utf-8")
    assert run(typed[1:]) == 2
    found = capsys.readouterr()
    assert "This is another exercise than was shown" in found.err
    assert found.out == ""


def test_a_build_without_an_order_says_so_whatever_is_asked_of_it(tmp_path, capsys):
    folder = tmp_path / "cop"
    copytree(samples_folder() / "elbow_cop", folder)
    with (folder / "pattern.toml").open("a", encoding="utf-8") as pattern:
        pattern.write(
            '\n[relations.backwards]\nfirst = "pack/elbow_cop"\nthen = "lay-out/elbow_cop"\n'
            'force = "would spoil"\nwhy = "Packed first."\n'
        )
    where = ("--who", "Maud", "--workshop", str(tmp_path / "w.sqlite"))
    for words, code in ((("--seed", "3"), 2), ((*where, "--progress"), 0)):
        assert run(["drill", str(folder), *words]) == code
        assert "has no order: its relations contradict" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--kind", "order", "--answer", "A", "B"), " missing."),
        (("--kind", "order", "--answer", "A", "A", "B", "C", "D"), "'A' is named twice"),
        (("--kind", "order", "--answer", "A", "B", "C", "D", "Q"), "letters from A to "),
        (("--kind", "way-back", "--answer", "A", "B"), "Only one is asked for, and 2 are named"),
        (("--kind", "way-back", "--answer", ","), "--answer names nothing"),
        (("--kind", "way-back", "--answer", "1"), "'1' is none of the choices"),
        (("--kind", "day", "--answer", "A"), "'A' says no time. Write a time of day"),
        (("--kind", "day", "--answer", "A=25:00"), "says no time"),
        (("--kind", "day", "--answer", "A=9:00"), "are missing"),
        (("--kind", "way-back", "--why", "A"), "--why is asked behind an answer"),
        (
            ("--piece", "gauntlet"),
            "No piece of this build is called 'gauntlet'. There are: elbow_cop",
        ),
        (("--part", "visor"), "No part or row of this build is called 'visor'. There are: "),
        (("--focus", "no-such-rule"), "There is no rule 'no-such-rule'. 'armorplan rules' lists"),
        (("--focus", "0"), "There is no rule '0'"),
        (("--progress",), "Say whose progress: --who NAME."),
        (("--workshop", "w.sqlite"), "Say for whom results are kept"),
        (("--who", "Maud", "--answer", "A"), "Say which exercise this answers: --kind and --seed"),
        (("--who", "Maud", "--progress", "--solution"), "--progress stands alone"),
        (("--with", "colour"), "is no choice. Write --with option=choice"),
    ],
)
def test_what_cannot_be_read_says_what_would_be_fine(words, told, capsys):
    seed = () if "--who" in words else ("--seed", "3")
    assert run(["drill", "elbow_cop", *words, *seed]) == 2
    found = capsys.readouterr()
    assert told in found.err
    assert len(found.err.splitlines()) == 1
    assert found.out == ""


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--kind", "quiz"), "'quiz' is no kind of exercise. Kinds: order, next,"),
        (("--seed", "x"), "'x' is no whole number from 0 to 9999999"),
        (("--seed", "-1"), "is no whole number"),
        (("--seed", "10000000"), "is no whole number"),
        (("--level", "5"), "'5' is no level. Levels: 1 (one strap), 2 (a row),"),
        (("--level", "hard"), "'hard' is no level"),
        (("--seconds", "soon"), "'soon' is no number of seconds"),
        (("--answer",), "expected at least one argument"),
    ],
)
def test_options_that_are_none_are_told_in_one_line(words, told, capsys):
    with pytest.raises(SystemExit) as stopped:
        run(["drill", "elbow_cop", *words])
    assert stopped.value.code == 2
    found = capsys.readouterr().err
    assert told in found
    assert "armorplan drill --help" in found
    assert len(found.splitlines()) == 1
