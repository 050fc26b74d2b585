"""Every number of the formats has a most: beyond it the reader says so, up to it all goes well."""

import copy
import tomllib

import pytest
import tomlkit
from files.every_word import SVG, TOML, errors, read_leg
from files.judged import judge, put
from files.pattern_keys import schema

from armorplan.files.catalogue import read_shelf
from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.shipped import resources_folder

WRITTEN = tomllib.loads(TOML)
SCHEMA = schema()
UNBOUND = {
    ("format",),
    ("pattern", "version"),
    ("fitted", "version"),
    ("versions", "v1", "version"),
}
"""A form of the file there is but one of; issues of a pattern are counted, never reckoned with."""


def _node(path):
    node = SCHEMA
    for key in path:
        node = (
            node["properties"].get(key) if "properties" in node else node["additionalProperties"]
        )
    return node


def _bounded(path):
    """Return the node that bounds the number, or the numbers of the list, at a path."""
    node = _node(path)
    node = SCHEMA["$defs"][node["$ref"].rpartition("/")[2]] if "$ref" in node else node
    value = _value(path)
    for one in node.get("oneOf", ()):
        if (one["type"] == "array") is isinstance(value, list):
            node = one
    while node.get("type") == "array":
        node = node["items"]
        node = SCHEMA["$defs"][node["$ref"].rpartition("/")[2]] if "$ref" in node else node
    return node


def _value(path):
    value = WRITTEN
    for key in path:
        value = value[key]
    return value


def _numbers(table, above=()):
    for key, value in table.items():
        inner = value
        while isinstance(inner, list) and inner:
            inner = inner[0]
        if isinstance(value, dict):
            yield from _numbers(value, (*above, key))
        elif isinstance(inner, int | float) and not isinstance(inner, bool):
            yield (*above, key)


PATHS = [path for path in _numbers(WRITTEN) if path not in UNBOUND]


def _with(path, number):
    whole = copy.deepcopy(WRITTEN)
    table = whole
    for key in path[:-1]:
        table = table[key]
    table[path[-1]] = _filled(table[path[-1]], number)
    return tomlkit.dumps(whole)


def _filled(value, number):
    """Put the number at the last place of a list, of lists too."""
    return [*value[:-1], _filled(value[-1], number)] if isinstance(value, list) else number


@pytest.mark.parametrize("path", PATHS, ids=".".join)
def test_a_number_without_end_is_told_once_with_its_most(path):
    bound = _bounded(path)
    wrong = 2**31 - 1 if bound["type"] == "integer" else 1e308
    (fault,) = errors(read_leg(_with(path, wrong)))
    assert fault.code == "wrong-value"
    assert fault.place.key.replace('"', "") == ".".join(path)
    assert f"{bound['maximum']:,}" in fault.remedy or "[[x, y], [x, y]]" in fault.remedy


@pytest.mark.parametrize("path", PATHS, ids=".".join)
def test_just_beyond_the_schema_s_most_is_refused(path):
    bound = _bounded(path)
    step = 1 if bound["type"] == "integer" else 0.001
    assert "wrong-value" in {
        f.code for f in errors(read_leg(_with(path, bound["maximum"] + step)))
    }
    told = errors(read_leg(_with(path, bound["maximum"])))
    assert "wrong-value" not in {f.code for f in told}


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("minutes = 20", "minutes = 10080"),
        ("wait_min = 60", "wait_min = 525600"),
        ("count = 4", "count = 1000"),
        ("length_mm = 10", "length_mm = 10000"),
        ("area_cm2 = 150", "area_cm2 = 10000"),
        ("washer_mm = 1.2", "washer_mm = 30"),
        ('"cut" = 0.5', '"cut" = 10'),
    ],
)
def test_the_greatest_is_built_taken_off_and_planned(tmp_path, old, new):
    assert old in TOML
    toml = TOML.replace(old, new)
    put(tmp_path / "p", {"pattern.toml": toml.encode(), "leg.svg": SVG.encode()})
    assert "wrong-value" not in judge(tmp_path / "p")


ENDLESS = "1e308"
CATALOGUES = sorted((resources_folder() / "catalogues").glob("*.toml"))


def _catalogue_numbers():
    for file in CATALOGUES:
        rows = tomllib.loads(file.read_text(encoding="utf-8"))
        keys = {}
        for entry, row in rows.items():
            for key in _numbers(row):
                keys.setdefault(key[0], (entry, row[key[0]]))
        for key, (entry, value) in keys.items():
            yield file.stem, entry, key, value
    prices = ("price_per_dm2", "price_per_ft2")
    yield from (("leathers", next(iter(_entries("leathers"))), key, 1.0) for key in prices)
    yield "fasteners", next(iter(_entries("fasteners"))), "price_each", 1.0
    yield "treatments", next(iter(_entries("treatments"))), "price_per_litre", 1.0


def _entries(name):
    file = resources_folder() / "catalogues" / f"{name}.toml"
    return tomllib.loads(file.read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    ("name", "entry", "key", "value"),
    [pytest.param(*each, id=f"{each[0]}.{each[2]}") for each in _catalogue_numbers()],
)
def test_no_number_of_a_catalogue_is_without_end(tmp_path, name, entry, key, value):
    last = f"[{value[0]}, {ENDLESS}]" if isinstance(value, list) else ENDLESS
    (tmp_path / f"{name}.toml").write_text(f"[{entry}]\n{key} = {last}\n", encoding="utf-8")
    with pytest.raises(UnreadableError) as caught:
        read_shelf(own=tmp_path)
    assert {(f.code, f.place.key) for f in caught.value.findings} >= {
        ("wrong-value", f"{entry}.{key}")
    }


@pytest.mark.parametrize("key", ["length_mm", "width_mm", "depth_mm"])
def test_no_tray_is_without_end(tmp_path, key):
    sides = {"length_mm": "900", "width_mm": "250", "depth_mm": "80", key: ENDLESS}
    text = (
        'zone = "UTC"\n[people.maker]\nname = "Maker"\nhours = []\n[trays.long]\nname = "Zinc"\n'
    )
    file = tmp_path / "shop.toml"
    file.write_text(text + "".join(f"{k} = {v}\n" for k, v in sides.items()), encoding="utf-8")
    with pytest.raises(UnreadableError, match="at most 10,000 mm"):
        read_shop_file(file)
