"""A maker's own catalogues: over the shipped ones by id and field, and their faults."""

from dataclasses import fields

import pytest

from armorplan.files.catalogue import OWN_ENTRY, OWN_FILES, read_shelf
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.shipped import resources_folder
from armorplan.workshop.shelf import Shelf

SHIPPED = read_shelf()
LACE = """\
[gut_lace]
name = "Gut lace"
kind = "lace"
per_seam = 3.5
extra_mm = 200
"""


@pytest.fixture
def shelf_with(tmp_path):
    own = tmp_path / "catalogues"
    own.mkdir()

    def read(**texts):
        for name, text in texts.items():
            (own / f"{name}.toml").write_text(text, encoding="utf-8")
        return read_shelf(own=own)

    return read


@pytest.fixture
def findings_of(shelf_with):
    def read(**texts):
        with pytest.raises(UnreadableError) as caught:
            shelf_with(**texts)
        return caught.value.findings

    return read


def test_an_empty_folder_changes_nothing(shelf_with):
    assert shelf_with() == SHIPPED


def test_only_the_written_fields_change_and_the_source_says_which(shelf_with):
    old = SHIPPED.fastener("tubular_9")
    new = shelf_with(fasteners="[tubular_9]\nprice_each = 0.35\nhole_mm = 4.2\n").fastener(
        "tubular_9"
    )
    assert (new.price_each, new.hole_mm) == (0.35, 4.2)
    assert new.source == f"own value for price_each, hole_mm; otherwise: {old.source}"
    kept = {f.name for f in fields(old)} - {"price_each", "hole_mm", "source"}
    assert all(getattr(new, name) == getattr(old, name) for name in kept)


def test_the_maker_s_own_source_stands_alone(shelf_with):
    shelf = shelf_with(leathers='[strap]\nusual_mm = [2.5, 4]\nsource = "my own hides"\n')
    assert shelf.leather("strap").source == "my own hides"
    assert shelf.leather("strap").usual_mm == (2.5, 4.0)


def test_entries_keep_their_places_and_others_stay_as_they_are(shelf_with):
    shelf = shelf_with(treatments="[alcohol_dye]\nprice_per_litre = 30\n")
    assert [e.id for e in shelf.treatments] == [e.id for e in SHIPPED.treatments]
    changed = [n for o, n in zip(SHIPPED.treatments, shelf.treatments, strict=True) if o != n]
    assert [(e.id, e.price_per_litre) for e in changed] == [("alcohol_dye", 30.0)]


def test_a_price_for_a_square_foot_is_kept_for_a_square_decimetre(shelf_with):
    """1 ft² = 9.290304 dm²: the definition of the inch (SI/NIST)."""
    shelf = shelf_with(
        leathers="[strap]\nprice_per_ft2 = 9.290304\n[trim]\nprice_per_dm2 = 1.5\n",
        currency='currency = "crown"\n',
    )
    assert shelf.leather("strap").price_per_dm2 == pytest.approx(1.0, rel=1e-12)
    assert shelf.leather("trim").price_per_dm2 == 1.5
    assert shelf.currency == "crown"


def test_a_new_id_needs_its_fields_and_may_leave_out_the_source(shelf_with):
    lace = shelf_with(supplies=LACE).supply("gut_lace")
    assert (lace.kind, lace.per_seam, lace.extra_mm, lace.source) == ("lace", 3.5, 200, OWN_ENTRY)


def test_hardware_tools_and_durations_too(shelf_with):
    shelf = shelf_with(
        hardware="[buckle_20]\nprice_each = 1\n",
        tools='[drill]\ncautions = ["Slowly."]\n',
        durations="[rivet]\nper_hole_min = 3\n",
    )
    assert shelf.hardware_entry("buckle_20").price_each == 1.0
    assert next(t for t in shelf.tools if t.id == "drill").cautions == ("Slowly.",)
    assert shelf.duration("rivet").per_hole_min == 3.0
    assert shelf.duration("rivet").fixed_min == SHIPPED.duration("rivet").fixed_min


@pytest.mark.parametrize(
    ("name", "text", "code", "line", "says"),
    [
        ("supplies", LACE.replace("per_seam = 3.5\n", ""), "missing-key", 1, '"per_seam"'),
        ("supplies", LACE.replace('"lace"', '"rope"'), "wrong-value", 3, '"thread", "lace"'),
        ("fasteners", "[tubular_9]\nprice_eech = 1", "unknown-key", 2, '"price_each"'),
        ("fasteners", "[tubular_9]\nprice_each = -1", "wrong-value", 2, "at least 0"),
        ("fasteners", "[tubular_9]\nprice_each = nan", "wrong-value", 2, "a number"),
        ("fasteners", "[tubular_9]\nlengths_mm = [0, 5]", "wrong-value", 2, "above 0 mm"),
        ("fasteners", '[tubular_9]\nkind = "glue"', "wrong-value", 2, '"rivet", "screw"'),
        ("fasteners", '[tubular_9]\nload = "no"', "wrong-value", 2, "true or false"),
        ("leathers", "[strap]\nprice_per_ft2 = 9\nprice_per_dm2 = 1", "two-prices", 2, "Keep one"),
        ("leathers", "[strap]\nyield_pct = 0", "wrong-value", 2, "above 0"),
        ("leathers", "[strap]\nyield_pct = 101", "wrong-value", 2, "at most 100"),
        ("leathers", "strap = 3", "wrong-value", 1, "a table"),
        ("treatments", "[alcohol_dye]\ntouch_min = 900", "handled-before-dry", 2, "720 min"),
        ("durations", '[my_punch]\nkind = "punch"', "kind-twice", 2, "write [punch] here"),
        ("durations", '[rivet]\nkind = "rivit"', "wrong-value", 2, '"rivet"'),
        ("tools", '[drill]\nserves = ["drilling"]', "wrong-value", 2, "kind of step"),
        ("tools", "[drill]\nserves = []", "empty-list", 2, "at least one"),
        ("currency", 'curency = "crown"', "unknown-key", 1, '"currency"'),
        ("currency", "currency = 3", "wrong-value", 1, "a text"),
        ("currency", "[currency]\nname = 'crown'", "wrong-value", 1, "a text"),
        ("leathers", "[strap", "toml-syntax", 1, "not valid TOML"),
    ],
)
def test_faults_have_file_line_and_remedy(findings_of, name, text, code, line, says):
    found = next(f for f in findings_of(**{name: text}) if f.code == code)
    assert (found.place.file, found.place.line) == (f"catalogues/{name}.toml", line)
    assert says in f"{found.text} {found.remedy}"


def test_faults_of_all_files_come_at_once(findings_of):
    found = findings_of(
        leathers="[strap]\nusual_mm = 3\n", durations="[cut]\nsecs = 1\n", hardware="[a b]\n"
    )
    assert {f.place.file.removeprefix("catalogues/") for f in found} == {
        "leathers.toml",
        "durations.toml",
        "hardware.toml",
    }


def test_a_misspelt_file_name_is_told(findings_of):
    (found,) = findings_of(leather="[strap]\nyield_pct = 60\n")
    assert found.code == "unknown-catalogue"
    assert found.remedy == "Perhaps leathers.toml is meant."


def test_text_of_another_kind_and_a_folder_for_a_file(tmp_path):
    own = tmp_path / "mine"
    (own / "tools.toml").mkdir(parents=True)
    (own / "leathers.toml").write_bytes("[strap]".encode("utf-16"))
    with pytest.raises(UnreadableError) as caught:
        read_shelf(own=own)
    assert {f.place.file for f in caught.value.findings} == {
        "mine/tools.toml",
        "mine/leathers.toml",
    }


@pytest.mark.parametrize("is_file", [True, False])
def test_a_folder_that_is_not_one(tmp_path, is_file):
    own = tmp_path / "mine"
    if is_file:
        own.write_text("", encoding="utf-8")
    with pytest.raises(UnreadableError) as caught:
        read_shelf(own=own)
    assert [f.code for f in caught.value.findings] == ["no-such-folder"]


def test_windows_line_ends_are_read(shelf_with):
    shelf = shelf_with(leathers="[strap]\r\nyield_pct = 61\r\n")
    assert shelf.leather("strap").yield_pct == 61


def test_every_catalogue_says_how_one_s_own_goes_over_it():
    names = {name for name in OWN_FILES if name != "currency.toml"}
    folder = resources_folder() / "catalogues"
    assert {path.name for path in folder.iterdir()} == names
    for name in names:
        head = (folder / name).read_text(encoding="utf-8").split("\n\n", 1)[0]
        assert "--catalogues" in head, name
        without_prices = {
            "tools.toml",
            "pins.toml",
            "measures.toml",
            "durations.toml",
            "salvages.toml",
            "constants.toml",
        }
        assert ("currency.toml" in head) == (name not in without_prices), name


def test_the_frozen_shelf_has_no_catalogue_of_which_no_file_is_read():
    kinds = {f.name for f in fields(Shelf)} - {"currency"}
    assert kinds == {name.removesuffix(".toml") for name in OWN_FILES} - {"currency"}
