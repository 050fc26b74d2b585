"""How straps are held, and what girths their holes close."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import CAP, box, part, pattern, rivet, shelf

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.straps.straps import strap_findings
from armorplan.kernel.findings import Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.joining import Joint, JointKind, Motion, Thread
from armorplan.pattern.parts import MadeOn, PartKind
from armorplan.pattern.wearing import StrapPlace, Suspension

LIGHT = replace(CAP, id="light", load=False)
SHELF = replace(shelf(), fasteners=(CAP, LIGHT))
STRAP = part(
    "hanger",
    box(300.0, 25.0),
    {"s1": (10.0, 12.0), "s2": (30.0, 12.0), "s3": (200.0, 12.0), "s4": (225.0, 12.0)},
    kind=PartKind.STRAP,
)
PLATE = part("shell", box(100.0, 100.0), {"p1": (20.0, 20.0), "p2": (40.0, 20.0)})
HANGS = Suspension(id="hang", piece="piece", part="hanger", hangs_from="the belt")
ONE = rivet("r1", "s1", "p1")
TWO = rivet("r2", "s2", "p2")
FOLD = rivet("fold", "s3", "s4")


def _found(*joints, hangs=True, **more):
    sketch = pattern(STRAP, PLATE, joints=joints)
    more |= {"suspensions": (HANGS,)} if hangs else {}
    return list(strap_findings(replace(sketch, **more), SHELF))


def test_two_load_rivets_carry():
    """Two rivets at least at a strap's end, load on copper or tubular ones: common practice, no
    source (from memory)."""
    assert _found(ONE, TWO) == []


def test_one_rivet_is_too_few_to_carry():
    (found,) = _found(ONE)
    assert (found.code, found.severity) == ("load-strap-held-lightly", Severity.WARNING)
    assert found.text == (
        "hanger carries piece from the belt, but is held by 1 joint; 2 that bear load are the least."
    )
    assert found.about == ("hanger", "r1")


def test_light_rivets_do_not_carry_but_do_no_harm_beside_two_that_do():
    light = [replace(joint, fastener="light") for joint in (ONE, TWO)]
    (found,) = _found(*light)
    assert "2 joints, 2 of them too light for a load" in found.text
    (found,) = _found(ONE, light[1])
    assert "2 joints, 1 of them too light" in found.text
    assert _found(ONE, TWO, replace(light[0], id="r3")) == []


def test_a_belt_made_once_is_held_at_each_side_by_two():
    left = [replace(joint, made_on=MadeOn.LEFT) for joint in (ONE, TWO)]
    (found,) = _found(*left)
    assert "is held by 0 joints on the right" in found.text
    (right,) = _found(
        left[0],
        replace(TWO, made_on=MadeOn.RIGHT),
        hangs=False,
        suspensions=(replace(HANGS, made_on=MadeOn.RIGHT),),
    )
    assert "is held by 1 joint on the right" in right.text


def test_a_stitched_row_carries_and_glue_does_not():
    stitched = Joint(id="row", kind=JointKind.STITCH, layers=("hanger", "shell"))
    assert _found(stitched) == []
    (found,) = _found(replace(stitched, kind=JointKind.GLUE))
    assert "1 joint, 1 of them too light" in found.text


def test_a_fold_round_a_buckle_holds_the_strap_to_nothing():
    (found,) = _found(ONE, FOLD)
    assert found.about == ("hanger", "r1")


def test_a_threaded_strap_is_held_by_its_own_fold():
    thread = Thread(id="loop", part="hanger", through=("slot",))
    second = replace(FOLD, id="fold_2")
    assert _found(FOLD, second, threads=(thread,)) == []
    assert [f.code for f in _found(FOLD, threads=(thread,))] == ["load-strap-held-lightly"]


def test_nothing_that_is_not_hung_has_to_carry():
    assert _found(*[replace(j, fastener="light") for j in (ONE, TWO)], hangs=False) == []


def test_a_strap_on_one_fixed_rivet_turns_all_the_same():
    (found,) = _found(ONE, FOLD, hangs=False)
    assert (found.code, found.severity) == ("strap-can-turn", Severity.NOTE)
    assert "held by one rivet alone, 'r1'" in found.text


@pytest.mark.parametrize(
    "joints",
    [
        (ONE, TWO),
        (replace(ONE, motion=Motion.TURNING),),
        (ONE, Joint(id="glue", kind=JointKind.GLUE, layers=("hanger", "shell"))),
        (),
    ],
)
def test_what_may_turn_or_cannot_has_nothing_to_tell(joints):
    assert _found(*joints, hangs=False) == []


def test_the_holes_have_to_cover_the_girths():
    """A strap takes up as much as the girth differs: 200 - 10 mm of spread, 160 to 350 mm of girth."""
    place = StrapPlace(
        id="close",
        name="calf strap",
        strap="hanger",
        meets="shell",
        girth_mm=(160.0, 350.0),
        holes=("s1", "s2", "s3"),
    )
    assert _found(ONE, TWO, strap_places=(place,)) == []
    wide = replace(place, girth_mm=(160.0, 362.5))
    (found,) = _found(ONE, TWO, strap_places=(wide,))
    assert (found.code, found.severity) == ("strap-closes-too-little", Severity.WARNING)
    assert "spread over 190.0 mm" in found.text
    assert "girths of 160 to 362.5 mm differ by 202.5 mm" in found.text
    assert "12.5 mm more of hanger" in found.remedy
    single = replace(place, holes=("s1",))
    assert "spread over 0.0 mm" in _found(ONE, TWO, strap_places=(single,))[0].text
    assert _found(ONE, TWO, strap_places=(replace(wide, holes=()),)) == []


@pytest.mark.parametrize(
    "folder", sorted(p.parent for p in samples_folder().glob("*/pattern.toml"))
)
def test_the_samples_raise_no_false_alarm(folder):
    shipped = read_shelf()
    sample = read_pattern(read_folder(folder), shipped).pattern
    assert list(strap_findings(sample, shipped)) == []
