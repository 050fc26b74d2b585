"""The test strip on the command line: read, said, and kept with the comments left as they are."""

import pytest

from armorplan.cli.program import run
from armorplan.files.catalogue import read_shelf

GOOD = ["--flat", "120", "--legs", "42.6,43.2", "--radius", "20", "--angle", "90", "--thickness", "3.6"]  # fmt: skip
# BA = 120 - 42.6 - 43.2 = 34.2 mm; K = (34.2 / (π/2) - 20) / 3.6 = 0.492
OFF = [*GOOD[:3], "40,41", *GOOD[4:]]


@pytest.fixture(autouse=True)
def usual_place(tmp_path, monkeypatch):
    data = tmp_path / "data"
    monkeypatch.setattr("armorplan.store.places.user_data_path", lambda *_, **__: data)
    return data / "catalogues"


@pytest.fixture
def own(tmp_path):
    folder = tmp_path / "mine"
    folder.mkdir()
    return folder


def strip(*more, numbers=GOOD):
    return run(["strip", *numbers, *more])


def test_it_says_the_reckoning_and_what_to_write(capsys, usual_place):
    assert strip("--leather", "strap") == 0
    said = capsys.readouterr().out
    assert "BA = 120 - 42.6 - 43.2 = 34.20 mm" in said
    assert "= 0.492" in said
    assert str(usual_place / "leathers.toml") in said
    assert said.endswith("[strap]\nneutral = 0.492\n")
    assert not usual_place.exists()


def test_a_square_measures_to_the_outer_corner(capsys):
    # Each leg is longer by R + t = 23.6 mm at a right angle.
    assert strip("--outside", numbers=[*GOOD[:3], "66.2,66.8", *GOOD[4:]]) == 0
    assert "neutral = 0.492" in capsys.readouterr().out


def test_k_outside_the_leather_is_a_bad_measurement(capsys, own):
    assert strip("--leather", "strap", "--keep", "--catalogues", str(own), numbers=OFF) == 1
    said = capsys.readouterr().out
    assert "K comes out at 1.34" in said
    assert "between 0 and 1" in said
    assert list(own.iterdir()) == []


def test_kept_in_the_usual_place_it_is_reckoned_with(usual_place, capsys):
    assert strip("--leather", "strap", "--keep") == 0
    assert "Kept for Vegetable-tanned strap leather" in capsys.readouterr().out
    assert read_shelf(own=usual_place).leather("strap").neutral == 0.492


def test_comments_and_other_values_stay(own, capsys):
    text = "# My own hides.\n[strap] # from the tanner by the quay\nyield_pct = 70 # usual\n\n[trim]\nyield_pct = 60\n"
    (own / "leathers.toml").write_text(text, encoding="utf-8")
    assert strip("--leather", "strap", "--keep", "--catalogues", str(own)) == 0
    added = text.replace("# usual\n", "# usual\nneutral = 0.492\n")
    assert (own / "leathers.toml").read_text(encoding="utf-8") == added


def test_kept_again_the_former_number_is_said(own, capsys):
    (own / "leathers.toml").write_text("[strap]\nneutral = 0.4 # spring\n", encoding="utf-8")
    assert strip("--leather", "strap", "--keep", "--catalogues", str(own)) == 0
    assert "neutral = 0.492; it was 0.4." in capsys.readouterr().out
    assert (own / "leathers.toml").read_text(
        encoding="utf-8"
    ) == "[strap]\nneutral = 0.492 # spring\n"


@pytest.mark.parametrize(
    ("text", "says"),
    [("[strap", "leathers.toml:1"), ("[strap]\nyield = 3\n", "Nothing reads strap.yield")],
)
def test_a_broken_file_is_left_as_it_is(own, capsys, text, says):
    (own / "leathers.toml").write_text(text, encoding="utf-8")
    assert strip("--leather", "strap", "--keep", "--catalogues", str(own)) == 2
    assert says in capsys.readouterr().err
    assert (own / "leathers.toml").read_text(encoding="utf-8") == text


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (["--leather", "strab", "--keep"], "Perhaps 'strap' is meant"),
        (["--keep"], "--leather ID"),
    ],
)
def test_it_says_which_leather_is_missing(capsys, more, says):
    assert strip(*more) == 2
    assert says in capsys.readouterr().err


def test_a_folder_that_cannot_be_made_is_told(tmp_path, capsys):
    (tmp_path / "file").write_text("", encoding="utf-8")
    assert strip("--leather", "strap", "--keep", "--catalogues", str(tmp_path / "file/mine")) == 2
    assert "cannot be made" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"--angle": "0"}, "its angle is 0°"),
        ({"--angle": "400"}, "below 360°"),
        ({"--thickness": "0"}, "its thickness is 0 mm"),
        ({"--flat": "-5"}, "its flat length is -5 mm"),
        ({"--radius": "-1"}, "its radius is -1 mm"),
        ({"--legs": "80,80"}, "leave nothing of 120 mm"),
    ],
)
def test_numbers_that_cannot_be_are_told(capsys, change, says):
    numbers = [
        f"{key}={change.get(key, value)}" for key, value in zip(GOOD[::2], GOOD[1::2], strict=True)
    ]
    assert strip(numbers=numbers) == 1
    assert says in capsys.readouterr().out


@pytest.mark.parametrize("legs", ["40", "40,41,42", "forty,40", "nan,40", "1e9,40"])
def test_legs_that_are_not_two_lengths(capsys, legs):
    with pytest.raises(SystemExit) as stopped:
        strip(numbers=[*GOOD[:3], legs, *GOOD[4:]])
    assert stopped.value.code == 2
    assert "such as" in capsys.readouterr().err
