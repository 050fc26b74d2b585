"""What a build keeps for ever, as JSON text: the shelf's constants and the derived relations."""

import json
from datetime import time
from functools import cache
from typing import Any

from cattrs import Converter

from armorplan.relations.model import Relation
from armorplan.workshop.shelf import Shelf


@cache
def _converter() -> Converter:
    converter = Converter(forbid_extra_keys=False)
    converter.register_unstructure_hook(frozenset, sorted)
    converter.register_unstructure_hook(time, time.isoformat)
    return converter


def plain(value: Any) -> Any:
    """Return a frozen value as plain dicts and lists, sets sorted."""
    return _converter().unstructure(value)


def shelf_text(shelf: Shelf) -> str:
    """Return the shelf as JSON."""
    return json.dumps(plain(shelf), ensure_ascii=False)


def shelf_from(text: str) -> Shelf:
    """Return the shelf a build was started with."""
    return _converter().structure(json.loads(text), Shelf)


def relations_text(relations: tuple[Relation, ...]) -> str:
    """Return relations as JSON, in their order."""
    return json.dumps([plain(relation) for relation in relations], ensure_ascii=False)


def relations_from(text: str) -> tuple[Relation, ...]:
    """Return the relations a build was started with."""
    return _converter().structure(json.loads(text), tuple[Relation, ...])
