"""Finds every rule in ``trade`` and derives a build's relations with all of them."""

from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from armorplan.assembly.model import Assembly
from armorplan.relations.model import Relation
from armorplan.rules import trade
from armorplan.rules.facts import Facts
from armorplan.rules.model import Rule
from armorplan.steps.model import Work
from armorplan.workshop.shelf import Shelf
from armorplan.workshop.shop import Climate


@cache
def all_rules() -> tuple[Rule, ...]:
    """Return the rules, one from each module that has a ``RULE``, in order of their codes."""
    modules = (
        import_module(f"{trade.__name__}.{found.name}") for found in iter_modules(trade.__path__)
    )
    rules: list[Rule] = [module.RULE for module in modules]
    return tuple(sorted(rules, key=lambda rule: rule.code))


def rule_named(code: str) -> Rule | None:
    """Return the rule with this code, or ``None``."""
    return next((rule for rule in all_rules() if rule.code == code), None)


def derive_relations(
    assembly: Assembly, work: Work, shelf: Shelf, climate: Climate | None = None
) -> tuple[Relation, ...]:
    """Return the relations that all rules find, by rule code and then in the rule's own order."""
    facts = Facts(assembly=assembly, work=work, shelf=shelf, climate=climate or Climate())
    return tuple(relation for rule in all_rules() for relation in rule.derive(facts))
