"""Straps against buckles, slots, girths and the order of their holes."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import box, part, pattern, rivet, shelf

from armorplan.geometry.straps.sizes import strap_size_findings
from armorplan.geometry.straps.straps import strap_findings
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Form, FormKind, Route, Thread
from armorplan.pattern.parts import PartKind, Slot
from armorplan.pattern.wearing import HardwareUse, StrapPlace
from armorplan.workshop.shelf import HardwareEntry

ENTRIES = tuple(
    HardwareEntry(id=kind, name=f"{kind} 20", kind=kind, strap_mm=20.0, source="example")
    for kind in ("buckle", "ring", "stud")
)
SHELF = replace(shelf(), hardware=ENTRIES)


def _slot(part_id, length_mm=14.0, at=(43.0, 8.0)):
    ring = box(length_mm, 3.0, at)
    return Slot(
        id=f"{part_id}_slot", part=part_id, outline=ring, length_mm=length_mm, width_mm=3.0
    )


def _tab(width_mm=20.0, *, slots=True, outline=None):
    holes = {"top": (90.0, width_mm / 2), "under": (10.0, width_mm / 2)}
    return part(
        "tab",
        outline or box(100.0, width_mm),
        holes,
        kind=PartKind.STRAP,
        slots=(_slot("tab"),) if slots else (),
    )


def _strap(width_mm=20.0):
    holes = {f"t{n}": (150.0 - 12 * n, width_mm / 2) for n in range(5)} | {"end": (10.0, 8.0)}
    return part("strap", box(180.0, width_mm), holes, kind=PartKind.STRAP)


def _sketch(*parts, use="buckle", place=None, **more):
    hardware = (HardwareUse(id="it", use=use, part="tab", held_by=("fold",)),)
    joints = (rivet("fold", "top", "under"),)
    sketch = pattern(*parts, joints=joints)
    return replace(sketch, hardware=hardware, strap_places=(place,) if place else (), **more)


def _codes(sketch):
    return [f.code for f in strap_size_findings(sketch, SHELF)]


def _place(holes=("t0", "t1", "t2", "t3", "t4"), girth_mm=(360.0, 400.0)):
    return StrapPlace(
        id="below",
        name="below the knee",
        strap="strap",
        meets="tab",
        girth_mm=girth_mm,
        holes=holes,
    )


@pytest.mark.parametrize(
    ("width_mm", "codes"),
    [(20.0, []), (20.4, []), (24.0, ["strap-too-wide"]), (15.0, []), (14.0, ["strap-narrow"])],
)
def test_a_strap_fits_the_bar_it_is_folded_round(width_mm, codes):
    assert _codes(_sketch(_tab(width_mm))) == codes


def test_how_far_a_strap_is_too_wide_is_told():
    (found,) = strap_size_findings(_sketch(_tab(24.0)), SHELF)
    assert found.severity is Severity.WARNING
    assert found.text == (
        "tab is 24.0 mm wide where buckle 20 ('it') sits, but it takes straps of 20 mm at most: "
        "4.0 mm too wide."
    )


def test_the_width_counts_where_the_fold_is():
    """A tab 30 mm wide that is drawn in to 20 mm at its fold."""
    waisted = (
        (0, 0), (30, 0), (40, 5), (60, 5), (70, 0), (100, 0),
        (100, 30), (70, 30), (60, 25), (40, 25), (30, 30), (0, 30),
    )  # fmt: skip
    tab = _tab(30.0, outline=tuple((float(x), float(y)) for x, y in waisted))
    assert _codes(_sketch(tab)) == []
    fold = Form(
        id="fold", kind=FormKind.FOLD, parts=("tab",), route=Route.DRY, axis=((15, 0), (15, 30))
    )
    assert _codes(_sketch(tab, forms=(fold,))) == ["strap-too-wide"]


def test_the_strap_that_closes_on_a_buckle_or_stud_has_to_fit_it_too():
    assert _codes(_sketch(_tab(), _strap(), place=_place())) == []
    assert _codes(_sketch(_tab(), _strap(24.0), place=_place())) == ["strap-too-wide"]
    on_stud = _sketch(_tab(24.0), _strap(12.0), use="stud", place=_place())
    assert _codes(on_stud) == []
    assert _codes(_sketch(_tab(), _strap(24.0), use="stud", place=_place())) == ["strap-too-wide"]


def test_a_buckle_s_tongue_needs_a_slot():
    (found,) = strap_size_findings(_sketch(_tab(slots=False)), SHELF)
    assert (found.code, found.severity) == ("no-slot-for-tongue", Severity.NOTE)
    assert _codes(_sketch(_tab(slots=False), use="ring")) == []


def test_a_hole_of_its_own_serves_the_tongue_too():
    tab = _tab(slots=False)
    spare = replace(tab.holes[0], id="spare", centre=(50.0, 10.0))
    assert _codes(_sketch(replace(tab, holes=(*tab.holes, spare)))) == []


@pytest.mark.parametrize(("length_mm", "codes"), [(22.0, []), (14.0, ["strap-too-wide-for-slot"])])
def test_a_strap_goes_through_a_slot_as_long_as_it_is_wide(length_mm, codes):
    plate = part("plate", box(90, 90), {}, slots=(_slot("plate", length_mm, (20, 40)),))
    thread = Thread(id="through", part="strap", through=("plate_slot",))
    sketch = replace(pattern(_strap(), plate), threads=(thread,))
    found = list(strap_size_findings(sketch, SHELF))
    assert [f.code for f in found] == codes
    assert all("14.0 mm long: 6.0 mm too short" in f.text for f in found)


@pytest.mark.parametrize(
    ("girth_mm", "told"),
    [
        ((36.0, 41.0), 1),
        ((14.2, 16.1), 1),
        ((3600.0, 4000.0), 1),
        ((150.0, 191.0), 0),
        ((302.0, 443.0), 0),
        ((1100.0, 1400.0), 0),
    ],
)
def test_girths_that_no_wearer_has(girth_mm, told):
    """ANSUR II (2012): wrists from 142 mm (p5, women) to 191 mm (p95, men), necks 302 to 443 mm."""
    sketch = _sketch(_tab(), _strap(), place=_place(holes=(), girth_mm=girth_mm))
    found = [f for f in strap_findings(sketch, SHELF) if f.code == "strange-girth"]
    assert len(found) == told
    assert all("in cm or inches?" in f.text for f in found)


@pytest.mark.parametrize("reverse", [False, True])
def test_holes_are_listed_from_the_tip(reverse):
    holes = ("t0", "t1", "t2", "t3", "t4")
    place = _place(holes[::-1] if reverse else holes)
    sketch = _sketch(_tab(), _strap(), place=place)
    found = {f.code for f in strap_findings(sketch, SHELF)}
    assert "holes-tip-last" not in found, "nothing says where the strap is fixed"
    plate = part("plate", box(90, 90), {"p": (45.0, 45.0)})
    held = replace(sketch, parts=(*sketch.parts, plate))
    held = replace(held, joints=(*held.joints, rivet("held", "end", "p")))
    assert ("holes-tip-last" in {f.code for f in strap_findings(held, SHELF)}) is reverse
