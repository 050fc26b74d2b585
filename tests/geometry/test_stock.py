"""What a pattern takes from the shelf; leather of sound practice raises no note."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import box, part, pattern, shelf

from armorplan.files.catalogue import read_shelf
from armorplan.files.thickness_words import sold_mm
from armorplan.geometry.stock import stock_findings
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import (
    Applying,
    Form,
    FormKind,
    Joint,
    JointKind,
    Route,
    Treatment,
)
from armorplan.pattern.options import Choice, Option
from armorplan.pattern.parts import Material
from armorplan.pattern.wearing import HardwareUse

SHIPPED = read_shelf()
SOUND_OZ = {
    "shell_plate": (10, 14),
    "cop_and_lame": (8, 10),
    "strap": (7, 10),
    "light_strap": (4, 7),
    "load_strap": (8, 12),
    "articulation": (5, 7),
    "keeper": (3, 5),
    "trim": (5, 8),
    "edge_binding": (2, 4),
    "suede_lining": (2, 4),
}
"""Usual weights by purpose: common practice, no source (from memory; two trade pages for plates)."""
PRINTED_MM_PER_OZ = 0.4


def _notes(leather, most_mm, least_mm=None):
    material = Material(id="hide", leather=leather, thickness_mm=most_mm, least_mm=least_mm)
    return list(stock_findings(pattern(part("p", box(60, 60), {}), material=material), SHIPPED))


def _whole_and_half(least_oz, most_oz):
    return [half / 2 for half in range(2 * least_oz, 2 * most_oz + 1)]


@pytest.mark.parametrize("leather", SOUND_OZ)
def test_sound_practice_raises_no_note(leather):
    least_oz, most_oz = SOUND_OZ[leather]
    for ounces in _whole_and_half(least_oz, most_oz):
        (exact, _), printed = sold_mm(f"{ounces} oz"), PRINTED_MM_PER_OZ * ounces
        assert _notes(leather, exact) == [], ounces
        assert _notes(leather, printed) == [], ounces
    for low in range(least_oz, most_oz):
        for high in (low + 1, min(low + 2, most_oz)):
            for words in (f"{low}-{high} oz", f"{low * 0.4:.1f}–{high * 0.4:.1f} mm"):
                least_mm, most_mm = sold_mm(words)
                assert _notes(leather, most_mm, least_mm) == [], words


def test_every_leather_of_the_shelf_is_among_the_purposes():
    assert {e.id for e in SHIPPED.leathers} == {*SOUND_OZ, "padding_felt"}


@pytest.mark.parametrize("leather", SOUND_OZ)
def test_an_ounce_and_a_half_outside_is_a_note(leather):
    least_oz, most_oz = SOUND_OZ[leather]
    for ounces in (least_oz - 1.5, most_oz + 1.5):
        (found,) = _notes(leather, sold_mm(f"{ounces} oz")[0])
        assert (found.code, found.severity) == ("unusual-thickness", Severity.NOTE)
        assert f"({ounces} oz)" in found.text


def test_of_a_range_either_end_may_be_unusual():
    least_mm, most_mm = sold_mm("6-8 oz")
    (found,) = _notes("cop_and_lame", most_mm, least_mm)
    assert "is 2.4 to 3.2 mm (6.0 to 8.0 oz); 3.1 to 4.0 mm is usual" in found.text
    least_mm, most_mm = sold_mm("10-12 oz")
    assert len(_notes("cop_and_lame", most_mm, least_mm)) == 1


def _codes(**more):
    sketch = replace(pattern(part("p", box(60, 60), {})), **more)
    sketch = replace(sketch, materials=())
    return {f.code: f for f in stock_findings(sketch, SHIPPED)}


def test_hardware_glue_thread_lace_and_hardener_that_are_not_on_the_shelf():
    joints = tuple(
        Joint(id=kind.value, kind=kind, layers=("p", "p"), fastener=name)
        for kind, name in (
            (JointKind.GLUE, "white_gleu"),
            (JointKind.STITCH, "waxed_linen"),
            (JointKind.LACE, "leather_lace"),
        )
    )
    found = _codes(
        joints=joints,
        hardware=(HardwareUse(id="b", use="buckle_20mm", part="p"),),
        forms=(
            Form(id="f", kind=FormKind.DISH, parts=("p",), route=Route.HARDENED, hardening="fire"),
        ),
    )
    assert found["unknown-glue"].remedy == "Perhaps 'white_glue'?"
    assert found["unknown-thread"].remedy == "Perhaps 'waxed_linen_thread'?"
    assert "leather_lace_" in found["unknown-lace"].remedy
    assert found["unknown-hardware"].remedy == "Perhaps 'buckle_20'?"
    assert "hot_water_hardening" in found["unknown-hardener"].remedy
    assert {f.severity for f in found.values()} == {Severity.ERROR}


def test_what_is_on_the_shelf_or_left_open_has_nothing_to_tell():
    joints = tuple(
        Joint(id=f"{kind}{name}", kind=kind, layers=("p", "p"), fastener=name)
        for kind, name in (
            (JointKind.GLUE, "contact_cement"),
            (JointKind.GLUE, ""),
            (JointKind.STITCH, "waxed_polyester_thread"),
            (JointKind.LACE, "leather_lace_3"),
            (JointKind.LACE, ""),
        )
    )
    hardware = (HardwareUse(id="b", use="d_ring_20", part="p"),)
    assert _codes(joints=joints, hardware=hardware) == {}


def test_a_dip_that_cannot_be_reckoned_is_a_note():
    dip = Treatment(id="oil", use="light_oil", parts=("p",), applying=Applying.DIP)
    found = _codes(treatments=(dip,))["dip-without-figures"]
    assert found.severity is Severity.NOTE
    assert "dip_ml_per_dm2 under [light_oil]" in found.remedy
    assert _codes(treatments=(replace(dip, use="alcohol_dye"),)) == {}
    assert _codes(treatments=(replace(dip, applying=Applying.WIPE),)) == {}


def test_an_empty_shelf_says_that_it_holds_nothing():
    sketch = replace(
        pattern(part("p", box(60, 60), {})),
        hardware=(HardwareUse(id="b", use="ring", part="p"),),
    )
    (found,) = stock_findings(sketch, shelf())
    assert found.remedy == "The shelf holds: nothing."


def test_where_an_option_dips_everything_the_remedy_names_it():
    """What the choice says goes over what stands at the treatment."""
    dip = Treatment(id="oil", use="light_oil", parts=("p",), applying=Applying.DIP)
    choices = (Choice(id="dipped", name="dipped", applying=Applying.DIP),)
    option = Option(id="bath", name="bath", choices=choices, chosen="dipped")
    remedy = _codes(treatments=(dip,), options=(option,))["dip-without-figures"].remedy
    assert remedy.startswith("Choose otherwise in option 'bath', which dips everything, or")
    assert "applying" not in remedy
