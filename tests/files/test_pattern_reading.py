import pytest
from files.small_cuff import CUFF_SVG, CUFF_TOML, SHELF, read_texts, texts, with_svg, with_toml

from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import content_hash, from_texts, read_folder
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.joining import Form, FormKind, Joint, JointKind, Motion, Route, Seam, Thread
from armorplan.pattern.parts import Material, PartKind, Piece, Slot


@pytest.fixture(scope="module")
def cuff():
    found = read_texts()
    assert found.findings == ()
    return found.pattern


def test_head(cuff):
    assert (cuff.uuid, cuff.slug) == ("0b9f2f36-5d0a-4d0e-9a63-3f4f5c1e7a10", "cuff")
    assert (cuff.name, cuff.version) == ("Cuff of the lantern watch", 2)
    assert cuff.notes == "Tied over a padded sleeve."
    assert cuff.content_hash == content_hash(from_texts("other folder", texts()))
    assert cuff.pieces == (Piece(id="cuff", name="Cuff", mirrored=True),)


def test_thickness_in_ounces_is_copied_into_the_parts(cuff):
    # 8 oz = 8/64 in = 3.175 mm.
    assert cuff.materials[1] == Material(id="strap_leather", leather="strap", thickness_mm=3.175)
    assert cuff.part("strap").thickness_mm == 3.175
    assert cuff.part("plate").thickness_mm == 3.2


def test_parts(cuff):
    plate, strap, loop = cuff.parts
    assert plate.outline == ((10, 10), (110, 10), (110, 70), (10, 70))
    assert (plate.kind, plate.grain_out, plate.up_deg) == (PartKind.PLATE, True, 90)
    assert (plate.bevelled, plate.tooling, plate.hides) == (True, "waves", ("end_bottom",))
    assert strap.outline == ((120, 10), (190, 10), (190, 30), (120, 30))
    assert (strap.kind, strap.grain_out, strap.up_deg) == (PartKind.STRAP, False, 0)
    assert (strap.bevelled, strap.tooling, strap.hides) == (False, None, ())
    assert loop.kind is PartKind.KEEPER


def test_holes_belong_to_the_outline_around_them(cuff):
    assert [h.id for h in cuff.part("plate").holes] == ["plate_1", "plate_2", "spare"]
    assert [h.id for h in cuff.part("strap").holes] == ["strap_1", "strap_2"]
    hole = cuff.hole("strap_1")
    assert (hole.part, hole.centre, hole.diameter_mm) == ("strap", (130, 20), 3.5)


def test_slots_have_the_sides_of_their_rectangle(cuff):
    ring = ((90, 30), (94, 30), (94, 52), (90, 52))
    assert cuff.part("plate").slots == (
        Slot(id="slit", part="plate", outline=ring, length_mm=22, width_mm=4),
    )


def test_a_turned_slot_keeps_its_sides():
    found = with_svg('height="22"/>', 'height="22" transform="rotate(33 92 41)"/>')
    (slot,) = found.pattern.part("plate").slots
    assert (slot.length_mm, slot.width_mm) == pytest.approx((22, 4))


def test_joints_and_what_is_made_of_them(cuff):
    assert cuff.joints == (
        Joint(
            id="end_top",
            kind=JointKind.RIVET,
            stack=("strap_1", "plate_1"),
            fastener="double_cap_9",
        ),
        Joint(
            id="end_bottom",
            kind=JointKind.SCREW,
            stack=("strap_2", "plate_2"),
            fastener="screw_post_turning",
            motion=Motion.TURNING,
            placed_on_wearer=True,
        ),
        Joint(id="loop_shut", kind=JointKind.STITCH, stack=("loop_1", "loop_2"), fastener=""),
    )
    assert cuff.stack_parts("end_top") == ("strap", "plate")
    assert cuff.seams == (Seam(id="end", name="strap end", joints=("end_top", "end_bottom")),)
    assert cuff.threads == (
        Thread(id="tail", part="strap", through=("slit", "loop"), closed_by=("end_top",)),
    )
    assert cuff.forms == (
        Form(
            id="round",
            kind=FormKind.BEND,
            parts=("plate",),
            route=Route.DAMP,
            radius_mm=45,
            angle_deg=200,
        ),
        Form(
            id="shut",
            kind=FormKind.CLOSURE,
            parts=("plate", "strap"),
            route=Route.BY_SEAM,
            seams=("end",),
        ),
    )


def test_treatments_of_a_piece_reach_all_its_parts(cuff):
    brown, seal = cuff.treatments
    assert (brown.use, brown.parts) == ("alcohol_dye", ("plate", "strap", "loop"))
    assert (brown.colour, brown.coats) == ("harbour brown", 2)
    assert (seal.parts, seal.colour, seal.coats) == (("plate",), None, 1)


@pytest.mark.parametrize(
    "texts_of",
    [
        lambda text: "\ufeff" + text,
        lambda text: text.replace("\n", "\r\n"),
        lambda text: "\ufeff" + text.replace("\n", "\r\n"),
    ],
    ids=["mark", "crlf", "both"],
)
def test_mark_and_line_ends_change_only_the_hash(cuff, texts_of):
    found = read_texts(toml=texts_of(CUFF_TOML), svg=texts_of(CUFF_SVG))
    assert found.findings == ()
    assert found.pattern.parts == cuff.parts
    assert found.pattern.joints == cuff.joints
    assert found.pattern.content_hash != cuff.content_hash


def test_a_snapshot_gives_the_same_pattern(tmp_path):
    home = tmp_path / "watch_cuff"
    home.mkdir()
    for name, text in texts().items():
        (home / name).write_bytes(text.encode())
    source = read_folder(home)
    again = from_texts(source.slug, source.as_texts())
    assert read_pattern(again, SHELF) == read_pattern(source, SHELF)
    assert read_pattern(again, SHELF).pattern.slug == "watch_cuff"


def test_the_innermost_part_takes_the_hole():
    boss = (
        '[parts.boss]\nname = "boss"\npiece = "cuff"\nkind = "trim"\nmaterial = "plate_leather"\n'
    )
    found = read_texts(
        toml=CUFF_TOML + boss,
        svg=CUFF_SVG.replace("</svg>", '<rect id="boss" x="95" y="55" width="9" height="9"/></svg>')
        .replace("</svg>", '<circle id="deep" cx="97" cy="57" r="1"/></svg>'),
    )  # fmt: skip
    assert found.pattern.hole("deep").part == "boss"
    # 'spare' at (100, 60) lies inside both, and is declared to be the plate's.
    assert found.pattern.hole("spare").part == "plate"


def test_a_strap_end_shares_a_hole_of_a_row_in_one_stack_of_three():
    found = with_toml('stack = ["strap_1", "plate_1"]', 'stack = ["strap_1", "plate_1", "spare"]')
    assert found.pattern.joint("end_top").stack == ("strap_1", "plate_1", "spare")


def test_parts_on_several_drawings():
    back = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="9cm" height="9cm" viewBox="0 0 90 90">'
        '<rect id="plate_back" width="40" height="40"/>'
        '<circle id="back_1" cx="20" cy="20" r="1"/></svg>'
    )
    toml = CUFF_TOML.replace('["cuff.svg"]', '["cuff.svg", "back.svg"]') + (
        "[holes.back_1]\n"
        '[parts.plate_back]\nname = "b"\npiece = "cuff"\nkind = "plate"\n'
        'material = "plate_leather"\n'
    )
    found = read_texts(toml=toml, **{"back.svg": back})
    assert found.findings == ()
    assert found.pattern.hole("back_1").part == "plate_back"
    assert found.pattern.hole("plate_1").part == "plate"


@pytest.mark.parametrize("name", ["elbow_cop", "collar", "three_lames", "arm_harness"])
def test_the_samples_are_without_fault(name):
    found = read_pattern(read_folder(samples_folder() / name), SHELF)
    assert found.findings == ()
    assert found.pattern.slug == name
