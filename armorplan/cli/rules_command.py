"""``armorplan rules``: the rules of the trade, or the page of one of them."""

from argparse import Namespace
from collections.abc import Iterator, Sequence
from difflib import get_close_matches

from armorplan.cli.exits import CLEAN
from armorplan.cli.reading import say, say_json
from armorplan.kernel.errors import ArmorplanError
from armorplan.relations.model import Force
from armorplan.rules.model import Rule
from armorplan.rules.pages import rule_page
from armorplan.rules.registry import all_rules, rule_named


def rules(chosen: Namespace) -> int:
    """Print all rules by how strongly they hold, or the page of one; return 0."""
    found = all_rules() if chosen.code is None else (_named(chosen.code),)
    if chosen.json:
        say_json({"rules": [_told(rule) for rule in found]})
    elif chosen.code is None:
        for line in _listed(found):
            say(line)
    else:
        say(rule_page(found[0]))
    return CLEAN


def _listed(found: Sequence[Rule]) -> Iterator[str]:
    """Yield the rules under a heading for each force, the strongest first, by code in each."""
    wide = max(len(rule.code) for rule in found)
    for force in Force:
        rules = [rule for rule in found if rule.force is force]
        if not rules:
            continue
        if force is not next(iter(Force)):
            yield ""
        yield f"{force.capitalize()}: {'binds' if force.binds else 'steers'}, {len(rules)} rules"
        for rule in rules:
            yield f"  {rule.code:<{wide}}  {rule.name}"


def _named(code: str) -> Rule:
    rule = rule_named(code)
    if rule is not None:
        return rule
    near = get_close_matches(code, [rule.code for rule in all_rules()], n=1)
    mend = f"Perhaps '{near[0]}' is meant." if near else "Without a code all rules are listed."
    message = f"There is no rule '{code}'. {mend}"
    raise ArmorplanError(message)


def _told(rule: Rule) -> dict[str, str]:
    return {
        "code": rule.code,
        "name": rule.name,
        "force": rule.force.value,
        "why": rule.why,
        "source": rule.source,
    }
