"""The keys of the pattern format, as paths with ``*`` for ids: from the schema and from data."""

import json

from armorplan.kernel.shipped import resources_folder

FREE = frozenset({"times"})
"""Tables whose keys are no words of the format but kinds of step."""
TABLES_OF_TABLES = 2


def schema():
    file = resources_folder() / "schemas" / "pattern.schema.json"
    return json.loads(file.read_text(encoding="utf-8"))


def schema_keys():
    """Return every key the schema knows, as (path of its table, key)."""
    return frozenset(_of_schema(schema(), ()))


def _of_schema(node, path):
    for key, inner in node.get("properties", {}).items():
        yield path, key
        yield from _of_schema(inner, (*path, key))
    rows = node.get("additionalProperties")
    if isinstance(rows, dict) and "properties" in rows:
        yield from _of_schema(rows, (*path, "*"))


def keys_of(written):
    """Return every key that parsed TOML holds, as (path of its table, key)."""
    return frozenset(_of_data(written, ()))


def _of_data(table, path):
    for key, value in table.items():
        yield path, key
        if key in FREE or not isinstance(value, dict):
            continue
        inner = (*path, key)
        if all(isinstance(row, dict) for row in value.values()) and value:
            for row in value.values():
                yield from _of_data(row, (*inner, "*"))
        else:
            yield from _of_data(value, inner)


def starred(path):
    """Return the path of a table with its ids written as ``*``; ids stand at every second place."""
    return tuple("*" if place % TABLES_OF_TABLES else key for place, key in enumerate(path))
