"""Ways to spoil the pattern that uses every word of the format."""

from files.golden import GOLDEN
from files.small_cuff import SHELF, swapped

from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import PATTERN_FILE, from_texts, read_folder
from armorplan.kernel.findings import Severity

TEXTS = read_folder(GOLDEN / "every_word").as_texts()
TOML, SVG = TEXTS[PATTERN_FILE], TEXTS["leg.svg"]


def read_leg(toml=TOML, svg=SVG):
    return read_pattern(from_texts("leg", {PATTERN_FILE: toml, "leg.svg": svg}), SHELF)


def with_words(*changes):
    """Read the pattern with passages swapped, each an (old, new)."""
    toml = TOML
    for old, new in changes:
        toml = swapped(toml, old, new)
    return read_leg(toml)


def errors(found):
    return [f for f in found.findings if f.severity is Severity.ERROR]


def warnings(found):
    return [f for f in found.findings if f.severity is Severity.WARNING]
