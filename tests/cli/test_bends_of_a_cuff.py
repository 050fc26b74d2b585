"""Planted faults, from the folder to the answer: a tight cuff riveted flat, and a wide plate."""

import json

import pytest
from schemas_cli import schema

from armorplan.cli.program import run

TOML = """\
format = 1

[pattern]
uuid = "3c1f6d52-7d0b-4f0e-8a35-2f6f5c1e7a31"
name = "Wrist of the lantern watch"
version = 1
drawings = ["wrist.svg"]

[pieces.wrist]
name = "Wrist"

[materials.shell]
leather = "cop_and_lame"
thickness_mm = 4.0

[parts.band]
name = "wrist band"
piece = "wrist"
kind = "plate"
material = "shell"

[parts.guard]
name = "guard"
piece = "wrist"
kind = "plate"
material = "shell"

[joints.row_1]
kind = "rivet"
stack = ["guard_1", "band_1"]
fastener = "double_cap_9"

[joints.row_2]
kind = "rivet"
stack = ["guard_2", "band_2"]
fastener = "double_cap_9"

[joints.row_3]
kind = "rivet"
stack = ["guard_3", "band_3"]
fastener = "double_cap_9"

[seams.row]
name = "row across"
joints = ["row_1", "row_2", "row_3"]

[forms.round]
kind = "bend"
parts = ["band", "guard"]
route = "dry"
axis = [[60, 0], [60, 50]]
radius_mm = RADIUS
"""


@pytest.fixture
def wrist(tmp_path):
    """Return a maker of the folder: a guard on a band, three rivets 30 mm apart across the bend."""

    def make(radius_mm, wider_mm=0.0, **swaps):
        rings = []
        for part, at_y, far in (("band", 0, 30.0), ("guard", 60, 30.0 + wider_mm)):
            rings.append(
                f'<path id="{part}" d="M 10 {at_y + 5} H 110 V {at_y + 45} H 10 Z" fill="none"/>'
            )
            for number, off in enumerate((-far, 0.0, far), start=1):
                rings.append(
                    f'<circle id="{part}_{number}" cx="{60 + off}" cy="{at_y + 25}" r="1.75"/>'
                )
        (tmp_path / "wrist.svg").write_text(
            '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="120mm" '
            f'viewBox="0 0 200 120">{"".join(rings)}</svg>',
            encoding="utf-8",
        )
        text = TOML.replace("RADIUS", str(radius_mm))
        for old, new in swaps.items():
            text = text.replace(old, new)
        (tmp_path / "pattern.toml").write_text(text, encoding="utf-8")
        return str(tmp_path)

    return make


def found(folder, capsys):
    run(["check", folder, "--json"])
    answer = json.loads(capsys.readouterr().out)
    schema("check").validate(answer)
    return [f["code"] for f in answer["findings"] if f["code"].startswith(("bend-", "row"))]


def order(folder, capsys):
    assert run(["order", folder, "--json"]) == 0
    steps = [step["id"] for step in json.loads(capsys.readouterr().out)["steps"]]
    return {step.split("/", 3)[-1]: at for at, step in enumerate(steps)}


def test_a_tight_cuff_is_bent_first_and_its_guard_punched_then(wrist, capsys):
    folder = wrist(30)
    assert found(folder, capsys) == ["bend-before-rivets"]
    place = order(folder, capsys)
    assert place["punch/band"] < place["curve-by-hand/round"] < place["punch/guard"]
    assert place["curve-by-hand/round"] < place["rivet/row_1"]


def test_a_tight_cuff_drawn_for_the_bend_is_sound(wrist, capsys):
    folder = wrist(30, wider_mm=4.0)
    assert found(folder, capsys) == []
    place = order(folder, capsys)
    assert place["punch/guard"] < place["curve-by-hand/round"] < place["rivet/row_1"]


def test_a_wide_plate_is_riveted_flat(wrist, capsys):
    folder = wrist(95)
    assert found(folder, capsys) == []
    place = order(folder, capsys)
    assert place["rivet/row_3"] < place["curve-by-hand/round"]


def test_between_the_two_nothing_steers(wrist, capsys):
    assert found(wrist(45), capsys) == ["bend-damp-or-oval"]


def test_a_maker_s_own_limit_is_kept_to(wrist, tmp_path, capsys):
    own = tmp_path / "mine"
    own.mkdir()
    (own / "constants.toml").write_text("[damp_slide]\nvalue = 8\n", encoding="utf-8")
    run(["check", wrist(45), "--catalogues", str(own)])
    said = capsys.readouterr().out
    assert "bend-before-rivets" in said
    assert "8 % is the most" in said


def test_an_axis_beside_the_parts_and_a_bend_longer_than_they_are(wrist, capsys):
    aside = {"[[60, 0], [60, 50]]": "[[150, 0], [150, 50]]"}
    assert "bend-outside-part" in found(wrist(95, **aside), capsys)
    long = {"radius_mm = 95": "radius_mm = 95\nangle_deg = 120"}
    assert "bend-longer-than-part" in found(wrist(95, **long), capsys)
