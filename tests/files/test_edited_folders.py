"""Load, edit, save, load: every comment stays, and of the bytes only those of the edit change."""

import shutil
import tomllib
from pathlib import Path

import pytest

from armorplan.app.draft import Bench, Draft, drafted
from armorplan.files.catalogue import read_shelf
from armorplan.files.saving import saved, text_hash
from armorplan.files.source import PATTERN_FILE, read_folder
from armorplan.files.toml_lines import text_spans
from armorplan.files.toml_patch import patched
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.shop import one_maker

TESTS = Path(__file__).parents[1]
FOLDERS = [
    *(path.parent for path in sorted((TESTS / "patterns").rglob(PATTERN_FILE))),
    *(path.parent for path in sorted((TESTS / "golden_patterns").rglob(PATTERN_FILE))),
    *(path.parent for path in sorted(samples_folder().rglob(PATTERN_FILE))),
]
BENCH = Bench(shelf=read_shelf(), shop=one_maker("UTC"))
EVERY, MOST = 9, 6
"""Each reading takes a while: one in so many values is edited through the folder, or so many."""
FEW = 2
"""A draft is derived too, which takes longer: about so many of its texts are edited."""


def leaves(data, path=()):
    for key, value in data.items():
        if isinstance(value, dict):
            yield from leaves(value, (*path, key))
        else:
            yield (*path, key), value


def other(value):
    """Return a value that the file can hold in place of another, of the same type."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, str):
        return f"{value} too"
    if isinstance(value, int | float):
        return value + 1
    return [*value, *value[-1:]]


def span_of(text, path):
    (pair,) = [p for p in text_spans(text).pairs if p.path == path]
    return pair


def copy_of(folder, tmp_path):
    return Path(shutil.copytree(folder, tmp_path / folder.name))


def comments(text):
    return [line for line in text.splitlines() if line.lstrip().startswith("#")]


def check_only_changed(before, after, path, value):
    """Check that the text is the same but for the line or lines of one key, from end to end."""
    start = next(i for i, (a, b) in enumerate(zip(before, after, strict=False)) if a != b)
    tail = next(
        i
        for i, (a, b) in enumerate(zip(reversed(before), reversed(after), strict=False))
        if a != b
    )
    pair = span_of(before.decode("utf-8"), path)
    text = before.decode("utf-8")
    low = len(text[: pair.start].encode("utf-8"))
    high = len(text[: pair.end].encode("utf-8"))
    assert low <= start
    assert len(before) - tail <= high
    expected = tomllib.loads(text)
    inner = expected
    for key in path[:-1]:
        inner = inner[key]
    inner[path[-1]] = value
    assert tomllib.loads(after.decode("utf-8")) == expected
    assert comments(text) == comments(after.decode("utf-8"))


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_a_value_saved_to_the_folder_changes_its_own_bytes_only(folder, tmp_path):
    found = values_of(folder)
    check_saved(folder, tmp_path, found[:: max(EVERY, len(found) // MOST)])


@pytest.mark.long
@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_each_of_many_values_saved_changes_its_own_bytes_only(folder, tmp_path):
    check_saved(folder, tmp_path, values_of(folder)[::EVERY])


def values_of(folder):
    return list(leaves(tomllib.loads((folder / PATTERN_FILE).read_text(encoding="utf-8"))))


def check_saved(folder, tmp_path, found):
    home = copy_of(folder, tmp_path)
    drawings = {p.name: p.read_bytes() for p in home.glob("*.svg")}
    assert len(found) > 1
    for path, value in found:
        before = (home / PATTERN_FILE).read_bytes()
        text = dict(read_folder(home).as_texts())[PATTERN_FILE]
        edited = patched(text, path, other(value))
        assert saved(home, PATTERN_FILE, edited, expected_hash=text_hash(text), closing="") is None
        after = (home / PATTERN_FILE).read_bytes()
        check_only_changed(before, after, path, other(value))
        # And back again: not one byte is left of it.
        assert patched(edited, path, value) == text
        (home / PATTERN_FILE).write_bytes(before)
    assert {p.name: p.read_bytes() for p in home.glob("*.svg")} == drawings


EDITS = {
    "name": lambda text: f"{text}, the second",
    "notes": lambda text: f"{text} Once more.",
}


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_edits_of_a_draft_come_back_from_the_folder(folder, tmp_path):
    home = copy_of(folder, tmp_path)
    first = drafted(read_folder(home), BENCH)
    paths = [(p, v) for p, v in leaves(first.values) if p[-1] in EDITS and isinstance(v, str)]
    assert paths
    for path, value in paths[:: max(1, len(paths) // FEW)]:
        before = (home / PATTERN_FILE).read_bytes()
        made = first.put((path, EDITS[path[-1]](value)))
        assert isinstance(made, Draft)
        done = saved(
            home, PATTERN_FILE, made.text, expected_hash=text_hash(first.text), closing=""
        )
        assert done is None
        check_only_changed(
            before, (home / PATTERN_FILE).read_bytes(), path, EDITS[path[-1]](value)
        )
        again = drafted(read_folder(home), BENCH)
        assert again.is_sound
        assert again.text == made.text
        (home / PATTERN_FILE).write_bytes(before)
