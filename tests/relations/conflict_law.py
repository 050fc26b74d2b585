"""What holds of a conflict, whatever kinds of relation there are."""

from relations.relation_cases import all_orders

from armorplan.relations.conflict import find_conflict


def is_satisfiable_or_a_true_conflict(steps, relations):
    """No relation can be left out of a conflict, and none is named where an order keeps all."""
    conflict = find_conflict(steps, relations)
    assert bool(conflict) != bool(all_orders(steps, relations))
    assert set(conflict) <= set(relations)
    if conflict:
        assert not all_orders(steps, conflict)
        for at in range(len(conflict)):
            assert all_orders(steps, conflict[:at] + conflict[at + 1 :])
