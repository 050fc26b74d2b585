"""Every rule's own examples are its tests, and what its help page prints."""

import pytest

from armorplan.relations.model import Before, BeforeAll, Relation
from armorplan.rules.model import Example, Rule
from armorplan.rules.pages import example_facts
from armorplan.rules.registry import all_rules, rule_named

_CASES = [
    pytest.param(rule, example, id=f"{rule.code}: {example.title}")
    for rule in all_rules()
    for example in rule.examples
]


def found_in(rule: Rule, example: Example) -> tuple[Relation, ...]:
    return tuple(rule.derive(example_facts(example.pattern)))


def tail(step: str) -> str:
    return "/".join(step.split("/")[3:])


def joined(steps) -> str:
    return " | ".join(sorted(tail(step) for step in steps))


def as_pair(relation: Relation) -> tuple[str, str]:
    if isinstance(relation, Before):
        return tail(relation.first), tail(relation.then)
    if isinstance(relation, BeforeAll):
        return tail(relation.first), joined(relation.of)
    return joined(relation.of), ""


@pytest.mark.parametrize(("rule", "example"), _CASES)
def test_example_gives_exactly_its_relations(rule, example):
    assert {as_pair(r) for r in found_in(rule, example)} == set(example.expects)


@pytest.mark.parametrize(("rule", "example"), _CASES)
def test_every_relation_can_be_explained(rule, example):
    for relation in found_in(rule, example):
        reason = relation.reason
        assert reason.rule == rule.code
        assert reason.force is rule.force
        assert reason.source == rule.source
        assert reason.text.endswith(".")
        assert "{" not in reason.text


@pytest.mark.parametrize(("rule", "example"), _CASES)
def test_what_is_only_easier_says_how_much_it_saves(rule, example):
    for relation in found_in(rule, example):
        assert (relation.reason.price_min > 0) == (rule.force == "easier")


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.code)
def test_rule_fires_and_keeps_silent(rule):
    assert any(example.expects for example in rule.examples)
    assert any(not example.expects for example in rule.examples)


def test_codes_are_unique_slugs_and_found_by_name():
    codes = [rule.code for rule in all_rules()]
    assert len(codes) == len(set(codes))
    assert all(code == code.lower() and " " not in code for code in codes)
    assert rule_named(codes[0]) is all_rules()[0]
    assert rule_named("no-such-rule") is None
