"""What a build keeps for ever, as JSON text: the shelf's constants and the derived relations."""

import json
from functools import cache
from typing import Any, TypeVar

from cattrs.errors import BaseValidationError
from cattrs.preconf.json import JsonConverter, make_converter

from armorplan.kernel.errors import WorkshopError
from armorplan.relations.model import AfterAny, Apart, Before, BeforeAll, Relation, Together
from armorplan.workshop.shelf import Shelf

_T = TypeVar("_T")

UNFIT = (ValueError, TypeError, LookupError, AttributeError, BaseValidationError)
"""What reading a text of another form can raise."""


@cache
def json_converter() -> JsonConverter:
    """Return the one converter between frozen values and what JSON can hold, sets sorted."""
    converter = make_converter()
    converter.register_unstructure_hook_func(_is_frozenset, sorted)
    converter.register_structure_hook(Relation, lambda told, _: _relation(converter, told))
    return converter


def _relation(converter: JsonConverter, told: dict[str, Any]) -> Relation:
    """Tell the relations apart by the steps they name: each kind has keys of its own."""
    kinds: dict[frozenset[str], type[Any]] = {
        frozenset(("first", "then")): Before,
        frozenset(("first", "of")): BeforeAll,
        frozenset(("then", "of")): AfterAny,
        frozenset(("of",)): Together,
        frozenset(("of", "on")): Apart,
    }
    kind = kinds[frozenset(told) & {"first", "then", "of", "on"}]
    found: Relation = converter.structure(told, kind)
    return found


def _is_frozenset(kind: Any) -> bool:
    return getattr(kind, "__origin__", kind) is frozenset


def plain(value: Any) -> Any:
    """Return a frozen value as plain dicts and lists, sets sorted."""
    return json_converter().unstructure(value)


def shelf_text(shelf: Shelf) -> str:
    """Return the shelf as JSON."""
    return json.dumps(plain(shelf), ensure_ascii=False)


def shelf_from(text: str) -> Shelf:
    """Return the shelf a build was started with.

    Raises:
        WorkshopError: the text is damaged or of another form.
    """
    return _kept(text, Shelf, "catalogues")


def relations_text(relations: tuple[Relation, ...]) -> str:
    """Return relations as JSON, in their order."""
    return json.dumps([plain(relation) for relation in relations], ensure_ascii=False)


def relations_from(text: str) -> tuple[Relation, ...]:
    """Return the relations a build was started with.

    Raises:
        WorkshopError: the text is damaged or of another form.
    """
    found: tuple[Relation, ...] = _kept(text, tuple[Relation, ...], "relations")
    return found


def _kept(text: str, kind: type[_T], what: str) -> _T:
    try:
        return json_converter().structure(json.loads(text), kind)
    except UNFIT as error:
        message = (
            f"The {what} kept with this build cannot be read: they are damaged, or of another "
            f"form ({error}). Nothing was changed. Bring back a backup of the workshop file, or "
            "choose another file."
        )
        raise WorkshopError(message) from error
