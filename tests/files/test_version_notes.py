"""What a pattern notes of its versions: read, and told where it cannot be."""

import pytest
from files.every_word import TOML, errors, read_leg

NOTE = """[versions.v2]
version = 2
note = "The trim meets."
from_builds = ["knee-1", "knee-2"]
on = "2026-11-29"
changed = ["Two holes lie 1.5 mm lower."]
"""


def test_a_note_is_read_as_it_is_written():
    note = read_leg(f"{TOML}\n{NOTE}").pattern.versions[-1]
    assert (note.id, note.version, note.on) == ("v2", 2, "2026-11-29")
    assert note.from_builds == ("knee-1", "knee-2")
    assert note.changed == ("Two holes lie 1.5 mm lower.",)


@pytest.mark.parametrize(
    ("old", "new", "code", "words"),
    [
        ("version = 2", "version = 9", "wrong-value", "3 at most"),
        ("version = 2", "version = 1", "version-noted-twice", "both speak of version 1"),
        ('"2026-11-29"', '"29.11.2026"', "wrong-value", "2026-11-29"),
        ('"2026-11-29"', '"2026-02-30"', "wrong-value", "2026-11-29"),
    ],
)
def test_what_cannot_be_is_told(old, new, code, words):
    (fault,) = errors(read_leg(f"{TOML}\n{NOTE.replace(old, new)}"))
    assert fault.code == code
    assert words in f"{fault.text} {fault.remedy}"
