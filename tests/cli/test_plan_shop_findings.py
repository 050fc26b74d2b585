"""What ``armorplan plan SHOP`` tells of a shop beside its plan, each with its line."""

from armorplan.cli.program import run

SHOP = """\
zone = "Europe/Lisbon"
[people.maker]
name = "Maker"
hours = [{ day = "mon", from = "08:00", to = "18:00" }]
[racks.line]
name = "Line"
line_mm = 500
[builds.cop]
pattern = "elbow_cop"
due = "2026-12-06 17:30"
"""


def test_what_surprises_in_a_shop_is_told_by_line_beside_its_plan(tmp_path, capsys):
    file = tmp_path / "shop.toml"
    file.write_text(SHOP, encoding="utf-8")
    assert run(["plan", str(file), "--from", "2026-12-07T08:00", "--seconds", "0"]) == 0
    told = capsys.readouterr()
    assert "shop.toml:5 (racks): warning:" in told.err
    assert "shop.toml:8 (builds.cop): warning:" in told.err
    assert "[due-before-start]" in told.err
    assert "Fit Elbow cop" in told.out
