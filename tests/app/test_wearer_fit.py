"""A sample fitted to invented wearers of the lantern watch: its files, what is told, folders."""

import tomllib

import pytest
import shapely

from armorplan.app.draft import Refused
from armorplan.app.wearer_again import with_learned
from armorplan.app.wearer_fit import Asked, fitted, fitted_uuid
from armorplan.app.wearer_folder import fitted_in, place_for, write_fitted
from armorplan.app.wearer_shelf import keep_wearer, kept_wearers, named_wearer
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PATTERN_FILE, from_texts, read_folder
from armorplan.kernel.errors import ArmorplanError, UnreadableError
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.measures import Sex
from armorplan.workshop.wearers import Wearer

SHELF = read_shelf()
COP = read_folder(samples_folder() / "elbow_cop")
UUID = "c1851013-9836-4502-be02-64d16dc7cfd5"
MARA = Wearer(
    id="mara",
    name="Mara of the west mole",
    sex=Sex.FEMALE,
    measures={"elbow_girth": 285.0, "upper_arm_length": 305.0},
    padding_mm=6.0,
)
JORY = Wearer(
    id="jory",
    name="Jory of the ferry steps",
    sex=Sex.MALE,
    measures={"upper_arm_length": 360.0},
    padded={"elbow_girth": 395.0},
)


def fit(wearer, files=COP, **asked):
    found = fitted(files, Asked(wearer=wearer, **asked), SHELF)
    assert not isinstance(found, Refused), found.words
    return found


@pytest.fixture(scope="module")
def small():
    return fit(MARA)


@pytest.fixture(scope="module")
def large():
    return fit(JORY)


def pattern_of(found):
    read = read_pattern(from_texts(found.slug, dict(found.texts)), SHELF)
    assert read.pattern is not None, read.findings
    return read.pattern


def test_the_new_pattern_is_sound_and_says_whom_it_was_fitted_to(small):
    pattern = pattern_of(small)
    assert pattern.fitted is not None
    assert (pattern.fitted.uuid, pattern.fitted.wearer) == (UUID, "mara")
    assert pattern.uuid == fitted_uuid(UUID, "mara") != UUID
    assert pattern.name == "Elbow cop of the lantern watch, for Mara of the west mole"
    assert {one.id: one.mm for one in pattern.drawn_for} == {
        "elbow_girth": 322.7,
        "upper_arm_length": 305.0,
    }


def test_comments_and_order_of_the_tables_stay(small):
    words = dict(small.texts)[PATTERN_FILE]
    before = COP.as_texts()[PATTERN_FILE]
    comments = [line for line in before.splitlines() if line.startswith("#")]
    assert [line for line in words.splitlines() if line.startswith("#")] == comments


def test_two_wearers_of_one_pattern_differ_as_they_do(small, large):
    petals = [
        next(p for p in pattern_of(one).parts if p.id == "petal_left") for one in (small, large)
    ]
    less, more = (shapely.Polygon(petal.outline) for petal in petals)
    assert less.area < shapely.Polygon(pattern_petal().outline).area < more.area


def pattern_petal():
    return read_pattern(COP, SHELF).pattern.part("petal_left")


@pytest.mark.parametrize("which", ["small", "large"])
def test_no_two_parts_lie_on_each_other_on_the_page(which, request):
    pattern = pattern_of(request.getfixturevalue(which))
    outlines = [shapely.Polygon(part.outline) for part in pattern.parts]
    for at, one in enumerate(outlines):
        assert not any(one.intersects(other) for other in outlines[at + 1 :])
        left, top, _, _ = one.bounds
        assert min(left, top) > 4.9


def test_what_is_drawn_is_what_was_reckoned(small):
    """Curves are carried over as curves: the outline read back is that of the reckoning."""
    pattern = pattern_of(small)
    for told in small.parts:
        ring = pattern.part(told.id).outline
        drawn, reckoned = shapely.Polygon(ring), shapely.Polygon(told.after)
        assert drawn.area == pytest.approx(reckoned.area, rel=2e-4)
        assert drawn.length == pytest.approx(reckoned.length, rel=2e-4)


def test_the_axis_of_a_bend_stays_on_its_part():
    """Written as points or drawn as a line, it goes where its part goes."""
    lames = read_folder(samples_folder() / "three_lames")
    wearer = Wearer(
        id="b",
        name="Bet",
        measures={"upper_arm_length": 340.0},
        padded={"elbow_girth": 370.0},
    )
    pattern = pattern_of(fit(wearer, lames))
    forms = {form.id: form for form in pattern.forms}
    for form, part in (("top_round", "top_lame"), ("lower_round", "lower_lame")):
        left, _, right, _ = shapely.Polygon(pattern.part(part).outline).bounds
        for x, _ in forms[form].axis:
            assert x == pytest.approx((left + right) / 2, abs=0.05)
    slot = pattern.hole("lower_slide")
    assert slot.travel_mm > read_pattern(lames, SHELF).pattern.hole("lower_slide").travel_mm + 1


def test_joints_that_went_are_named_nowhere(small):
    values = tomllib.loads(dict(small.texts)[PATTERN_FILE])
    assert "left_row_2" not in values["joints"]
    assert "left_row_2" not in dict(small.texts)[PATTERN_FILE]
    assert values["seams"]["left_row"]["joints"] == [
        "left_row_1",
        "left_row_3",
        "left_row_4",
        "left_row_6",
        "left_row_7",
    ]
    assert 'id="left_2"' not in dict(small.texts)["elbow_cop.svg"]


def test_a_row_too_wide_gets_joints_with_holes_in_the_drawing():
    wide = COP.as_texts()[PATTERN_FILE].replace("mm = 335", "mm = 200")
    found = fit(JORY, from_texts("elbow_cop", {**COP.as_texts(), PATTERN_FILE: wide}))
    row = next(row for row in found.rows if row.id == "left_row")
    assert row.holes_after > row.holes_before == 7
    assert row.after_mm[1] <= 40.05
    assert row.residual_mm <= 0.1
    pattern = pattern_of(found)
    seam = next(seam for seam in pattern.seams if seam.id == "left_row")
    assert len(seam.joints) == row.holes_after
    for joint in seam.joints:
        assert pattern.joint(joint).fastener == "tubular_9"
        assert pattern.stack_parts(joint) == ("petal_middle", "petal_left")
    assert "far-from-drawn" in {f.code for f in found.findings}


def test_holes_with_a_table_of_their_own_take_it_along():
    words = COP.as_texts()[PATTERN_FILE].replace("mm = 335", "mm = 200")
    tables = "".join(f'[holes.left_{n}]\npart = "petal_left"\n\n' for n in range(1, 8))
    files = {**COP.as_texts(), PATTERN_FILE: f"{words}\n{tables}"}
    found = fit(JORY, from_texts("elbow_cop", files))
    values = tomllib.loads(dict(found.texts)[PATTERN_FILE])
    stacks = [joint["stack"] for joint in values["joints"].values() if len(joint["stack"]) > 1]
    left = {hole for stack in stacks for hole in stack if hole.startswith("left_")}
    assert {hole for hole in left if "buckle" not in hole} == set(values["holes"])
    assert len(values["holes"]) > 7


@pytest.mark.long
@pytest.mark.parametrize("ratio", [0.88, 1.0, 1.12])
@pytest.mark.parametrize("name", ["arm_harness", "three_lames", "collar"])
def test_every_sample_comes_back_sound_in_another_size(name, ratio):
    files = read_folder(samples_folder() / name)
    drawn = read_pattern(files, SHELF).pattern.drawn_for
    girths = {one.id: one.mm * ratio for one in drawn if one.id.endswith("girth")}
    lengths = {one.id: one.mm * (1 + ratio) / 2 for one in drawn if one.id not in girths}
    found = fit(Wearer(id="b", name="Bet", measures=lengths, padded=girths), files)
    assert not any(f.severity is Severity.ERROR for f in found.findings)
    pattern = pattern_of(found)
    outlines = [shapely.Polygon(part.outline) for part in pattern.parts]
    tree = shapely.STRtree(outlines)
    assert all(len(tree.query(one, predicate="intersects")) == 1 for one in outlines)


def test_a_measure_in_another_unit_is_asked_about_and_nothing_is_made():
    wearer = Wearer(
        id="cm", name="Cm", measures={"elbow_girth": 28.5, "upper_arm_length": 305.0}, padding_mm=6
    )
    found = fitted(COP, Asked(wearer=wearer), SHELF)
    assert isinstance(found, Refused)
    assert "Is this in cm or inches?" in found.words
    assert "285 mm" in found.words


def test_a_measure_that_was_not_taken_is_told_and_those_parts_stay():
    wearer = Wearer(id="b", name="Bet", measures={"elbow_girth": 285.0}, padding_mm=6)
    found = fit(wearer)
    (told,) = (f for f in found.findings if f.code == "not-measured")
    assert told.about == ("upper_arm_length",)
    assert "bony tip of the shoulder" in told.remedy
    assert all(
        part.before_mm[0] == pytest.approx(part.after_mm[0], abs=0.01) for part in found.parts
    )


def test_padding_nobody_spoke_of_is_guessed_and_told():
    wearer = Wearer(id="b", name="Bet", measures={"elbow_girth": 285.0, "upper_arm_length": 305.0})
    (told,) = (f for f in fit(wearer).findings if f.code == "padding-guessed")
    assert told.severity is Severity.NOTE
    assert "285 mm bare + 50 mm" in told.text


def test_a_rare_measure_is_a_question():
    wearer = Wearer(
        id="b",
        name="Bet",
        sex=Sex.FEMALE,
        measures={"upper_arm_length": 250.0, "elbow_girth": 285.0},
        padding_mm=6,
    )
    codes = {f.code for f in fit(wearer).findings}
    assert "rare-measure" in codes


def test_a_side_is_fitted_by_its_own_measures():
    wearer = Wearer(
        id="b",
        name="Bet",
        measures={"elbow_girth": 285.0, "upper_arm_length": 305.0},
        left={"elbow_girth": 310.0},
        padding_mm=6,
    )
    asked = [Asked(wearer=wearer, side=side) for side in ("", "left", "right")]
    assert [a.measured.measures["elbow_girth"] for a in asked] == [310.0, 310.0, 285.0]
    both, left = fit(wearer), fit(wearer, side="left")
    assert [found.measures[0].bare_mm for found in (both, left)] == [310.0, 310.0]
    assert "sides-differ" in {f.code for f in both.findings}
    assert "sides-differ" not in {f.code for f in left.findings}
    assert pattern_of(left).fitted.side == "left"
    assert pattern_of(left).uuid == fitted_uuid(UUID, "b", "left") != fitted_uuid(UUID, "b")


def test_limbs_that_differ_get_drawings_of_their_own():
    wearer = Wearer(
        id="b",
        name="Bet",
        measures={"elbow_girth": 290.0, "upper_arm_length": 335.0},
        right={"elbow_girth": 315.0},
        padding_mm=6,
    )
    texts = COP.as_texts()
    texts[PATTERN_FILE] = texts[PATTERN_FILE].replace("mirrored = false", "mirrored = true")
    found = fit(wearer, from_texts("elbow_cop", texts))
    pattern = pattern_of(found)
    assert not any(piece.mirrored for piece in pattern.pieces)
    sizes = {part.id: part.after_mm for part in found.parts}
    assert sizes["petal_middle_right"][1] > sizes["petal_middle"][1] + 5
    assert sizes["petal_middle_right"][0] == pytest.approx(sizes["petal_middle"][0], abs=0.01)
    assert [row.bare_mm for row in found.measures] == [290.0, 335.0, 315.0]
    assert found.measures[-1].name.endswith("(right)")
    assert "sides-drawn-apart" in {f.code for f in found.findings}
    assert {name for name, _ in found.texts} == {
        PATTERN_FILE,
        "elbow_cop.svg",
        "elbow_cop_right.svg",
    }


def test_a_pattern_that_follows_nothing_says_what_to_write():
    words = COP.as_texts()[PATTERN_FILE]
    plain = words[: words.index("# -- size")] + words[words.index("# -- treatments") :]
    found = fitted(
        from_texts("elbow_cop", {**COP.as_texts(), PATTERN_FILE: plain}), Asked(wearer=MARA), SHELF
    )
    assert isinstance(found, Refused)
    assert "[scalings]" in found.words


# --- folders ---------------------------------------------------------------------------------------


def test_a_folder_is_written_listed_and_fitted_again(tmp_path, small, large):
    for found, wearer in ((small, "mara"), (large, "jory")):
        place = place_for(tmp_path / wearer, UUID, wearer)
        assert write_fitted(found, place) is None
    listed = fitted_in(tmp_path, UUID)
    assert [(one.wearer, one.version) for one in listed] == [("jory", 1), ("mara", 1)]
    assert not listed[0].is_behind(1)
    assert listed[0].is_behind(2)
    again = place_for(tmp_path / "mara", UUID, "mara")
    assert again.version == 2
    newer = fit(MARA, version=again.version)
    assert write_fitted(newer, again) is None
    assert pattern_of(newer).version == 2
    assert read_folder(tmp_path / "mara").as_texts() == dict(newer.texts)


def test_a_folder_with_something_else_in_it_is_not_written_to(tmp_path, small):
    (tmp_path / "letter.txt").write_text("dear", encoding="utf-8")
    refusal = place_for(tmp_path, UUID, "mara")
    assert isinstance(refusal, Finding)
    assert "letter.txt" in refusal.text
    other = tmp_path / "other"
    assert write_fitted(small, place_for(other, UUID, "mara")) is None
    assert isinstance(place_for(other, UUID, "jory"), Finding)


# --- wearers ---------------------------------------------------------------------------------------


def test_wearers_are_kept_beside_and_in_place_of_each_other(tmp_path):
    file = tmp_path / "mine" / "wearers.toml"
    read = kept_wearers(file, SHELF)
    read = keep_wearer(file, read, MARA, SHELF)
    read = keep_wearer(file, read, JORY, SHELF)
    assert kept_wearers(file, SHELF).wearers == (MARA, JORY)
    file.write_text("# the watch\n" + file.read_text(encoding="utf-8"), encoding="utf-8")
    thinner = Wearer(id="mara", name="Mara", measures={"elbow_girth": 280.0}, padding_mm=6.0)
    read = keep_wearer(file, kept_wearers(file, SHELF), thinner, SHELF)
    assert {one.id: one.name for one in read.wearers} == {"mara": "Mara", "jory": JORY.name}
    assert file.read_text(encoding="utf-8").startswith("# the watch")


def test_a_file_changed_meanwhile_is_not_written_over(tmp_path):
    file = tmp_path / "wearers.toml"
    read = keep_wearer(file, kept_wearers(file, SHELF), MARA, SHELF)
    file.write_text(file.read_text(encoding="utf-8") + "# more\n", encoding="utf-8")
    refusal = keep_wearer(file, read, JORY, SHELF)
    assert isinstance(refusal, Finding)
    assert file.read_text(encoding="utf-8").endswith("# more\n")


def test_a_wearer_is_named_by_id_file_or_both(tmp_path):
    own = tmp_path / "wearers.toml"
    read = keep_wearer(own, kept_wearers(own, SHELF), MARA, SHELF)
    assert named_wearer("mara", own, SHELF) == MARA
    assert named_wearer(str(own), tmp_path / "none.toml", SHELF) == MARA
    keep_wearer(own, read, JORY, SHELF)
    assert named_wearer(f"{own}:jory", tmp_path / "none.toml", SHELF) == JORY
    with pytest.raises(ArmorplanError, match="2 wearers: mara, jory"):
        named_wearer(str(own), own, SHELF)
    with pytest.raises(ArmorplanError, match="no wearer 'nobody'"):
        named_wearer("nobody", own, SHELF)
    with pytest.raises(ArmorplanError, match="There is no file"):
        named_wearer(str(tmp_path / "gone.toml"), own, SHELF)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("[wearers.a]\nname = 'A'\n", "measures"),
        ("[wearers.a]\nname = 'A'\nmeasures = { elbow = 300 }\n", "There is no measure"),
        ("[wearers.a]\nname = 'A'\nmeasures = { elbow_girth = -3 }\n", "elbow_girth"),
        ("[wearers.a]\nname = 'A'\nmeasures = { elbow_girth = 'wide' }\n", "elbow_girth"),
        ("[wearers.a]\nname = 'A'\nsex = 'x'\nmeasures = { elbow_girth = 300 }\n", "female"),
        ("[wearers.a]\nname = 'A'\npadded = { upper_arm_length = 300 }\n", "is a length"),
        ("[wearers.a\n", "not valid TOML"),
        ("# nobody yet\n", "names no wearer"),
    ],
)
def test_faults_of_a_file_are_told_with_their_line(tmp_path, words, told):
    file = tmp_path / "w.toml"
    file.write_text(words, encoding="utf-8")
    with pytest.raises(UnreadableError, match=told):
        named_wearer(str(file), file, SHELF)


def test_fitted_anew_it_keeps_corrections_and_versions(tmp_path, small):
    place = place_for(tmp_path / "mara", UUID, "mara")
    assert write_fitted(small, place) is None
    file = tmp_path / "mara" / PATTERN_FILE
    learned = (
        '\n[corrections.gap]\nname = "A gap of 2 mm"\nholes = ["right_1", "right_3"]\nmove_mm = [2, 0]\n'
        '\n[corrections.gone]\nname = "A hole too low"\nholes = ["lost_1"]\nmove_mm = [0, -1]\n'
        '\n[versions.v2]\nversion = 2\nnote = "After the dry fit."\n'
    )
    file.write_text(file.read_text(encoding="utf-8") + learned, encoding="utf-8")
    again = place_for(tmp_path / "mara", UUID, "mara")
    found = with_learned(fit(MARA, version=3), dict(again.former), SHELF)
    values = tomllib.loads(dict(found.texts)[PATTERN_FILE])
    assert list(values["corrections"]) == ["gap"]
    assert values["corrections"]["gap"]["move_mm"] == [2, 0]
    assert values["versions"]["v2"]["note"] == "After the dry fit."
    assert pattern_of(found).hole("right_1").centre[0] == pytest.approx(
        pattern_of(small).hole("right_1").centre[0] + 2
    )
    told = {f.code: f.text for f in found.findings}
    assert "A gap of 2 mm" in told["corrections-kept"]
    assert "'A hole too low'" in told["correction-lost"]
    assert "lost_1" in told["correction-lost"]


def test_versions_of_the_pattern_are_not_those_of_what_was_fitted_from_it():
    texts = COP.as_texts()
    texts[PATTERN_FILE] += '\n[versions.v1]\nversion = 1\nnote = "As first drawn."\n'
    found = fit(MARA, from_texts("elbow_cop", texts))
    assert pattern_of(found).versions == ()


@pytest.mark.parametrize(("girth_mm", "told"), [("[300, 360]", False), ("[250, 310]", True)])
def test_a_strap_drawn_for_another_girth_than_it_follows_is_told(girth_mm, told):
    texts = COP.as_texts()
    texts[PATTERN_FILE] += (
        '\n[strap_places.rim]\nname = "At the rim"\nstrap = "closing_strap"\nmeets = "buckle_strap"\n'
        f"girth_mm = {girth_mm}\n"
    )
    found = fit(MARA, from_texts("elbow_cop", texts))
    said = [f.text for f in found.findings if f.code == "strap-closes-elsewhere"]
    assert bool(said) is told
    for words in said:
        assert "round 250 to 310 mm" in words
        assert "drawn for 340 mm" in words
        assert words.endswith("this wearer's 323 mm.")
