"""``armorplan rules`` and the counting of orders."""

import json

from armorplan.cli.program import run
from armorplan.relations.model import Force
from armorplan.rules.registry import all_rules


def test_all_rules_are_listed_under_their_force(capsys):
    assert run(["rules"]) == 0
    lines = capsys.readouterr().out.splitlines()
    found: dict[str, list[str]] = {}
    for line in lines:
        if line.startswith("  "):
            found[list(found)[-1]].append(line.split()[0])
        elif line:
            found[line.partition(":")[0].lower()] = []
    assert list(found) == [force.value for force in Force]
    for force, codes in found.items():
        assert codes == [rule.code for rule in all_rules() if rule.force == force]
    assert "Would spoil: binds" in "\n".join(lines)
    assert "Easier: steers" in "\n".join(lines)


def test_one_rule_is_shown_with_its_reason(capsys):
    assert run(["rules", "cut-before-use"]) == 0
    rule = next(rule for rule in all_rules() if rule.code == "cut-before-use")
    said = capsys.readouterr().out
    assert rule.name in said
    assert rule.why in said


def test_a_mistyped_code_is_answered_with_the_nearest(capsys):
    assert run(["rules", "cut-before-us"]) == 2
    assert "Perhaps 'cut-before-use' is meant." in capsys.readouterr().err


def test_rules_as_json_name_every_code(capsys):
    assert run(["rules", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)["rules"]
    assert [rule["code"] for rule in found] == [rule.code for rule in all_rules()]


def test_orders_are_counted_or_bounded(capsys):
    assert run(["order", "collar", "--count"]) == 0
    assert "that keep all that binds: at least" in capsys.readouterr().out
    assert run(["order", "collar", "--count", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert int(found["orders"]) > 10**9
    assert found["exact"] is False
