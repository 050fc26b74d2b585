"""A drawing in the wrong unit is told once, before all that follows from it."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import box, part, pattern, rivet, shelf

from armorplan.geometry.checking import shape_findings
from armorplan.geometry.scale import scale_finding
from armorplan.kernel.findings import Severity


def _sketch(scale=1.0):
    spots = {f"h{n}": (20.0 + 40 * n, 20.0) for n in range(5)}
    front, back = (
        part(name, box(310, 80), {f"{name}_{h}": at for h, at in spots.items()}, diameter_mm=4.0)
        for name in ("front", "back")
    )
    joints = tuple(rivet(f"j{h}", f"front_{h}", f"back_{h}") for h in spots)
    return _scaled(pattern(front, back, joints=joints), scale)


def _scaled(sketch, scale):
    def by(spot):
        return spot[0] * scale, spot[1] * scale

    parts = tuple(
        replace(
            each,
            outline=tuple(map(by, each.outline)),
            holes=tuple(
                replace(h, centre=by(h.centre), diameter_mm=h.diameter_mm * scale)
                for h in each.holes
            ),
        )
        for each in sketch.parts
    )
    return replace(sketch, parts=parts)


@pytest.mark.parametrize(
    ("scale", "words"),
    [
        (0.1, "very small: the largest part is 31 mm long, holes 0.4 mm: is the drawing's width in cm"),
        (1 / 25.4, "very small"),
        (25.4 / 96, "very small"),
        (10.0, "very large: the largest part is 3100 mm long, holes 40.0 mm"),
        (96 / 25.4, "very large"),
    ],
)  # fmt: skip
def test_a_wrong_unit_is_told_first_and_the_holes_are_not(scale, words):
    """A tenth, inches for mm, and pixels of 1/96 in (CSS's px) for mm or the other way."""
    first, *others = shape_findings(_sketch(scale), shelf())
    assert (first.code, first.severity) == ("drawing-scale", Severity.WARNING)
    assert words in first.text
    assert not {f.code for f in others} & {"hole-near-edge", "holes-too-close", "hole-wrong-size"}


@pytest.mark.parametrize("scale", [0.5, 1.0, 2.0])
def test_armour_small_and_large_has_a_scale_of_its_own(scale):
    assert scale_finding(_sketch(scale)) is None


def test_without_holes_nothing_is_told():
    assert scale_finding(pattern(part("p", box(20, 10), {}))) is None
