"""What a treatment says of its drying is read whole, and each thing that cannot be is told."""

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import UnreadableError

FULL = """\
[sea_finish]
name = "Finish of the harbour"
kind = "finish"
carrier = "alcohol"
touch_min = 20
handle_min = 600
window_min = [5, 30]
per_part_min = 2.0
set_up_min = 5.0
cautions = ["Open the windows.", "The label rules."]
cure_min = 2880
cure_before = ["close", "wear"]
recoat_by_min = 720
film_from_c = 8.5
film_min = 90
drip_min = 4
watch_every_min = 6
watch_for_min = 30
water_share = 0.2
reference_mm = 2.5
faces = 1
solvent = "ethanol"
solvent_g_per_ml = 0.6
lel_g_per_m3 = 63
lel_source = "3.3 % by volume, NIOSH Pocket Guide"
limit_g_per_m3 = 1.9
limit_source = "REL, NIOSH Pocket Guide"
missed_remedy = "Scuff it."
missed_is_loss = true
"""


def _read(folder, text):
    (folder / "treatments.toml").write_text(text, encoding="utf-8")
    return read_shelf(own=folder)


def test_every_field_is_read(tmp_path):
    entry = _read(tmp_path, FULL).treatment("sea_finish")
    assert (entry.cure_min, entry.cure_before, entry.recoat_by_min) == (
        2880,
        ("close", "wear"),
        720,
    )
    assert (entry.film_from_c, entry.film_min, entry.drip_min) == (8.5, 90, 4)
    assert (entry.watch_every_min, entry.watch_for_min, entry.water_share) == (6, 30, 0.2)
    assert (entry.reference_mm, entry.faces) == (2.5, 1)
    assert (entry.solvent, entry.solvent_g_per_ml, entry.lel_g_per_m3) == ("ethanol", 0.6, 63)
    assert "NIOSH" in entry.lel_source
    assert (entry.limit_g_per_m3, entry.limit_source) == (1.9, "REL, NIOSH Pocket Guide")
    assert (entry.missed_remedy, entry.missed_is_loss) == ("Scuff it.", True)


def test_what_is_not_written_is_as_it_was_before(tmp_path):
    few = "\n".join(FULL.splitlines()[:10])
    entry = _read(tmp_path, few).treatment("sea_finish")
    assert (entry.cure_min, entry.recoat_by_min, entry.film_from_c, entry.reference_mm) == (
        (None,) * 4
    )
    assert (entry.drip_min, entry.watch_for_min, entry.faces, entry.solvent) == (0, 0, 2, "")


@pytest.mark.parametrize(
    ("old", "new", "code", "says"),
    [
        ('["close", "wear"]', '["close", "wearing"]', "wrong-value", '"close", "wear", "pack"'),
        ("cure_min = 2880", "cure_min = 500", "cured-before-handled", "500 min"),
        ("handle_min = 600", "handle_min = 10", "handled-before-dry", "touch_min is 20 min"),
        ("recoat_by_min = 720", "recoat_by_min = 15", "recoat-before-dry", "touch_min is 20 min"),
        ("recoat_by_min = 720", "recoat_by_min = -1", "wrong-value", "a whole number from 0"),
        ("[5, 30]", "[30, 5]", "wrong-value", "30 stands before 5"),
        ("watch_every_min = 6", "watch_every_min = 40", "watched-too-seldom", "30 min only"),
        ("watch_every_min = 6", "watch_every_min = 0", "half-a-watch", "watch_every_min above 0"),
        ("watch_for_min = 30", "", "half-a-watch", "Add watch_for_min"),
        ("water_share = 0.2", "water_share = 20", "wrong-value", "at most 1"),
        ("water_share = 0.2", "water_share = -0.2", "wrong-value", "of at least 0"),
        ('"alcohol"', '"water"', "says-nothing", "its carrier is water"),
        ("film_from_c = 8.5", "", "says-nothing", "film_from_c"),
        ("film_from_c = 8.5", "film_from_c = 50", "wrong-value", "at most 45 °C"),
        ("reference_mm = 2.5", "reference_mm = 0", "wrong-value", "above 0"),
        ("faces = 1", "faces = 3", "wrong-value", "from 1 to 2"),
        ('solvent = "ethanol"', "", "says-nothing", "no solvent is named"),
        ('lel_source = "3.3 % by volume, NIOSH Pocket Guide"', "", "no-source", "safety data sheet"),
        ('limit_source = "REL, NIOSH Pocket Guide"', "", "no-source", "limit_g_per_m3"),
        ("limit_g_per_m3 = 1.9", "limit_g_per_m3 = -1.9", "wrong-value", "above 0"),
        ("lel_g_per_m3 = 63", "lel_g_per_m3 = 0", "wrong-value", "above 0"),
        ("missed_is_loss = true", 'missed_is_loss = "yes"', "wrong-value", "true or false"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told_with_its_line(tmp_path, old, new, code, says):
    assert old in FULL
    with pytest.raises(UnreadableError) as caught:
        _read(tmp_path, FULL.replace(old, new, 1))
    finding = next(f for f in caught.value.findings if f.code == code)
    assert says in str(finding)
    assert finding.place.file.endswith("treatments.toml")
    assert finding.place.line is not None


def test_own_minutes_over_a_shipped_treatment_are_held_against_what_it_ships_with(tmp_path):
    with pytest.raises(UnreadableError, match="recoat_by_min is 1440 min"):
        _read(tmp_path, "[acrylic_finish]\ntouch_min = 1500\nhandle_min = 1500\n")
    fine = "[acrylic_finish]\ntouch_min = 30\nfilm_from_c = 8\n"
    entry = _read(tmp_path, fine).treatment("acrylic_finish")
    assert (entry.touch_min, entry.film_from_c, entry.recoat_by_min) == (30, 8, 1440)


def test_the_shipped_treatments_say_what_their_kind_asks_for():
    shelf = read_shelf()
    for entry in shelf.treatments:
        assert bool(entry.solvent) == (entry.carrier == "alcohol"), entry.id
        assert (entry.lel_g_per_m3 is None) == (not entry.solvent), entry.id
        assert bool(entry.missed_remedy) == bool(entry.window_min or entry.recoat_by_min), entry.id
    through = {entry.id for entry in shelf.treatments if entry.reference_mm}
    assert through == {"casing_water", "casing_soak", "hot_water_hardening"}


def test_limits_of_the_vapours_follow_from_the_shares_that_niosh_lists():
    # Share of the air by volume, from the NIOSH Pocket Guide: ethyl alcohol 3.3 %, isopropyl
    # alcohol 2.0 %, n-hexane 1.1 %. A mole of gas fills 24.45 l at 25 °C and 101 325 Pa.
    shelf = read_shelf()
    listed = {
        "alcohol_dye": (0.033, 46.07),
        "deglazer": (0.02, 60.10),
        "contact_cement": (0.011, 86.18),
    }
    for treatment, (share, g_per_mol) in listed.items():
        reckoned = share * g_per_mol / 24.45e-3
        assert shelf.treatment(treatment).lel_g_per_m3 == pytest.approx(reckoned, rel=0.03)


def test_limits_of_a_workplace_follow_from_the_parts_in_a_million_that_niosh_lists():
    # NIOSH Pocket Guide: ethyl alcohol 1000 ppm, isopropyl alcohol 400 ppm, n-hexane 50 ppm.
    shelf = read_shelf()
    listed = {
        "alcohol_dye": (1000, 46.07),
        "deglazer": (400, 60.10),
        "contact_cement": (50, 86.18),
    }
    for treatment, (ppm, g_per_mol) in listed.items():
        reckoned = ppm * 1e-6 * g_per_mol / 24.45e-3
        assert shelf.treatment(treatment).limit_g_per_m3 == pytest.approx(reckoned, rel=0.03)
