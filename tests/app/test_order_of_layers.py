"""Doubled plates and flat pouches are daily work: they always get an order, and reach forbids nothing."""

from datetime import UTC

from geometry.reach.net_sketches import overlay, pouch
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.app.derived import derive_build
from armorplan.files.catalogue import read_shelf
from armorplan.relations.model import Force
from armorplan.workshop.shop import one_maker

FORBIDS = {"reach-before-closed", "row-from-deep-end"}
SHELF, SHOP = read_shelf(), one_maker(str(UTC))
sizes = st.floats(80, 500)


def forbidden(sketch):
    build = derive_build(sketch, SHELF, SHOP, build="b")
    assert build.order, [finding.text for finding in build.findings]
    told = [relation.reason for relation in build.relations if relation.reason.rule in FORBIDS]
    return [reason.text for reason in told if reason.force is Force.CANNOT]


@given(sizes, sizes, st.floats(0, 50), st.floats(0, 50), st.booleans())
@settings(max_examples=8, deadline=None)
def test_a_plate_laid_on_another_gets_an_order(width, height, dx, dy, turned):
    assert not forbidden(overlay(width, height, dx, dy, over_turned=turned))


@given(sizes, sizes, st.floats(25, 60), st.integers(2, 4), st.booleans())
@settings(max_examples=8, deadline=None)
def test_a_pouch_gets_an_order(width, height, step, sides, turned):
    assert not forbidden(pouch(width, height, step, sides=sides, turned=turned))
