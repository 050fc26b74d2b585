"""Each fault of the later words of the format is told once, at its line, with a remedy."""

import pytest
from files.every_word import SVG, TOML, errors, read_leg, warnings, with_words
from files.small_cuff import swapped


@pytest.mark.parametrize(
    ("old", "new", "code", "says"),
    [
        # parts
        ('made_on = "left"\n\n[parts', 'made_on = "port"\n\n[parts', "wrong-value", '"right"'),
        ("count = 4", "count = 0", "wrong-value", "from 1 to 1,000"),
        ("bevelled = true\nburnished", "bevelled = true\ncount = 2\nburnished", "several-held", "thigh_plate"),
        ('drawn_from = "inside"', 'drawn_from = "below"', "wrong-value", '"outside"'),
        ("backbone_deg = 90", "backbone_deg = true", "wrong-value", "a number"),
        ("skived = true", "skived = 1", "wrong-value", "true or false"),
        ('only_with = ["look.decorated"]', 'only_with = ["look.decorate"]', "unknown-id", '"look.decorated"'),
        ('only_with = ["look.decorated"]', 'only_with = ["look"]', "unknown-id", "choice"),
        ('only_with = ["look.decorated"]', 'only_with = "look.decorated"', "wrong-value", "a list of texts"),
        # harness
        ('pieces = ["thigh", "knee"]', 'pieces = ["thigh", "kne"]', "unknown-id", '"knee"'),
        ('pieces = ["thigh", "knee"]', 'pieces = ["thigh"]', "one-piece", "one piece"),
        ('pieces = ["thigh", "knee"]', 'pieces = ["thigh", "knee"]\n[harness.other]\nname = "o"\npieces = ["knee", "hip"]',
         "piece-in-two-harnesses", '"leg"'),
        ("[harness.leg]", "[harness.knee]", "id-taken", "the id of a piece"),
        # joints
        ('layers = ["watch_badge", "thigh_plate"]', 'layers = ["watch_badge"]', "one-layer", "two or more"),
        ('layers = ["watch_badge", "thigh_plate"]', "layers = []", "empty-list", "two parts"),
        ('layers = ["watch_badge", "thigh_plate"]', 'layers = ["watch_badg", "thigh_plate"]', "unknown-id", "watch_badge"),
        ('layers = ["watch_badge", "thigh_plate"]', "", "missing-key", "stack"),
        ('stack = ["keeper_1", "keeper_2"]', 'stack = ["keeper_1", "keeper_2"]\nlayers = ["boss", "cop"]', "stack-and-layers", "Keep stack"),
        ('stack = ["strap_end", "plate_strap"]', 'layers = ["thigh_strap", "thigh_plate"]', "layers-of-holes", "A rivet"),
        ('motion = "fixed"', 'motion = "loose"', "wrong-value", '"sliding"'),
        ('motion = "fixed"', 'motion = "fixed"\nturning = false', "two-motions", "motion alone"),
        ('motion = "fixed"', 'motion = "sliding"', "not-one-slot", "no slot"),
        ('"lame_slide", "cop_slide"', '"lame_slide", "cop_slide", "tab_tongue"', "not-one-slot", "lame_slide and tab_tongue"),
        ("washer_mm = 1.2", "washer_mm = -1", "wrong-value", "at least 0"),
        ("post_mm = 9.5", "post_mm = 0", "wrong-value", "above 0"),
        ('lies_over = ["thigh_strap"]', 'lies_over = ["thigh_strop"]', "unknown-id", '"thigh_strap"'),
        ('lies_over = ["thigh_strap"]', 'lies_over = ["thigh_trim"]', "each-over-the-other", "lies outside"),
        ("length_mm = 10\n", "length_mm = 0\n", "wrong-value", "above 0"),
        ("area_cm2 = 150", 'area_cm2 = "150"', "wrong-value", "above 0"),
        ('fastener = "leather_lace_3"', 'fastener = "waxed_linen_thread"', "wrong-fastener", "serves a stitch"),
        ('fastener = "contact_cement"', 'fastener = "casing_water"', "unknown-id", "fastener"),
        ('stack = ["plate_hang", "belt_right"]', 'stack = ["plate_hang", "belt_left"]', "hole-in-two-joints", "once"),
        ('"belt_left"]\nfastener = "screw_post_fixed"\nmade_on = "left"', '"belt_left"]\nfastener = "screw_post_fixed"',
         "hole-in-two-joints", "plate_hang"),
        # threads
        ('through = ["strap_slot", "keeper_loop"]', 'through = ["strap_slot", "lame_slide"]', "slot-of-a-joint", "lame_slide"),
        ('part = "thigh_strap"\nthrough', 'part = "thigh_strip"\nthrough', "unknown-id", '"thigh_strap"'),
        # hardware
        ('use = "roller_buckle_25"', 'use = "roler_buckle_25"', "unknown-id", '"roller_buckle_25"'),
        ('held_by = ["buckle_shut_1", "buckle_shut_2"]', 'held_by = ["buckle_shut_9"]', "unknown-id", "buckle_shut"),
        ("count = 1\n", "count = 1.5\n", "wrong-value", "a whole number"),
        # forms
        ('axis = "tab_fold"', 'axis = "tab_fol"', "no-such-line", '"tab_fold"'),
        ('axis = "tab_fold"', 'axis = "buckle_tab"', "no-such-line", "a closed outline"),
        ('axis = "tab_fold"', "axis = [[1, 2]]", "wrong-value", "two points"),
        ('axis = "tab_fold"', "axis = [[1, 2], [1, 2]]", "wrong-value", "one spot"),
        ('axis = "tab_fold"', "axis = [[1, 2], [1, nan]]", "wrong-value", "two points"),
        ('axis = "tab_fold"', "axis = 3", "wrong-value", "a drawn line"),
        ('hardening = "hot_water_hardening"', 'hardening = "alcohol_dye"', "unknown-id", "hardener"),
        ('route = "wet_fold"', 'route = "wetfold"', "wrong-value", '"wet_fold"'),
        ('seams = ["cop_row"]', "seams = []", "empty-list", "at least one"),
        ('seams = ["cop_row"]', "", "missing-key", '"seams"'),
        # treatments
        ('applying = "wipe"', 'applying = "pour"', "wrong-value", '"dip"'),
        # strap places
        ("girth_mm = [440, 500]", "girth_mm = [500, 440]", "wrong-value", "the least first"),
        ("girth_mm = [440, 500]", "girth_mm = [440, 440]", "no-girth-range", "440 to 440"),
        ("girth_mm = [440, 500]", "girth_mm = [0, 440]", "no-girth-range", "above 0"),
        ("girth_mm = [440, 500]", "", "missing-key", "girth_mm"),
        ('meets = "buckle_tab"', 'meets = "buckle_tap"', "unknown-id", '"buckle_tab"'),
        ('"tongue_3", "tongue_4"]', '"tongue_3", "tongue_5"]', "no-such-circle", "tongue_"),
        ('"tongue_3", "tongue_4"]', '"tongue_3", "loop_hole"]', "hole-of-another-part", "lantern_loop"),
        ('"tongue_3", "tongue_4"]', '"tongue_3", "tongue_3"]', "named-twice", "tongue_3"),
        # fit checks, suspension
        ('when = "mock-up"', 'when = "mockup"', "wrong-value", '"mock-up"'),
        ('when = "dry-fit"\nparts = ["cop"', 'when = "dry-fit"\nparts = ["cap"', "unknown-id", '"cop"'),
        ('part = "belt"\nhangs_from = "the arming coat"\nmade_on = "left"', 'part = "belt"\nmade_on = "left"', "missing-key", "hangs_from"),
        # own steps
        ("minutes = 20", "minutes = -1", "wrong-value", "from 0 to 10,080"),
        ("wait_min = 60", "wait_min = 1.5", "wrong-value", "a whole number"),
        ('parts = ["thigh_plate"]\nminutes', 'parts = ["cop"]\nminutes', "unknown-id", 'part of the piece "thigh"'),
        ("cautions = [", "cautions = [3, ", "wrong-value", "a list of texts"),
        # relations
        ('first = "dye/colour.thigh.coat-2"', 'first = "dyes/colour.thigh.coat-2"', "no-step-name", '"dye/…"'),
        ('first = "dye/colour.thigh.coat-2"', 'first = "colour.thigh.coat-2"', "no-step-name", "rivet/left_row_1"),
        ('first = "dye/colour.thigh.coat-2"', 'first = "dye/"', "no-step-name", "name of a step"),
        ('first = "dye/colour.thigh.coat-2"', 'first = "own/gild_waves"', "before-itself", "another step"),
        ('first = "dye/colour.thigh.coat-2"', "first = 3", "wrong-value", "a text"),
        ('then = "own/gild_waves"', "", "no-such-shape", "first + then"),
        ('together = ["seam/trim_row"]', "", "no-such-shape", "no step"),
        ('together = ["seam/trim_row"]', 'together = ["rivet/trim_fix_1"]', "one-step", "two or more"),
        ('together = ["seam/trim_row"]', "together = []", "empty-list", "at least one"),
        ('on = "the forming block"', "", "no-such-shape", "apart + on"),
        ('force = "would spoil"', 'force = "should"', "wrong-value", '"usual practice"'),
        ("max_lag_min = 20160", "max_lag_min = 30", "lag-turned-round", "at most 30"),
        ("price_min = 3", "price_min = -3", "wrong-value", "at least 0"),
        # overruled
        ('rule = "hidden-before-cover"', "", "missing-key", '"rule"'),
        ('step = "rivet/strap_fix"', 'step = "strap_fix"', "no-step-name", "no name of a step"),
        # corrections
        ('holes = ["plate_trim_2"]', 'holes = ["plate_trim_3"]', "unknown-id", "plate_trim_"),
        ('holes = ["plate_trim_2"]', "holes = []", "empty-list", "corrections.trim_low.holes"),
        ('holes = ["plate_trim_2"]', 'holes = ["thigh_plate"]', "outline-not-moved", "slots that a joint slides in"),
        ('holes = ["plate_trim_2"]', 'holes = ["strap_slot"]', "outline-not-moved", "moves only holes"),
        ("move_mm = [0, -1.5]", "move_mm = 1.5", "wrong-value", "[x, y]"),
        ("move_mm = [0, -1.5]", "", "missing-key", "move_mm"),
        # options
        ('chosen = "decorated"', 'chosen = "decorate"', "unknown-id", '"decorated"'),
        ('chosen = "decorated"', "", "missing-key", "chosen"),
        ('"lay out" = 0.5', '"layout" = 0.5', "unknown-id", '"lay out"'),
        ('"lay out" = 0.5', '"lay out" = 0', "wrong-value", "of at least 0.01 and at most 10"),
        ("by_machine = true\ntimes", "by_machine = 1\ntimes", "wrong-value", "true or false"),
        ("[options.rim.choices.cut]", '[options.rim.choices."cut.off"]', "bad-id", "cut.off"),
    ],
)  # fmt: skip
def test_one_fault_is_told_once(old, new, code, says):
    found = with_words((old, new))
    told = [(f.code, str(f)) for f in errors(found)]
    assert [each for each, _ in told] == [code], told
    assert says in told[0][1]
    assert found.pattern is None
    assert errors(found)[0].place.line is not None


def test_faults_of_all_tables_are_told_at_once():
    found = with_words(
        ("count = 4", "count = 0"),
        ('motion = "fixed"', 'motion = "loose"'),
        ('axis = "tab_fold"', 'axis = "tab_fol"'),
        ("girth_mm = [440, 500]", "girth_mm = 440"),
        ("minutes = 20", 'minutes = "20"'),
        ('force = "would spoil"', 'force = "must"'),
        ("move_mm = [0, -1.5]", "move_mm = [0]"),
        ('chosen = "decorated"', 'chosen = "plane"'),
    )
    lines = [f.place.line for f in errors(found)]
    assert len(lines) == 8
    assert lines == sorted(lines)


def test_an_option_without_choices():
    found = read_leg(TOML + '[options.size]\nname = "size"\nchosen = "tall"\n')
    (fault,) = errors(found)
    assert fault.code == "nothing-there"
    assert "[options.size.choices.ID]" in fault.remedy


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ("[parts.belt]\n", '[parts.belt]\nmade_on = "left"\n', "parts.belt.made_on"),
        ("[parts.belt]\n", "[parts.belt]\ncopied = true\n", "parts.belt.copied"),
        ('motion = "fixed"', 'motion = "fixed"\nlength_mm = 3', "joints.strap_fix.length_mm"),
        ('motion = "fixed"', 'motion = "fixed"\narea_cm2 = 3', "joints.strap_fix.area_cm2"),
        ('route = "wet_fold"', 'route = "wet_fold"\nhardening = "wax_hardening"',
         "forms.rim_fold.hardening"),
        ('together = ["seam', 'lag_min = 3\ntogether = ["seam', "relations.trim_in_one_go.lag_min"),
        ('together = ["seam', 'price_min = 3\ntogether = ["seam',
         "relations.trim_in_one_go.price_min"),
    ],
)  # fmt: skip
def test_what_says_nothing_is_a_warning(old, new, key):
    found = with_words((old, new))
    (told,) = warnings(found)
    assert (told.code, told.place.key) == ("says-nothing", key)
    assert found.pattern is not None


def test_a_hardened_form_that_names_no_hardener_is_a_warning():
    found = with_words(('hardening = "hot_water_hardening"\n', ""))
    (told,) = warnings(found)
    assert told.code == "no-hardening"
    assert found.pattern is not None


def test_holes_may_be_shared_where_no_build_has_both_joints():
    joint = (
        '[joints.rim_screw]\nkind = "screw"\nstack = ["lame_pivot", "cop_pivot"]\n'
        'fastener = "screw_post_turning"\nonly_with = ["rim.cut"]\n'
    )
    folded = ("washer_mm = 1.2\n", 'washer_mm = 1.2\nonly_with = ["rim.folded"]\n')
    toml = swapped(TOML, *folded) + joint
    assert errors(read_leg(toml)) == []
    assert {f.code for f in errors(read_leg(TOML + joint))} == {"hole-in-two-joints"}


def test_a_line_that_is_drawn_twice():
    line = '<line id="tab_fold" x1="1" y1="1" x2="1" y2="9"/></svg>'
    (fault,) = errors(read_leg(svg=swapped(SVG, "</svg>", line)))
    assert fault.code == "drawn-twice"


def test_a_line_of_three_points_is_no_axis():
    svg = swapped(SVG, 'd="M 20,365 H 180"', 'd="M 20,365 H 100 L 180,370"')
    (fault,) = errors(read_leg(svg=svg))
    assert fault.code == "no-such-line"
    assert "not a straight line of two points" in fault.text


def test_a_joint_cannot_slide_in_the_outline_of_a_part():
    found = with_words(('"lame_slide", "cop_slide"', '"upper_lame", "cop_slide"'))
    assert {f.code for f in errors(found)} == {"not-one-slot", "no-such-circle"}


def test_a_piece_without_parts_is_a_warning_at_its_line():
    toml = TOML + '[pieces.spare]\nname = "spare"\n'
    found = read_leg(toml)
    (warning,) = warnings(found)
    assert warning.code == "piece-without-parts"
    assert '"spare"' in warning.text
    assert toml.splitlines()[warning.place.line - 1] == "[pieces.spare]"
    assert found.pattern is not None
