"""A drawing in the wrong unit is told once, before all that follows from it."""

from dataclasses import replace
from itertools import product
from pathlib import Path

import pytest
from geometry.leather_sketches import box, part, pattern, rivet, shelf

from armorplan import geometry
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.checking import BY_SIZE, shape_findings
from armorplan.geometry.scale import scale_finding
from armorplan.kernel.findings import Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.choosing import settled

SHELF = read_shelf()


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


SCALES = (0.1, 1 / 25.4, 25.4 / 96, 96 / 25.4, 10.0)
SAMPLES = ("arm_harness", "collar", "elbow_cop", "three_lames")
DEAR = {("collar", 10.0), ("elbow_cop", 10.0), ("collar", 96 / 25.4)}
"""So large a sheet of these takes many seconds."""


@pytest.mark.parametrize(
    ("sample", "scale"),
    [
        pytest.param(*each, marks=pytest.mark.long if each in DEAR else ())
        for each in product(SAMPLES, SCALES)
    ],
)
def test_a_sample_in_the_wrong_unit_is_told_of_nothing_else(sample, scale):
    found = read_pattern(read_folder(samples_folder() / sample), SHELF)
    (told,) = shape_findings(_scaled(settled(found.pattern), scale), SHELF)
    assert told.code == "drawing-scale"


def test_every_code_that_follows_from_size_is_told_somewhere():
    files = sorted(Path(geometry.__file__).parent.rglob("*.py"))
    told = "".join(file.read_text("utf-8") for file in files if file.stem != "checking")
    assert [code for code in sorted(BY_SIZE) if f'"{code}"' not in told] == []
