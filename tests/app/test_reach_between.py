"""What a joint costs before and after others agrees with the relations by reach, joint by joint."""

import pytest

from armorplan.app.derived import derive_build
from armorplan.app.reach_between import both_ways
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.reach.model import Standing
from armorplan.kernel.shipped import samples_folder
from armorplan.relations.index import first_and_members, is_plain
from armorplan.relations.model import Force
from armorplan.rules.reach_sketches import sketch_cone, sketch_tube
from armorplan.workshop.shop import one_maker

PRICED = ("easier-while-open", "deep-end-easier")


def sample(name):
    return read_pattern(read_folder(samples_folder() / name), read_shelf()).pattern


SPOTS = (20.0, 110.0, 190.0, 280.0)
PATTERNS = {
    "collar": lambda: sample("collar"),
    "tube": lambda: sketch_tube(long_mm=300.0, spots_mm=SPOTS, strap_mm=150.0),
    "cone": lambda: sketch_cone(deep_mm=250.0, angle_deg=90.0, spots_mm=(30, 80, 130, 180, 230)),
}


@pytest.fixture(params=sorted(PATTERNS))
def derived(request):
    return derive_build(PATTERNS[request.param](), read_shelf(), one_maker(), build="a")


def test_where_a_relation_by_reach_speaks_of_the_pair_the_minutes_agree(derived):
    pairs = {}
    for relation in derived.relations:
        if relation.reason.rule in PRICED and is_plain(relation):
            first, members = first_and_members(relation)
            key = (first, frozenset(members))
            pairs[key] = max(pairs.get(key, 0.0), relation.reason.price_min)
    assert pairs
    for (first, members), price in pairs.items():
        found = both_ways(derived, first, members)
        # What also comes before fewer of these steps may be dearer, never cheaper.
        less = [p for (one, some), p in pairs.items() if one == first and some <= members]
        assert found.dearer_min == pytest.approx(max(less)), (first, price)


def test_what_binds_by_reach_is_out_of_reach_afterwards():
    spots = tuple(20.0 + 55.0 * n for n in range(13))
    tube = sketch_tube(long_mm=700.0, spots_mm=spots, strap_mm=350.0)
    derived = derive_build(tube, read_shelf(), one_maker(), build="a")
    bound = [r for r in derived.relations if r.reason.rule == "reach-before-closed"]
    assert bound
    for relation in bound:
        assert relation.reason.force is Force.CANNOT
        found = both_ways(derived, *first_and_members(relation))
        assert found.after.standing is Standing.CANNOT
        assert found.before.standing is not Standing.CANNOT
