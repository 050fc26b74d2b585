"""What joins a part made once with one made left and right is refused, with its line."""

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import from_texts

DRAWING = """<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100">
<path id="plate" d="M 0,0 H 80 V 80 H 0 Z"/><circle id="p" cx="20" cy="20" r="2"/>
<path id="slot" d="M 40,30 H 44 V 60 H 40 Z"/>
<path id="wing" d="M 100,0 H 180 V 80 H 100 Z"/><circle id="w" cx="120" cy="20" r="2"/>
</svg>"""
PATTERN = """format = 1
[pattern]
uuid = "6c1f0d8e-2f6a-4a3e-9d52-0c8f1f3f7a11"
name = "Gorget wing"
version = 1
drawings = ["d.svg"]
[pieces.neck]
name = "Neck"
[pieces.wings]
name = "Wings"
mirrored = true
[materials.m]
leather = "cop_and_lame"
weight_oz = 9
[parts.plate]
name = "plate"
piece = "neck"
kind = "plate"
material = "m"
[parts.wing]
name = "wing"
piece = "wings"
kind = "strap"
material = "m"
"""
JOINT = '[joints.r]\nkind = "rivet"\nstack = ["w", "p"]\nfastener = "tubular_9"\n'
THREAD = '[threads.t]\npart = "wing"\nthrough = ["slot"]\n'
FORM = '[forms.f]\nkind = "bend"\nparts = ["plate", "wing"]\nroute = "dry"\n'


def found(extra: str):
    files = from_texts("neck", {"pattern.toml": PATTERN + extra, "d.svg": DRAWING})
    return read_pattern(files, read_shelf())


@pytest.mark.parametrize(
    ("extra", "key"), [(JOINT, "joints.r"), (THREAD, "threads.t"), (FORM, "forms.f")]
)
def test_a_mix_of_both_is_refused(extra, key):
    read = found(extra)
    assert read.pattern is None
    (fault,) = (f for f in read.findings if f.code == "single-to-pair")
    assert fault.place is not None
    assert fault.place.key == key
    assert fault.place.line is not None
    assert "'plate'" in fault.text
    assert "'wing'" in fault.text


def test_apart_they_are_fine():
    assert found("").pattern is not None
