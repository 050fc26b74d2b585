"""``armorplan cutlist``: text, JSON, tables and drawings, and mistakes in its options."""

import csv
import json
from datetime import UTC, datetime

import pytest
from clocks import FakeClock
from schemas_cli import schema

from armorplan.cli.program import run
from armorplan.store.workshop_file import WorkshopFile
from armorplan.workshop.cut_settings import CutResult, CutSetting

BED = ("--bed", "600x400")


def answered(capsys, *options: str, code: int = 0) -> dict:
    assert run(["cutlist", "elbow_cop", "--json", *options]) == code
    return json.loads(capsys.readouterr().out)


@pytest.mark.parametrize("options", [(), (*BED, "--machine", "--kerf", "0.2")])
def test_the_answer_fits_the_shipped_schema(options, capsys):
    schema("cutlist").validate(answered(capsys, *options))


def test_what_is_cut_is_what_the_build_is_made_of(capsys):
    found = answered(capsys)
    assert run(["needs", "elbow_cop", "--json"]) == 0
    needed = json.loads(capsys.readouterr().out)["leather"]
    assert [(one["leather"], one["net_dm2"]) for one in found["leathers"]] == [
        (one["leather"], one["net_dm2"]) for one in needed
    ]


def test_the_text_tells_beds_kerf_and_cautions(capsys):
    assert run(["cutlist", "elbow_cop", *BED, "--kerf", "0.2"]) == 0
    text = capsys.readouterr().out
    for words in ("Beds of 600 × 400 mm", "What a kerf of 0.2 mm does", "Cautions", "no nesting"):
        assert words in text
    assert max(map(len, text.splitlines())) <= 150


def test_by_hand_nothing_is_said_of_lasers(capsys):
    assert run(["cutlist", "elbow_cop"]) == 0
    assert "PVC" not in capsys.readouterr().out


def test_drawings_and_a_table_are_written(tmp_path, capsys):
    svg, dxf, table = (tmp_path / f"cop.{ending}" for ending in ("svg", "dxf", "csv"))
    files = ("--svg", str(svg), "--dxf", str(dxf), "--csv", str(table))
    assert run(["cutlist", "elbow_cop", *BED, *files]) == 0
    text = capsys.readouterr().out
    written = sorted(file.name for file in tmp_path.iterdir())
    # Four leathers, a bed each.
    assert sum(name.endswith(".svg") for name in written) == 4
    assert sum(name.endswith(".dxf") for name in written) == 4
    assert all(name in text for name in written)
    with table.open(encoding="utf-8-sig", newline="") as held:
        rows = list(csv.DictReader(held))
    assert {"left petal", "closing strap", "boss"} <= {row["part"] for row in rows}
    assert all(float(row["cut mm in all"]) > 0 for row in rows)


def test_what_is_larger_than_the_bed_is_told_and_not_drawn(tmp_path, capsys):
    file = tmp_path / "small.svg"
    assert (
        run(["cutlist", "elbow_cop", "--bed", "90x90", "--margin", "2", "--svg", str(file)]) == 0
    )
    told = capsys.readouterr().err
    assert "larger-than-the-bed" in told
    assert "left petal, 164 × 104 mm" in told
    drawn = "".join(path.read_text(encoding="utf-8") for path in tmp_path.iterdir())
    assert ">boss<" in drawn
    assert ">left petal<" not in drawn


def test_what_cut_a_leather_last_is_told_from_the_workshop(tmp_path, capsys):
    path = tmp_path / "workshop.sqlite"
    workshop = WorkshopFile.open(path, FakeClock())
    workshop.cut_log.keep(
        CutSetting(
            at=datetime(2027, 3, 1, 9, tzinfo=UTC),
            machine="loft laser",
            leather="strap",
            thickness_mm=2.8,
            words="power 60, speed 12",
            passes=2,
            result=CutResult.THROUGH,
            kerf_mm=0.2,
        )
    )
    workshop.close()
    given = ("cutlist", "elbow_cop", "--workshop", str(path))
    assert run([*given, "--machine"]) == 0
    text = capsys.readouterr().out
    assert "What cut it last" in text
    assert "loft laser: power 60, speed 12, 2 times over, kerf 0.2 mm. Cut through." in text
    assert run(given) == 0
    assert "loft laser" not in capsys.readouterr().out


def test_what_a_laser_must_not_cut_is_a_fault(tmp_path, capsys):
    own = tmp_path / "own"
    own.mkdir()
    (own / "leathers.toml").write_text('[strap]\ntanning = "chrome"\n', encoding="utf-8")
    assert run(["cutlist", "elbow_cop", *BED, "--machine", "--catalogues", str(own)]) == 1
    told = capsys.readouterr()
    assert "not-for-the-laser" in told.err
    assert "not by laser" in told.out


def test_a_tanning_that_nobody_knows_the_word_of_is_told(tmp_path, capsys):
    (tmp_path / "leathers.toml").write_text('[strap]\ntanning = "magic"\n', encoding="utf-8")
    assert run(["cutlist", "elbow_cop", "--catalogues", str(tmp_path)]) == 2
    assert '"vegetable"' in capsys.readouterr().err


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--bed", "600"), "600x400"),
        (("--bed", "600x400x20"), "600x400"),
        (("--bed", "0x400"), "600x400"),
        (("--bed", "600x400", "--kerf", "nan"), "0 to 3"),
        (("--kerf", "-1"), "0 to 3"),
        (("--kerf", "wide"), "0 to 3"),
        (("--margin", "500", "--bed", "600x400"), "0 to 100"),
        (("--machine", "--knife-table"), "not allowed with"),
    ],
)
def test_options_that_say_nothing_usable_are_told(options, said, capsys):
    with pytest.raises(SystemExit):
        run(["cutlist", "elbow_cop", *options])
    assert said in capsys.readouterr().err


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--svg", "cop.svg"), "--bed 600x400"),
        (("--margin", "3"), "--bed 600x400"),
        ((*BED, "--svg", "cop.dxf"), "end in .svg"),
        ((*BED, "--dxf", "no/such/folder/cop.dxf"), "Choose another file"),
        (("--csv", "no/such/folder/cop.csv"), "Choose another file"),
    ],
)
def test_files_that_cannot_be_written_are_told(options, said, capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert run(["cutlist", "elbow_cop", *options]) == 2
    assert said in capsys.readouterr().err


def test_where_one_of_several_files_cannot_be_written_none_is(tmp_path, capsys):
    files = ("--csv", str(tmp_path / "a.csv"), "--svg", str(tmp_path / "a.svg"))
    bad = str(tmp_path / "no" / "a.dxf")
    assert run(["cutlist", "elbow_cop", *BED, *files, "--dxf", bad]) == 2
    assert bad.removesuffix(".dxf") in capsys.readouterr().err
    assert not list(tmp_path.iterdir())
