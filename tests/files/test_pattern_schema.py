"""The shipped schema, the reader and the format reference know the same words."""

import tomllib
from pathlib import Path

import pytest
from files.golden import GOLDEN, NAMES
from files.pattern_keys import TABLES_OF_TABLES, schema, schema_keys, starred
from jsonschema import Draft202012Validator

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.files.tables import Table
from armorplan.kernel.shipped import resources_folder, samples_folder
from armorplan.pattern.joining import Applying, FormKind, JointKind, Motion, Route
from armorplan.pattern.parts import MadeOn, PartKind
from armorplan.pattern.wearing import CheckTime
from armorplan.relations.model import Force
from armorplan.steps.model import StepKind

FOLDERS = [GOLDEN / name for name in NAMES] + sorted(
    path.parent for path in samples_folder().glob("*/pattern.toml")
)
VALIDATOR = Draft202012Validator(schema())


def data(folder: Path):
    return tomllib.loads((folder / "pattern.toml").read_text(encoding="utf-8"))


def test_the_schema_is_one():
    Draft202012Validator.check_schema(schema())


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_patterns_hold_to_the_schema(folder):
    assert [e.message for e in VALIDATOR.iter_errors(data(folder))] == []


@pytest.mark.parametrize(
    ("path", "values"),
    [
        (("materials", "plate_leather"), {"weight_oz": 10}),
        (("joints", "strap_fix"), {"layers": ["belt", "cop"]}),
        (("treatments", "colour"), {"pieces": ["hip"]}),
        (("relations", "one_block"), {"first": "cut/cop", "then": "cut/boss"}),
        (("relations", "one_block"), {"apart": ["cop"]}),
        (("forms", "cop_shut"), {"seams": []}),
        (("parts", "cop"), {"tootling": "waves"}),
        (("parts",), {"a b": {}}),
        (("options", "cutting", "choices", "by_machine", "times"), {"cutt": 2}),
        (("own_steps", "gild_waves"), {"minutes": 1.5}),
        ((), {"format": 2}),
    ],
    ids=lambda value: ".".join(map(str, value)),
)
def test_what_is_wrong_fails_the_schema(path, values):
    written = data(GOLDEN / "every_word")
    table = written
    for key in path:
        table = table[key]
    table.update(values)
    assert [e.message for e in VALIDATOR.iter_errors(written)] != []


def test_the_reader_asks_for_the_keys_of_the_schema(monkeypatch):
    shelf = read_shelf()
    asked = set()
    raw = Table.raw

    def spy(table, key):
        asked.add((table._path, key))
        return raw(table, key)

    monkeypatch.setattr(Table, "raw", spy)
    for name in NAMES:
        read_pattern(read_folder(GOLDEN / name), shelf)
    # A table of rows is asked for its ids, and one of factors for kinds of step: no words of the
    # format. Both stand at an odd depth.
    words = {
        (starred(path), key)
        for path, key in asked
        if len(path) % TABLES_OF_TABLES == 0 or path in {(one,) for one in SINGLE}
    }
    assert words == schema_keys()


@pytest.mark.parametrize(
    ("table", "key", "kinds"),
    [
        ("parts", "kind", PartKind),
        ("joints", "kind", JointKind),
        ("joints", "motion", Motion),
        ("forms", "kind", FormKind),
        ("forms", "route", Route),
        ("treatments", "applying", Applying),
        ("fit_checks", "when", CheckTime),
        ("relations", "force", Force),
    ],
)
def test_fixed_words_are_those_of_the_program(table, key, kinds):
    row = schema()["properties"][table]["additionalProperties"]
    assert row["properties"][key]["enum"] == [kind.value for kind in kinds]


def test_sides_and_kinds_of_step_are_those_of_the_program():
    whole = schema()
    assert whole["$defs"]["made_on"]["enum"] == [side.value for side in MadeOn]
    option = whole["properties"]["options"]["additionalProperties"]["properties"]
    times = option["choices"]["additionalProperties"]["properties"]["times"]
    assert times["propertyNames"]["enum"] == [kind.value for kind in StepKind]


def test_every_key_says_what_it_is():
    def lacking(node, path):
        for key, inner in node.get("properties", {}).items():
            words = inner.get("description") or _defined(inner).get("description")
            if not words:
                yield (*path, key)
            yield from lacking(inner, (*path, key))
        rows = node.get("additionalProperties")
        if isinstance(rows, dict):
            yield from lacking(rows, (*path, "*"))

    assert list(lacking(schema(), ())) == []


def _defined(node):
    return schema()["$defs"].get(node.get("$ref", "").rpartition("/")[2], {})


SINGLE = ("pattern", "fitted")
"""Tables of which a pattern has one, without ids."""
REFERENCE = (resources_folder() / "help" / "format.md").read_text(encoding="utf-8")


def _section(table):
    if not table:
        return REFERENCE.partition("\n## ")[0]
    name = table if table in SINGLE else f"{table}.ID"
    (section,) = (part for part in REFERENCE.split("\n## ") if f"`[{name}]`" in part[:80])
    return section


@pytest.mark.parametrize("table", [*sorted({path[0] for path, _ in schema_keys() if path}), ""])
def test_the_reference_describes_every_key(table):
    section = _section(table)
    keys = {key for path, key in schema_keys() if (path[0] if path else "") == table}
    if not table:
        keys = {"format"}
    missing = [
        key
        for key in keys
        if not any(line.startswith(f"| `{key}` |") for line in section.splitlines())
    ]
    # All choices of an option together are described where their table is.
    assert missing in ([], ["choices"])
    assert table != "options" or "`choices`" in section


def test_every_table_has_its_section():
    tables = [key for path, key in schema_keys() if not path and key != "format"]
    assert all(_section(table) for table in tables)
