"""A rule's page reads well to someone who knows leather and no programming."""

import re

import pytest

from armorplan.rules.pages import CASES, FORCES, MENDING, rule_page
from armorplan.rules.registry import all_rules

BANNED = (
    "step kind",
    "predicate",
    "relation",
    "beforeall",
    "afterany",
    "boolean",
    "node",
    "graph",
    "acyclic",
    "constraint",
    "algorithm",
    "identifier",
    "instance",
    "parameter",
    "expects",
    "none.",
)


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.code)
def test_a_page_has_all_its_sections_filled(rule):
    page = rule_page(rule)
    assert page.startswith(f"# {rule.name}\n\n{rule.why}\n")
    assert f"**{FORCES[rule.force]}**" in page
    mending, cases = page.index(MENDING), page.index(CASES)
    assert page[mending + len(MENDING) : cases].strip() == rule.mend
    listed = [line for line in page[cases:].splitlines() if line.startswith("- ")]
    assert len(listed) == len(rule.examples)
    assert f"Source: {rule.source}." in page
    assert rule.code in page


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.code)
def test_a_page_holds_no_word_of_a_programmer(rule):
    page = rule_page(rule).lower()
    assert not [word for word in BANNED if word in page]
    assert not re.search(r"\w/\w", page.partition("source:")[0]), "a step by its id"
    assert "_" not in page


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: rule.code)
def test_why_and_mend_are_sentences_and_the_name_is_short(rule):
    for text in (rule.why, rule.mend):
        assert text[0].isupper()
        assert text.endswith(".")
        assert "  " not in text
    assert len(rule.name) <= 48
    assert not rule.name.endswith(".")
