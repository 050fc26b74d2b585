from dataclasses import replace

import pytest
from relations.relation_cases import before

from armorplan.relations.model import OWN, Before, Force
from armorplan.relations.weighing import binding, lightest, price_min, weight


def test_force_weighs_more_than_minutes():
    by_weight = [
        before("a", "b", Force.USUAL),
        before("a", "b", Force.EASIER),
        before("a", "b", Force.EASIER, price_min=4),
        before("a", "b", Force.SPOIL),
        before("a", "b", Force.CANNOT),
    ]
    backwards = by_weight[::-1]
    assert sorted(backwards, key=weight) == by_weight
    assert lightest(backwards) is by_weight[0]


def test_of_equals_the_makers_own_is_the_lightest():
    trade = before("a", "b", Force.SPOIL)
    own = Before(first="b", then="a", reason=replace(trade.reason, rule=f"{OWN}my_way"))
    assert own.reason.own_id == "my_way"
    assert trade.reason.own_id == ""
    assert lightest((trade, own)) is own
    light = before("a", "b", Force.EASIER)
    assert lightest((own, light)) is light


def test_price_is_of_easier_relations_only():
    assert price_min(before("a", "b", Force.EASIER, price_min=4)) == 4
    assert price_min(before("a", "b", Force.EASIER)) == 0
    assert price_min(before("a", "b", Force.SPOIL, price_min=480)) == 0


def test_only_cannot_and_would_spoil_bind():
    relations = tuple(before("a", "b", force) for force in Force)
    assert {r.reason.force for r in binding(relations)} == {Force.CANNOT, Force.SPOIL}


def test_what_was_overruled_does_not_bind():
    assert binding((before("a", "b", overruled=True, note="tried it"),)) == ()


def test_nothing_has_no_lightest():
    with pytest.raises(ValueError, match="empty"):
        lightest(())
