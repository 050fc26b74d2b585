"""Rings followed from plate to plate: a few rows that do are found among many."""

from itertools import pairwise
from random import Random

import pytest

from armorplan.geometry.reach.blocking import minimal_sets
from armorplan.geometry.reach.lying_flat import Hanging
from armorplan.geometry.reach.model import FLAT_LINK, Link, Row
from armorplan.geometry.reach.row_sets import RowSets


def tied(id_, *links):
    parts = tuple(dict.fromkeys(part for link in links for part in link[:2]))
    return Row(
        id=id_,
        name=id_,
        joints=(f"{id_}_0",),
        at_mm=(0.0,),
        parts=parts,
        links=tuple(Link(*link) for link in links),
    )


def tube_of_plates(around, down):
    """Rows of a tube of plates that lie flat on their neighbours; only the last ones close it."""
    rows = []
    for row in range(down):
        for at in range(around):
            one, other = f"p{row}_{at}", f"p{row}_{(at + 1) % around}"
            rows.append(tied(f"s{row}_{at}", (one, other, "" if at + 1 < around else "round")))
            if row + 1 < down:
                rows.append(tied(f"b{row}_{at}", (one, f"p{row + 1}_{at}", FLAT_LINK)))
    return rows


@pytest.mark.parametrize("asked", [("p0_0",), ("p2_3", "p2_4")])
def test_of_a_tube_of_many_plates_one_way_round_does_to_shape_or_shut_it(asked):
    rows = tube_of_plates(8, 5)
    hanging, every = Hanging(rows, frozenset()), frozenset(row.id for row in rows)
    for few, does in (
        (hanging.shaping(asked, every), hanging.is_shaped),
        (hanging.shutting(asked, every), hanging.is_enclosed),
    ):
        assert does(asked, few)
        assert len(few) <= 10
        assert not any(does(asked, few - {one}) for one in few if one.startswith("s"))


def test_a_form_near_by_is_found_before_a_ring():
    rows = [tied("a", ("p", "q", FLAT_LINK)), tied("b", ("q", "r", FLAT_LINK))]
    hanging = Hanging(rows, frozenset({"r"}))
    assert hanging.shaping(("p",), {"a", "b"}) == {"a", "b"}
    assert hanging.shaping(("r",), {"a", "b"}) == frozenset()


def drawn(seed):
    """Rows drawn by chance: of two plates or three, flat, drawn alike or in their own way.

    Some join a plate to itself with a strip under it, or go all round by themselves.
    """
    chance = Random(seed)  # noqa: S311 - the same rows every time
    plates = [f"p{at}" for at in range(chance.randint(2, 7))]
    rows = []
    for at in range(chance.randint(2, 10)):
        held = chance.sample(plates, min(len(plates), chance.choice((1, 2, 2, 2, 3))))
        pairs = list(pairwise(held)) or [(held[0], held[0])]
        draws = [chance.choice((FLAT_LINK, "x", f"r{at}")) for _ in pairs]
        ties = [(*pair, draw) for pair, draw in zip(pairs, draws, strict=True)]
        if chance.random() < 0.2:
            ties.append((held[0], held[-1], f"r{at}_back"))
        rows.append(tied(f"r{at}", *ties))
    formed = frozenset(plate for plate in plates if chance.random() < 0.1)
    return chance, Hanging(rows, formed), [row.id for row in rows], plates


@pytest.mark.parametrize("seed", range(150))
def test_what_is_found_at_a_glance_does_the_same_and_holds_rows_asked_for_only(seed):
    chance, hanging, rows, plates = drawn(seed)
    for _ in range(6):
        some = frozenset(row for row in rows if chance.random() < 0.7)
        asked = tuple(chance.sample(plates, 1))
        for few, does in (
            (hanging.shaping(asked, some), hanging.is_shaped),
            (hanging.shutting(asked, some), hanging.is_enclosed),
        ):
            assert some.issuperset(few)
            assert does(asked, few) == does(asked, some)


@pytest.mark.parametrize("seed", range(150))
def test_the_rows_near_a_plate_hold_all_that_shape_it_and_shut_it_round(seed):
    _, hanging, rows, plates = drawn(seed)
    for plate in plates:
        near = hanging.nearest_first((plate,))
        assert hanging.is_shaped((plate,), near) == hanging.is_shaped((plate,), rows)
        around = hanging.enclosing((plate,), "none")
        assert hanging.is_enclosed((plate,), around) == hanging.is_enclosed((plate,), rows)


def test_a_plate_that_a_row_closes_on_itself_over_a_strip_is_shaped_by_that_row():
    lapped = tied("lap", ("cuff", "cuff", "round"), ("cuff", "strip", FLAT_LINK))
    hanging = Hanging([lapped], frozenset())
    assert hanging.nearest_first(("cuff",)) == ["lap"]
    found = RowSets(hanging, 1).shaping(("cuff",), (), few=False)
    assert found == ((frozenset({"lap"}),), True)


def test_where_the_rows_near_a_plate_do_not_shape_it_no_set_is_told():
    class Blind(Hanging):
        def nearest_first(self, _parts):
            return []

    sets = RowSets(Blind([tied("lap", ("a", "a", "round"))], frozenset()), 1)
    assert sets.shaping(("a",), (), few=False) == ((), True)


def test_all_minimal_sets_are_found_with_a_hint_as_without():
    atoms = [f"a{at}" for at in range(30)]
    sets = [frozenset(atoms[:3]), frozenset(atoms[2:5]), frozenset((atoms[29],))]

    def is_true(made):
        return any(each <= made for each in sets)

    def hint(made):
        asked.append(made)
        return next(each for each in sets if each <= made)

    asked = []
    assert minimal_sets(atoms, is_true, hint=hint) == minimal_sets(atoms, is_true)
    assert asked
