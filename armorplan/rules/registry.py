"""Finds every rule in ``trade`` and derives a build's relations with all of them."""

from dataclasses import dataclass
from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from armorplan.assembly.model import Assembly
from armorplan.kernel.findings import Finding
from armorplan.relations.model import Relation
from armorplan.rules import trade
from armorplan.rules.facts import Facts
from armorplan.rules.model import Rule
from armorplan.rules.overruling import overruled
from armorplan.rules.own import own_relations
from armorplan.rules.wet_glue import waits_for_glue
from armorplan.rules.wet_punch import waits_to_be_punched
from armorplan.steps.deriving import lining_findings
from armorplan.steps.model import Work
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Shelf


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Derivation:
    """What the rules and the maker say of one build, and what is wrong with the maker's part."""

    relations: tuple[Relation, ...]
    findings: tuple[Finding, ...]


def derive_all(
    assembly: Assembly,
    work: Work,
    shelf: Shelf,
    room: Room | None = None,
    *,
    learned: tuple[Relation, ...] = (),
) -> Derivation:
    """Return all relations of a build: those of each rule by its code, then the maker's own.

    What the maker sets aside stays among them, marked as overruled. ``learned`` are what trying
    orders taught beside them.
    """
    facts = Facts(assembly=assembly, work=work, shelf=shelf, room=room or Room())
    ruled = (*(relation for rule in all_rules() for relation in rule.derive(facts)), *learned)
    own, own_findings = own_relations(facts)
    kept, _ = overruled((*ruled, *own), facts)
    waiting = (*waits_for_glue(kept, facts), *waits_to_be_punched(kept, facts))
    relations, findings = overruled((*ruled, *waiting, *own), facts)
    notes = lining_findings(assembly, shelf)
    return Derivation(relations=relations, findings=(*own_findings, *findings, *notes))
