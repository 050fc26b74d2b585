"""Patterns written once open for ever, and mean what they meant."""

import json
import tomllib

import pytest
from files.golden import GOLDEN, NAMES, holds, plain
from files.pattern_keys import keys_of, schema_keys

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import from_texts, read_folder
from armorplan.kernel.findings import Severity

SHELF = read_shelf()


@pytest.fixture(scope="module", params=NAMES)
def golden(request):
    return request.param, read_pattern(read_folder(GOLDEN / request.param), SHELF)


def test_it_loads_without_a_fault(golden):
    _, found = golden
    told = [f.code for f in found.findings if f.severity is not Severity.NOTE]
    assert told == []
    assert {f.code for f in found.findings} <= {"correction-applied"}


def test_it_means_what_it_meant(golden):
    name, found = golden
    frozen = json.loads((GOLDEN / f"{name}.json").read_text(encoding="utf-8"))
    assert list(holds(frozen, plain(found.pattern))) == []


def test_what_has_changed_would_be_seen():
    frozen = {"parts": [{"id": "cop", "up_deg": 90.0}], "name": "x"}
    assert list(holds(frozen, {**frozen, "later": 1})) == []
    changed = {"parts": [{"id": "cop", "up_deg": 91.0}]}
    assert list(holds(frozen, changed)) == [
        "pattern.parts[0].up_deg: 90.0 was read, now 91.0",
        "pattern.name: 'x' was read, now 'not there'",
    ]


def test_every_word_of_the_format_occurs():
    written = tomllib.loads((GOLDEN / "every_word" / "pattern.toml").read_text(encoding="utf-8"))
    assert keys_of(written) == schema_keys()


@pytest.mark.parametrize("ends", ["\r\n", "\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_mark_change_nothing(ends, mark):
    source = read_folder(GOLDEN / "every_word")
    texts = {
        name: mark + text.replace("\r\n", "\n").replace("\n", ends)
        for name, text in source.as_texts().items()
    }
    found = read_pattern(from_texts("every_word", texts), SHELF)
    assert plain(found.pattern) == plain(read_pattern(source, SHELF).pattern)
