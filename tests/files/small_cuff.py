"""A small sound pattern, the lantern watch's cuff, and ways to spoil it."""

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import ReadPattern, read_pattern
from armorplan.files.source import PATTERN_FILE, from_texts
from armorplan.kernel.findings import Finding

SHELF = read_shelf()
OPEN_SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
    'width="200mm" height="100mm" viewBox="0 0 200 100">'
)
CUFF_TOML = """\
format = 1

[pattern]
uuid = "0b9f2f36-5d0a-4d0e-9a63-3f4f5c1e7a10"
name = "Cuff of the lantern watch"
version = 2
drawings = ["cuff.svg"]
notes = "Tied over a padded sleeve."

[pieces.cuff]
name = "Cuff"
mirrored = true

[materials.plate_leather]
leather = "cop_and_lame"
thickness_mm = 3.2

[materials.strap_leather]
leather = "strap"
weight_oz = 8

[parts.plate]
name = "cuff plate"
piece = "cuff"
kind = "plate"
material = "plate_leather"
tooling = "waves"
hides = ["end_bottom"]

[parts.strap]
name = "closing strap"
piece = "cuff"
kind = "strap"
material = "strap_leather"
outline = "strap_shape"
grain = "in"
up_deg = 0
bevelled = false

[parts.loop]
name = "keeper loop"
piece = "cuff"
kind = "keeper"
material = "strap_leather"

[holes.spare]
part = "plate"

[joints.end_top]
kind = "rivet"
stack = ["strap_1", "plate_1"]
fastener = "double_cap_9"

[joints.end_bottom]
kind = "screw"
stack = ["strap_2", "plate_2"]
fastener = "screw_post_turning"
turning = true
placed_on_wearer = true

[joints.loop_shut]
kind = "stitch"
stack = ["loop_1", "loop_2"]

[seams.end]
name = "strap end"
joints = ["end_top", "end_bottom"]

[threads.tail]
part = "strap"
through = ["slit", "loop"]
closed_by = ["end_top"]

[forms.round]
kind = "bend"
parts = ["plate"]
route = "damp"
radius_mm = 45
angle_deg = 200

[forms.shut]
kind = "closure"
parts = ["plate", "strap"]
route = "by_seam"
seams = ["end"]

[treatments.brown]
use = "alcohol_dye"
pieces = ["cuff"]
colour = "harbour brown"
coats = 2

[treatments.seal]
use = "acrylic_finish"
parts = ["plate"]
"""
CUFF_SVG = (
    OPEN_SVG
    + """
<rect id="plate" x="10" y="10" width="100" height="60"/>
<circle id="plate_1" cx="20" cy="20" r="1.75"/>
<circle id="plate_2" cx="20" cy="60" r="1.75"/>
<circle id="spare" cx="100" cy="60" r="1.75"/>
<rect id="slit" x="90" y="30" width="4" height="22"/>
<path id="strap_shape" d="M 120 10 H 190 V 30 H 120 Z"/>
<circle id="strap_1" cx="130" cy="20" r="1.75"/>
<circle id="strap_2" cx="140" cy="20" r="1.75"/>
<polygon id="loop" points="120,50 180,50 180,62 120,62"/>
<circle id="loop_1" cx="125" cy="56" r="1"/>
<circle id="loop_2" cx="175" cy="56" r="1"/>
</svg>
"""
)


def texts(toml: str = CUFF_TOML, svg: str = CUFF_SVG) -> dict[str, str]:
    return {PATTERN_FILE: toml, "cuff.svg": svg}


def read_texts(toml: str = CUFF_TOML, svg: str = CUFF_SVG, **more: str) -> ReadPattern:
    return read_pattern(from_texts("cuff", {**texts(toml, svg), **more}), SHELF)


def swapped(text: str, old: str, new: str) -> str:
    """Replace a passage that has to be there, so that a test cannot pass on an unchanged file."""
    assert old in text
    return text.replace(old, new, 1)


def with_toml(old: str, new: str) -> ReadPattern:
    return read_texts(toml=swapped(CUFF_TOML, old, new))


def with_svg(old: str, new: str) -> ReadPattern:
    return read_texts(svg=swapped(CUFF_SVG, old, new))


def only(found: ReadPattern, code: str) -> Finding:
    """Return the one finding there is, which has to be of this code."""
    assert [f.code for f in found.findings] == [code], found.findings
    return found.findings[0]


def line_of(text: str, passage: str) -> int:
    return text[: text.index(passage)].count("\n") + 1
