"""On random small pieces the relations and the model of reach accept exactly the same orders."""

from dataclasses import replace
from functools import cache

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some

from armorplan.app import learned_order
from armorplan.app.derived import derive_build
from armorplan.app.learned_order import judge_by_reach, refused
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Standing
from armorplan.pattern.joining import JointKind, Seam
from armorplan.pattern.own_work import Overruling, OwnKind, OwnRelation
from armorplan.pattern.parts import PartKind
from armorplan.relations.checking import breaks
from armorplan.relations.model import Force
from armorplan.rules.reach_sketches import sketch_cone, sketch_tube
from armorplan.rules.reaching import BY_REACH
from armorplan.rules.registry import derive_all
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.workshop.shop import one_maker

SHELF = sketch_shelf()
SHOP = one_maker()
WIDE_MM, IN_MM = 160.0, 10.0


def evenly(start, end, count):
    return tuple(start + (end - start) * at / (count - 1) for at in range(count))


def staves(rows, spots, *, mirrored=False, shut=False):
    """A tube of two or three plates in as many rows, a strap on the first; a bottom shut by a row."""
    long_mm = spots[-1] + spots[0]
    holes = {plate: {} for plate in range(rows)}
    joints, seams = [], []
    for at in range(rows):
        ids = [f"r{at}_{n}" for n in range(len(spots))]
        for id_, y in zip(ids, spots, strict=True):
            holes[at][f"{id_}a"] = (WIDE_MM - IN_MM, y)
            holes[(at + 1) % rows][f"{id_}b"] = (IN_MM, y)
            joints.append(sketch_rivet(id_, f"{id_}a", f"{id_}b"))
        seams.append(Seam(id=f"r{at}", name=f"row {at}", joints=tuple(ids)))
    holes[0]["p"] = (WIDE_MM / 2, long_mm / 2)
    if shut:
        xs = evenly(40.0, WIDE_MM - 40.0, 2)
        holes[0] |= {f"l{n}a": (x, long_mm - IN_MM) for n, x in enumerate(xs)}
        holes[1] |= {f"l{n}b": (WIDE_MM - x, long_mm - IN_MM) for n, x in enumerate(xs)}
        joints += [sketch_rivet(f"l{n}", f"l{n}a", f"l{n}b") for n in range(2)]
        seams.append(Seam(id="l", name="bottom row", joints=("l0", "l1")))
    plates = [plate(f"p{at}", (WIDE_MM, long_mm), each) for at, each in holes.items()]
    strap = sketch_part("strap", kind=PartKind.STRAP, holes={"s": (8.0, 20.0)})
    joints.append(sketch_rivet("on", "s", "p"))
    pattern = sketch(*plates, strap, joints=tuple(joints), seams=tuple(seams))
    pieces = tuple(replace(each, mirrored=mirrored) for each in pattern.pieces)
    return replace(pattern, pieces=pieces)


def plate(part_id, size, holes):
    wide, high = size
    outline = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    return replace(sketch_part(part_id, holes=holes), outline=outline)


@some.composite
def small_pieces(draw):
    """Tubes of one to three rows, cones, and sacks, most with a strap; up to 16 joints."""
    shape = draw(some.sampled_from(["staves", "staves", "sack", "tube", "cone"]))
    long_mm = draw(some.sampled_from([300.0, 450.0, 700.0]))
    count = draw(some.integers(3, 5))
    spots = evenly(20.0, long_mm - 20.0, count)
    if shape == "cone":
        return sketch_cone(deep_mm=long_mm, angle_deg=60.0, spots_mm=spots)
    if shape == "tube":
        return sketch_tube(long_mm=long_mm, spots_mm=spots, strap_mm=long_mm / 2)
    if shape == "sack":
        return staves(2, spots, mirrored=draw(some.booleans()), shut=True)
    return staves(draw(some.integers(2, 3)), spots, mirrored=draw(some.booleans()))


def with_tool(reach_mm, opening_mm):
    tool = replace(SHELF.tools[0], reach_mm=reach_mm, opening_mm=opening_mm)
    return replace(SHELF, tools=(tool, *SHELF.tools[1:]))


TOOLS = some.builds(
    with_tool,
    some.sampled_from([60.0, 120.0, 180.0, 250.0]),
    some.sampled_from([15.0, 35.0, 60.0]),
)


@cache
def built(pattern, shelf):
    return derive_build(pattern, shelf, SHOP, build="b")


def out_of_reach(derived, order):
    """The sided joints that the model calls out of reach where an order sets them."""
    reach = reach_of(derived.pattern, derived.shelf)
    made, found = {}, set()
    for step in map(derived.work.step, order):
        for id_ in derived.work.sets(step):
            sided = derived.assembly.joint(id_)
            before = frozenset(made.setdefault(sided.side, set()))
            told = margin(reach.net, sided.joint.id, before, reach.bench)
            if told.standing is Standing.CANNOT:
                found.add(id_)
        for id_ in derived.work.sets(step):
            sided = derived.assembly.joint(id_)
            made[sided.side].add(sided.joint.id)
    return found


def reached(derived):
    """The sided joints that a tool gets to at first."""
    reach = reach_of(derived.pattern, derived.shelf)
    return {
        sided.id
        for sided in derived.assembly.joints
        if margin(reach.net, sided.joint.id, frozenset(), reach.bench).standing
        is not Standing.CANNOT
    }


def setting(derived):
    return [step for step in derived.order if derived.work.sets(derived.work.step(step))]


def broken(derived, order, more=()):
    rules = [r for r in (*derived.relations, *more) if r.reason.rule in BY_REACH]
    told = [each.relation for each in breaks(order, [r for r in rules if r.reason.binds])]
    return {id_ for r in told for id_ in derived.work.sets(derived.work.step(r.first))}


@settings(max_examples=10, deadline=None, suppress_health_check=list(HealthCheck))
@given(small_pieces(), TOOLS, some.randoms(use_true_random=False))
def test_relations_and_model_accept_the_same_orders(pattern, shelf, chance):
    derived = built(pattern, shelf)
    steps = setting(derived)
    at_first = reached(derived)
    assert out_of_reach(derived, steps) & at_first == set()
    assert broken(derived, steps) == set()
    told = reach_of(derived.pattern, shelf)
    for _ in range(30):
        order = chance.sample(steps, len(steps))
        out = out_of_reach(derived, order) & at_first
        # With what the order itself teaches, exactly; of a joint whose sets are few, without it.
        assert broken(derived, order, refused(derived.facts, order)) == out
        said = {id_ for id_ in out if derived.assembly.joint(id_).joint.id in told.sealed}
        assert said <= broken(derived, order) <= out


@pytest.mark.long
@settings(max_examples=200, deadline=None, suppress_health_check=list(HealthCheck))
@given(small_pieces(), TOOLS, some.randoms(use_true_random=False))
def test_relations_and_model_accept_the_same_orders_in_many_drawings(pattern, shelf, chance):
    test_relations_and_model_accept_the_same_orders.hypothesis.inner_test(pattern, shelf, chance)


def half_made():
    """A tube of two rows: all of row 0, then row 1 from both ends to its middle."""
    return staves(2, evenly(20.0, 680.0, 13)), with_tool(250.0, 35.0)


def test_rows_half_made_are_refused_where_the_model_refuses_them():
    derived = built(*half_made())
    reach = reach_of(derived.pattern, derived.shelf)
    assert not reach.sealed, "too many sets to tell them beforehand"
    step_of = {sided.id: derived.work.setting(sided.id).id for sided in derived.assembly.joints}
    late = step_of["on"]
    kept = [step_of[f"r1_{n}"] for n in (0, 2, 4)]
    order = [s for s in setting(derived) if s not in (late, *kept)]
    order = (*order, late, *kept)
    assert broken(derived, order) == set()
    assert out_of_reach(derived, order) == {"on"}
    whole = [s for s in derived.order if s not in order]
    # Stand the setting steps, in the new order, where they stood.
    turn = iter(order)
    answer = tuple(next(turn) if s in order else s for s in derived.order)
    assert len(whole) + len(order) == len(derived.order)
    judged = judge_by_reach(derived.facts, (derived.order, answer), derived.relations)
    assert not judged.right
    assert judged.first_break.relation.reason.rule in BY_REACH
    assert "numbers" in judged.sentence
    mended = [s for s in judged.repair.order if s in order]
    assert out_of_reach(derived, mended) == set()


def last_as_late_as_may_be(derived, late, asked):
    """Orders in which one step comes as late as the relations let it."""
    order = [step for step in setting(derived) if step != late]

    def ordered(relations):
        asked.append(relations)
        tries = ((*order[:at], late, *order[at:]) for at in range(len(order), -1, -1))
        return next((tried for tried in tries if not breaks(tried, relations)), ())

    return ordered


def test_an_order_that_fails_is_learned_from_until_one_holds(monkeypatch):
    derived = built(*half_made())
    late = next(step for step in setting(derived) if step.endswith("/on"))
    known = tuple(r for r in derived.relations if r.reason.rule in BY_REACH and r.reason.binds)
    asked = []
    ordered = last_as_late_as_may_be(derived, late, asked)
    assert out_of_reach(derived, ordered(known)) == {"on"}
    found = learned_order.taught(derived.facts, known, ordered)
    assert found.relations
    assert not found.findings
    assert out_of_reach(derived, ordered((*known, *found.relations))) == set()
    monkeypatch.setattr(learned_order, "MOST_ROUNDS", len(found.relations) - 1)
    (told,) = learned_order.taught(derived.facts, known, ordered).findings
    assert told.code == "reach-order-open"
    assert derived.work.step(late).title in told.text


def test_what_is_set_aside_with_a_note_is_not_learned_again():
    pattern, shelf = half_made()
    over = Overruling(id="mine", rule="reach-before-closed", note="the horn did reach")
    derived = built(replace(pattern, overrulings=(over,)), shelf)
    asked = []

    def ordered(relations):
        asked.append(relations)
        steps = setting(derived)
        late = next(s for s in steps if s.endswith("/on"))
        return (*(s for s in steps if s != late), late)

    found = learned_order.taught(derived.facts, derived.relations, ordered)
    assert len(asked) <= 3
    assert all(r.reason.rule in BY_REACH for r in found.relations)


def test_a_piece_in_which_all_is_reached_teaches_nothing():
    pattern = sketch_tube(long_mm=300.0, spots_mm=(20.0, 110.0, 190.0, 280.0), strap_mm=150.0)
    derived = built(pattern, SHELF)
    order = setting(derived)[::-1]
    assert order
    assert refused(derived.facts, order) == ()


def strap_after(*joints):
    """The half-made tube, and the maker's own wish that these rivets come before the strap."""
    pattern, shelf = half_made()
    own = tuple(
        OwnRelation(
            id=f"own{at}",
            kind=OwnKind.BEFORE,
            step=f"rivet/{joint}",
            others=("rivet/on",),
            force="cannot",
            why="so the maker has it.",
        )
        for at, joint in enumerate(joints)
    )
    return replace(pattern, own_relations=own), shelf


ROW_0 = tuple(f"r0_{n}" for n in range(13))


def test_the_order_of_a_build_is_tried_and_learns_what_it_failed_in():
    derived = built(*strap_after(*ROW_0, "r1_1", "r1_11"))
    plain = derive_all(derived.assembly, derived.work, derived.shelf, SHOP.room).relations
    learned = [r for r in derived.relations if r not in plain]
    assert learned
    assert all(r.first.endswith("/on") and r.reason.rule in BY_REACH for r in learned)
    order = setting(derived)
    assert order.index(next(s for s in order if s.endswith("/on"))) > 14
    assert out_of_reach(derived, order) == set()
    assert not [f for f in derived.findings if f.code == "reach-order-open"]
    again = derive_build(derived.pattern, derived.shelf, SHOP, build="b", kept=derived.relations)
    assert again.order == derived.order
    assert not [f for f in again.findings if f.code == "relations-kept"]


def test_what_no_order_keeps_beside_the_makers_own_is_told_and_leaves_an_order():
    late = tuple(f"r1_{n}" for n in range(13) if n not in (0, 2, 4))
    derived = built(*strap_after(*ROW_0, *late))
    assert derived.order
    (told,) = [f for f in derived.findings if f.code == "reach-order-open"]
    assert "on" in told.about
    assert out_of_reach(derived, setting(derived)) == {"on"}


def test_where_only_a_screw_undone_lets_the_tool_in_the_order_learns_what_that_costs():
    pattern, shelf = half_made()
    derived = built(pattern, shelf)
    row = [f"r1_{n}" for n in range(13) if n not in (6, 8)]
    made = [derived.work.setting(joint).id for joint in (*ROW_0, *row, "on")]
    (grave,) = refused(derived.facts, made)
    assert grave.reason.force is Force.CANNOT
    # Each of the fewest that shut it in has to be set to do so: of one that is a screw undoing opens.
    screw = next(joint for joint in row if f"b/piece/single/rivet/{joint}" in grave.of)
    loose = {"kind": JointKind.SCREW, "fastener": ""}
    joints = (replace(j, **loose) if j.id == screw else j for j in pattern.joints)
    eased = built(replace(pattern, joints=tuple(joints)), shelf)
    fewest = [j for j in (*ROW_0, *row) if f"b/piece/single/rivet/{j}" in grave.of]
    (told,) = refused(eased.facts, [eased.work.setting(joint).id for joint in (*fewest, "on")])
    assert told.reason.force is Force.EASIER
    assert told.reason.price_min == 2 * eased.work.setting(screw).minutes
    assert "opens again" in told.reason.text
