"""A shelf kept with a build before there were prices, uptakes, hardware or tools still loads."""

import json

from armorplan.app.snapshots import shelf_from, shelf_text
from armorplan.files.catalogue import read_shelf
from armorplan.workshop.constants import Constants

OLDER = {
    "leathers": [{"id": "strap", "name": "Strap", "usual_mm": [2.7, 4.0], "source": "s"}],
    "fasteners": [
        {
            "id": "tubular_9",
            "name": "Tubular rivet",
            "kind": "rivet",
            "head_mm": 9.0,
            "hole_mm": 4.0,
            "lengths_mm": [6.4, 7.9],
            "over_stack_mm": [1.6, 3.2],
            "source": "s",
        }
    ],
    "treatments": [
        {
            "id": "light_oil",
            "name": "Light oil",
            "kind": "oil",
            "carrier": "oil",
            "touch_min": 720,
            "handle_min": 720,
            "window_min": None,
            "per_part_min": 1.5,
            "set_up_min": 4.0,
            "cautions": ["Wear gloves."],
            "source": "s",
        }
    ],
    "durations": [
        {
            "kind": "rivet",
            "fixed_min": 1.0,
            "per_part_min": 0.0,
            "per_hole_min": 1.2,
            "per_cm_min": 0.0,
            "tool": "setter",
            "cautions": [],
            "source": "s",
        }
    ],
}


def test_what_an_older_build_kept_has_usual_values_for_what_came_later():
    shelf = shelf_from(json.dumps(OLDER))
    assert shelf.fastener("tubular_9").load is True
    assert shelf.leather("strap").yield_pct == 70.0
    assert shelf.treatment("light_oil").wipe_ml_per_dm2 == 0.0
    assert (shelf.hardware, shelf.supplies, shelf.tools, shelf.currency) == ((), (), (), "")
    assert shelf.constants == Constants()
    assert shelf.leather("strap").neutral is None


def test_the_shelf_of_today_is_kept_whole(tmp_path):
    (tmp_path / "leathers.toml").write_text("[strap]\nprice_per_ft2 = 9\n", encoding="utf-8")
    (tmp_path / "currency.toml").write_text('currency = "crown"\n', encoding="utf-8")
    (tmp_path / "constants.toml").write_text("[flat_slide]\nvalue = 4\n", encoding="utf-8")
    shelf = read_shelf(own=tmp_path)
    assert shelf_from(shelf_text(shelf)) == shelf
    assert shelf_from(shelf_text(shelf)).constants.flat_slide.value == 4.0


def test_a_build_of_a_time_with_fewer_numbers_has_the_usual_ones_for_the_rest():
    kept = json.loads(shelf_text(read_shelf()))
    kept["constants"] = {"neutral": {"value": 0.4, "unit": "share", "name": "n", "source": "own"}}
    constants = shelf_from(json.dumps(kept)).constants
    assert (constants.neutral.value, constants.flat_slide) == (0.4, Constants().flat_slide)


def test_ids_that_patterns_of_older_days_name_are_still_there():
    shelf = read_shelf()
    for leather in ("shell_plate", "cop_and_lame", "strap", "articulation", "keeper", "trim"):
        assert shelf.leather(leather)
    for fastener in (
        "double_cap_7",
        "double_cap_9",
        "tubular_9",
        "copper_burr_2_8",
        "copper_burr_3_8",
        "screw_post_fixed",
        "screw_post_turning",
    ):
        assert shelf.fastener(fastener)
    for treatment in (
        "casing_water",
        "alcohol_dye",
        "water_dye",
        "light_oil",
        "acrylic_finish",
        "wax_finish",
    ):
        assert shelf.treatment(treatment)
