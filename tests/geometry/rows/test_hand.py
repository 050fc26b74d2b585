"""Which way round: declared sides against the row, and no alarm where nothing tells."""

from dataclasses import replace
from math import asin, cos, radians, sin

import pytest
from geometry.leather_sketches import box, part, pattern, rivet
from geometry.row_sketches import measured, told

from armorplan.pattern.joining import Motion, Seam
from armorplan.pattern.parts import PartKind

SPOTS = (20.0, 60.0, 100.0, 140.0)


def _shell_and_lame(lame_spots, **declared):
    """A shell with a row along its lower edge, and a lame that hangs from it by its upper edge."""
    shell = part("shell", box(160, 100), {f"s{i}": (x, 90.0) for i, x in enumerate(SPOTS)})
    lame = part(
        "lame", box(160, 60), {f"l{i}": p for i, p in enumerate(lame_spots)}, kind=PartKind.LAME
    )
    joints = tuple(rivet(f"j{i}", f"s{i}", f"l{i}") for i in range(4))
    seam = Seam(id="row", name="upper row", joints=tuple(j.id for j in joints))
    return pattern(shell, replace(lame, **declared), joints=joints, seams=(seam,))


SOUND = [(x, 10.0) for x in SPOTS]
MIRRORED = [(160 - x, 10.0) for x in SPOTS]


def test_a_lame_drawn_mirrored_lies_upside_down_on_its_shell():
    assert not told(_shell_and_lame(SOUND))
    (measure,) = measured(_shell_and_lame(MIRRORED))
    (found,) = measure.findings
    assert found.code == "sides-disagree"
    assert found.text == (
        "As 'upper row' joins them, lame lies upside down to shell: its up is turned by 180° from "
        "that of shell; hole on hole, lame comes to lie over it instead of carrying on beyond the row."
    )
    assert "Look which of the two is drawn turned over and mirror it" in found.remedy
    assert "holes of lame into the stacks from the other end, 'l3' first" in found.remedy
    assert "write up_deg = 270 for lame" in found.remedy
    assert measure.verdict == "look at which way round it goes"


def test_what_the_remedy_says_is_silent():
    assert not told(_shell_and_lame(MIRRORED, up_deg=270.0))


@pytest.mark.parametrize("turn_deg", [0, 37, 90, 180, 251])
def test_a_lame_nested_at_any_angle_on_the_sheet_is_sound(turn_deg):
    """Its 'up' may never have been thought of: it hangs below the row all the same."""
    sketch = _shell_and_lame(SOUND)
    c, s = cos(radians(turn_deg)), sin(radians(turn_deg))

    def turned(spot):
        return spot[0] * c - spot[1] * s, spot[0] * s + spot[1] * c

    shell, lame = sketch.parts
    lame = replace(
        lame,
        outline=tuple(turned(p) for p in lame.outline),
        holes=tuple(replace(h, centre=turned(h.centre)) for h in lame.holes),
    )
    assert not told(replace(sketch, parts=(shell, lame)))


def test_plates_that_meet_over_the_shoulder_are_sound():
    """Front and back, both drawn upright and from outside: their upper edges meet end for end."""
    back = [(160 - x, 10.0) for x in SPOTS]
    front = part("front", box(160, 100), {f"s{i}": (x, 10.0) for i, x in enumerate(SPOTS)})
    sketch = _shell_and_lame(back)
    assert not told(replace(sketch, parts=(replace(front, id="shell", holes=tuple(
        replace(h, part="shell") for h in front.holes)), sketch.parts[1])))  # fmt: skip


def test_a_part_said_to_be_drawn_from_inside_that_is_not():
    (found,) = told(_shell_and_lame(SOUND, drawn_from_inside=True))
    assert found.code == "sides-disagree"
    assert 'leave out drawn_from = "inside"' in found.remedy
    assert not told(_shell_and_lame(MIRRORED, drawn_from_inside=True))


@pytest.mark.parametrize("kind", [PartKind.STRAP, PartKind.KEEPER, PartKind.TRIM])
def test_straps_keepers_and_trims_run_any_way(kind):
    assert not told(_shell_and_lame(MIRRORED, kind=kind))


def test_a_plate_of_a_straps_shape_is_taken_for_one():
    sketch = _shell_and_lame(MIRRORED, kind=PartKind.PLATE, outline=box(160, 20))
    assert not told(sketch)


def test_a_curved_row_says_nothing_of_the_hand():
    """A lame that curves against its shell: its holes bulge the other way, its up is up."""
    step = 2 * asin(20.0 / 150.0)

    def curved(way):
        turns = [(at - 1.5) * step for at in range(4)]
        return [(80 + 150 * sin(t), 20.0 + way * 150 * (1 - cos(t))) for t in turns]

    assert not told(_shell_and_lame(curved(1)))
    assert not told(_shell_and_lame(curved(-1)))


def _pivoted(*, mirrored, **declared):
    """A lame that turns on two pivots of a plate; its back rises between them."""
    plate = part("plate", box(160, 100), {"pn": (15.0, 85.0), "pf": (145.0, 85.0)})
    spots = {"ln": (10.0, 60.0), "lf": (150.0, 60.0)}
    curved = ((0.0, 50.0), (80.0, 0.0), (160.0, 50.0), (160.0, 70.0), (80.0, 30.0), (0.0, 70.0))
    if mirrored:
        spots = {key: (160 - x, y) for key, (x, y) in spots.items()}
    lame = replace(part("lame", curved, spots, kind=PartKind.LAME), **declared)
    tab = replace(part("tab", box(60, 20), {}, kind=PartKind.STRAP), up_deg=0.0)
    joints = tuple(
        replace(rivet(name, f"p{name}", f"l{name}"), motion=Motion.TURNING) for name in "nf"
    )
    return pattern(plate, lame, tab, joints=joints)


def test_a_mirrored_lame_on_two_pivots_is_told_where_up_is_a_word_of_the_pattern():
    assert not told(_pivoted(mirrored=False))
    sketch = _pivoted(mirrored=True)
    (found,) = told(sketch)
    assert found.text == (
        "As their two pivots join them, lame lies upside down to plate: its up is turned by 180° "
        "from that of plate."
    )
    assert found.about == ("n", "f", "plate", "lame")
    assert not told(_pivoted(mirrored=True, up_deg=270.0))
    assert not told(replace(sketch, parts=sketch.parts[:2])), "nobody said where up is"


def test_of_a_chain_the_part_that_lies_unlike_both_neighbours_is_named():
    sketch = _shell_and_lame(MIRRORED)
    shell, lame = sketch.parts
    low = {f"m{i}": (h.centre[0], 50.0) for i, h in enumerate(lame.holes)}
    lame = replace(lame, holes=(*lame.holes, *part("lame", (), low).holes))
    last = part("last", box(160, 60), {f"k{i}": (x, 10.0) for i, x in enumerate(SPOTS)})
    joints = tuple(rivet(f"n{i}", f"m{i}", f"k{i}") for i in range(4))
    seam = Seam(id="low", name="lower row", joints=tuple(j.id for j in joints))
    found = told(
        replace(
            sketch,
            parts=(shell, lame, last),
            joints=(*sketch.joints, *joints),
            seams=(*sketch.seams, seam),
        )
    )
    (only,) = found
    assert only.code == "sides-disagree"
    assert only.text.startswith(
        "As 'upper row' and 'lower row' join them, lame lies upside down to shell and last"
    )
    assert only.remedy.startswith("Mirror lame in the drawing")
    assert {"row", "low", "shell", "lame", "last"} == set(only.about)


def test_of_an_overlay_in_two_rows_the_lighter_part_is_named_and_both_rows_are_to_mend():
    """An overlay lies over its plate: that it does is no sign that it is drawn turned over."""
    plate = part("plate", box(160, 200), {f"p{i}": (x, 110.0) for i, x in enumerate(SPOTS)} | {
        f"q{i}": (x, 190.0) for i, x in enumerate(SPOTS)})  # fmt: skip
    over = part("overlay", box(160, 100), {f"o{i}": (160 - x, 10.0) for i, x in enumerate(SPOTS)} | {
        f"u{i}": (160 - x, 90.0) for i, x in enumerate(SPOTS)})  # fmt: skip
    joints = tuple(
        rivet(f"{a}{i}", f"{a}{i}", f"{b}{i}") for a, b in ("op", "uq") for i in range(4)
    )
    seams = tuple(
        Seam(id=row, name=f"{name} row", joints=tuple(f"{row}{i}" for i in range(4)))
        for row, name in (("o", "upper"), ("u", "lower"))
    )
    up_deg = 100.0  # up is a word of the pattern
    parts = (replace(plate, up_deg=up_deg), replace(over, up_deg=up_deg))
    (found,) = (
        f for f in told(pattern(*parts, joints=joints, seams=seams)) if f.code == "sides-disagree"
    )
    assert "overlay lies upside down to plate" in found.text
    assert "instead of carrying on" not in found.text
    assert "the stacks of 'upper row' and 'lower row' from the other end of each" in found.remedy
