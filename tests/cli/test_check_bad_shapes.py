"""Shapes that make no sense, through ``armorplan check``: a finding each, the rest still reckoned."""

import json

import pytest
from files.small_cuff import CUFF_SVG, CUFF_TOML, swapped
from schemas_cli import schema

from armorplan.cli.program import run

TOML, SVG = "pattern.toml", "cuff.svg"
CONCAVE = '<path id="plate" d="M 10 10 H 110 V 70 H 10 V 55 H 70 V 40 H 10 Z"/>'
PLATE = '<rect id="plate" x="10" y="10" width="100" height="60"/>'
AXIS = "radius_mm = 45\naxis = [[0, 300], [100, 300]]"
MOVED = "\n[movements.bends]\nname = 'it bends'\nparts = ['plate', 'loop']\nangle_deg = 90\n"
READ = {
    "holes on one spot": (SVG, 'id="plate_2" cx="20" cy="60"', 'id="plate_2" cx="20" cy="20"'),
    "a bend beside its part": (TOML, "radius_mm = 45", AXIS),
    "a radius of nearly nothing": (TOML, "radius_mm = 45", "radius_mm = 0.001"),
    "a part that nothing holds": (TOML, '["slit", "loop"]', '["slit"]'),
    "leather of thirty millimetres": (TOML, "thickness_mm = 3.2", "thickness_mm = 29.9"),
    "leather as thin as paper": (TOML, "thickness_mm = 3.2", "thickness_mm = 0.01"),
    "a movement without pivots": (TOML, "[treatments.seal]", f"{MOVED}\n[treatments.seal]"),
    "a row that misses": (TOML, "placed_on_wearer = true", "placed_on_wearer = false"),
}
CODES = {
    "holes on one spot": "holes-coincide",
    "a bend beside its part": "bend-outside-part",
    "a radius of nearly nothing": "bend-too-tight",
    "a part that nothing holds": "parts-unconnected",
    "leather of thirty millimetres": "no-post-length",
    "leather as thin as paper": "unusual-thickness",
    "a movement without pivots": "movement-without-pivot",
    "a row that misses": "row-misfit",
}
REFUSED = {
    "one hole twice in a stack": (TOML, '["strap_1", "plate_1"]', '["strap_1", "strap_1"]'),
    "no thickness": (TOML, "thickness_mm = 3.2", "thickness_mm = 0"),
    "an axis without length": (TOML, "radius_mm = 45", "radius_mm = 45\naxis = [[2, 3], [2, 3]]"),
    "an outline that crosses itself": (
        SVG,
        PLATE,
        '<path id="plate" d="M 10 10 L 110 70 V 10 L 10 70 Z"/>',
    ),
}


def _folder(into, change):
    name, old, new = change
    texts = {TOML: CUFF_TOML, SVG: CUFF_SVG}
    texts[name] = swapped(texts[name], old, new)
    for file, text in texts.items():
        (into / file).write_text(text, encoding="utf-8")
    return str(into)


def _checked(folder, capsys):
    code = run(["check", folder, "--json"])
    said = capsys.readouterr()
    assert "Traceback" not in said.out + said.err
    found = json.loads(said.out)
    schema("check").validate(found)
    return code, {f["code"]: f for f in found["findings"]}, found["shapes"]


@pytest.mark.parametrize("name", sorted(READ))
def test_what_can_be_read_is_told_and_the_rest_reckoned(name, tmp_path, capsys):
    code, found, shapes = _checked(_folder(tmp_path, READ[name]), capsys)
    assert CODES[name] in found
    assert found[CODES[name]]["remedy"]
    assert code == (1 if any(f["severity"] == "error" for f in found.values()) else 0)
    assert {"rows that meet", "bends", "fasteners and posts"} <= {s["topic"] for s in shapes}


@pytest.mark.parametrize("name", sorted(REFUSED))
def test_what_cannot_be_read_is_told_at_its_line(name, tmp_path, capsys):
    code, found, shapes = _checked(_folder(tmp_path, REFUSED[name]), capsys)
    assert code == 1
    assert shapes == []
    assert any(f["place"] and f["place"]["line"] for f in found.values())


def test_a_hollow_outline_is_measured_like_any_other(tmp_path, capsys):
    svg = swapped(CUFF_SVG, PLATE, CONCAVE)
    svg = swapped(svg, '<rect id="slit" x="90"', '<rect id="slit" x="92"')
    (tmp_path / SVG).write_text(svg, encoding="utf-8")
    (tmp_path / TOML).write_text(CUFF_TOML, encoding="utf-8")
    _, found, shapes = _checked(str(tmp_path), capsys)
    assert "hole-outside-part" not in found
    assert len(shapes) >= 5


def test_a_row_of_one_hole_is_no_row(tmp_path, capsys):
    change = (TOML, 'joints = ["end_top", "end_bottom"]', 'joints = ["end_top"]')
    _, found, shapes = _checked(_folder(tmp_path, change), capsys)
    assert "row-misfit" not in found
    assert "rows that meet" not in {s["topic"] for s in shapes}
