import shutil

import pytest

from armorplan.files.catalogue import OWN_FILES, read_shelf
from armorplan.files.catalogue_rows import MACHINE_CUT
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.shipped import resources_folder
from armorplan.steps.model import StepKind
from armorplan.workshop.shelf import Carrier, TreatmentKind


@pytest.fixture
def folder(tmp_path):
    return shutil.copytree(resources_folder() / "catalogues", tmp_path / "catalogues")


def _findings(folder):
    with pytest.raises(UnreadableError) as caught:
        read_shelf(folder)
    return caught.value.findings


def _swap(folder, name, old, new):
    path = folder / name
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_the_shipped_shelf():
    shelf = read_shelf()
    rivet = shelf.fastener("double_cap_9")
    assert (rivet.kind, rivet.head_mm, rivet.lengths_mm) == ("rivet", 9, (6, 8, 10, 12, 14, 16))
    casing = shelf.treatment("casing_water")
    assert (casing.kind, casing.carrier) == (TreatmentKind.CASING, Carrier.WATER)
    assert casing.window_min == (10, 60)
    assert shelf.treatment("alcohol_dye").window_min is None
    assert shelf.leather("strap").usual_mm[0] < shelf.leather("strap").usual_mm[1]


def test_every_entry_has_a_source_and_every_duration_names_a_step_kind():
    shelf = read_shelf()
    entries = (*shelf.leathers, *shelf.fasteners, *shelf.treatments, *shelf.durations)
    assert all(entry.source for entry in entries)
    kinds = {kind.value for kind in StepKind}
    assert {d.kind for d in shelf.durations} - kinds == {MACHINE_CUT}


def test_a_folder_of_ones_own(folder):
    _swap(folder, "leathers.toml", "[strap]", "[harbour_strap]")
    assert read_shelf(folder).leather("harbour_strap") is not None


@pytest.mark.parametrize(
    ("name", "old", "new", "code", "key"),
    [
        ("leathers.toml", "usual_mm = [3.9, 5.6]", "usual_mm = [5.6, 3.9]", "wrong-value", "usual_mm"),
        ("leathers.toml", "usual_mm = [3.9, 5.6]", "usual_mm = [3.9]", "wrong-value", "usual_mm"),
        ("leathers.toml", "usual_mm = [3.9, 5.6]", "usual_mm = 3.9", "wrong-value", "usual_mm"),
        ("leathers.toml", "usual_mm = [3.9, 5.6]", "", "missing-key", "shell_plate"),
        ("leathers.toml", 'source = "', 'sauce = "', "missing-key", "shell_plate"),
        ("fasteners.toml", "head_mm = 7.0", "head_mm = -7", "wrong-value", "head_mm"),
        ("fasteners.toml", "head_mm = 7.0", "heed_mm = 7.0", "missing-key", "double_cap_7"),
        ("fasteners.toml", "[5.0, 6.0, 8.0, 10.0]", "[8.0, 6.0]", "wrong-value", "lengths_mm"),
        ("fasteners.toml", "[5.0, 6.0, 8.0, 10.0]", '["6"]', "wrong-value", "lengths_mm"),
        ("treatments.toml", 'carrier = "water"', 'carrier = "sea"', "wrong-value", "carrier"),
        ("treatments.toml", "touch_min = 360", "touch_min = 6.5", "wrong-value", "touch_min"),
        ("treatments.toml", "window_min = [10, 60]", "window_min = [1.5, 60]", "wrong-value",
         "window_min"),
        ("durations.toml", "fixed_min = 5.0", "fixed_min = -1", "wrong-value", "fixed_min"),
        ("constants.toml", "value = 7.5", "value = -7.5", "wrong-value", "value"),
        ("tools.toml", 'feet = ["burr"]', 'feet = ["toes"]', "wrong-value", "feet"),
        ("constants.toml", "[pinch]", "[punch]", "unknown-key", "punch"),
        ("durations.toml", "[measure_print]", "[measure_print]\nsecs = 3", "unknown-key", "secs"),
    ],
)  # fmt: skip
def test_faults_have_file_line_and_key(folder, name, old, new, code, key):
    line = (folder / name).read_text(encoding="utf-8").split(old)[0].count("\n") + 1
    _swap(folder, name, old, new)
    finding = next(f for f in _findings(folder) if f.code == code)
    assert finding.place.file == name
    assert finding.place.key.rsplit(".", 1)[-1] == key
    assert abs(finding.place.line - line) <= 6


def test_a_word_that_no_tool_knows_is_told_with_those_there_are(folder):
    _swap(folder, "tools.toml", 'feet = ["burr"]', 'feet = ["toes"]')
    _swap(folder, "tools.toml", 'serves = ["mock-up"]', 'serves = ["bolting"]')
    told = {f.place.key.rsplit(".", 1)[-1]: f.remedy for f in _findings(folder)}
    assert told["feet"] == 'Write one of "cap", "burr", "screw", "bent".'
    assert all(
        f'"{kind}"' in told["serves"] for kind in ("glue", "lace", "rivet", "screw", "stitch")
    )


def test_faults_of_all_files_come_at_once(folder):
    (folder / "durations.toml").unlink()
    (folder / "leathers.toml").write_text("[a", encoding="utf-8")
    _swap(folder, "fasteners.toml", "head_mm = 7.0", "")
    assert {(f.place.file, f.code) for f in _findings(folder)} == {
        ("durations.toml", "no-such-file"),
        ("leathers.toml", "toml-syntax"),
        ("fasteners.toml", "missing-key"),
    }


def test_a_folder_that_is_not_there(tmp_path):
    assert len(_findings(tmp_path / "nowhere")) == len(OWN_FILES) - 1
