"""``armorplan rules`` and the counting of orders."""

import json

from armorplan.cli.program import run
from armorplan.rules.registry import all_rules


def test_all_rules_are_listed_with_their_force(capsys):
    assert run(["rules"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line.split()[0] for line in lines] == [rule.code for rule in all_rules()]
    assert all(line.endswith(")") for line in lines)


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
    assert "orders of" in capsys.readouterr().out
    assert run(["order", "collar", "--count", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert int(found["orders"]) > 10**9
    assert found["exact"] is False
