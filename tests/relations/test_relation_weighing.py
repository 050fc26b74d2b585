import pytest
from relations.relation_cases import before

from armorplan.relations.model import Force, Quantity
from armorplan.relations.weighing import binding, lightest, price_min, weight


def minutes(value, unit="min"):
    return (Quantity(name="saved", value=value, unit=unit),)


def test_force_weighs_more_than_minutes():
    by_weight = [
        before("a", "b", Force.USUAL),
        before("a", "b", Force.EASIER),
        before("a", "b", Force.EASIER, numbers=minutes(4)),
        before("a", "b", Force.SPOIL),
        before("a", "b", Force.CANNOT),
    ]
    backwards = by_weight[::-1]
    assert sorted(backwards, key=weight) == by_weight
    assert lightest(backwards) is by_weight[0]


def test_price_is_minutes_of_easier_relations_only():
    assert price_min(before("a", "b", Force.EASIER, numbers=minutes(4))) == 4
    assert price_min(before("a", "b", Force.EASIER, numbers=minutes(4, "mm"))) == 0
    assert price_min(before("a", "b", Force.SPOIL, numbers=minutes(480))) == 0


def test_only_cannot_and_would_spoil_bind():
    relations = tuple(before("a", "b", force) for force in Force)
    assert {r.reason.force for r in binding(relations)} == {Force.CANNOT, Force.SPOIL}


def test_nothing_has_no_lightest():
    with pytest.raises(ValueError, match="empty"):
        lightest(())
