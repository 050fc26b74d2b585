"""Who does what in a shop, in which bath, on which rack, for how long a watch."""

from dataclasses import replace
from itertools import pairwise

import pytest
from schedule.in_hand import (
    APPRENTICE,
    CAPTAIN,
    MAKER,
    MONDAY_8,
    SHELF,
    SHOP,
    after,
    cuff,
    in_hand,
    made,
    sound,
)

from armorplan.rules.sketches import sketch, sketch_bath, sketch_part
from armorplan.schedule.activity import Demand, Mode
from armorplan.schedule.bench_history import History
from armorplan.schedule.dips import coat_family
from armorplan.schedule.hands import Hands
from armorplan.schedule.hanging import rack_rooms
from armorplan.schedule.joining import joined_problem
from armorplan.schedule.room_taken import GAP_MM, RoomTaken
from armorplan.schedule.sittings import step_of
from armorplan.schedule.unsure import HANDS_SPREAD
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Pace, Room
from armorplan.workshop.learned_hands import HandPace
from armorplan.workshop.places import DipBath, Rack, Station


def problem_in(shop=SHOP, pattern=None, **more):
    return joined_problem((in_hand("b", pattern, shop=shop, **more),), origin_at=MONDAY_8)


def of_kind(problem, kind, word=""):
    slug = kind.value.replace(" ", "-")
    return [a for a in problem.activities if a.id.split("/")[3] == slug and word in a.id]


def test_ways_are_by_pace_and_skill():
    problem = problem_in()
    (rivet,) = of_kind(problem, StepKind.RIVET)
    assert rivet.people == ("maker",)
    assert rivet.demands == (Demand(resource="anvil", amount=1),)
    cut = of_kind(problem, StepKind.CUT)[0]
    plain = next(s for s in made(cuff())["work"].steps if s.id.endswith(cut.id.partition("/")[2]))
    assert cut.modes == (
        Mode(who="maker", minutes=plain.minutes),
        Mode(who="apprentice", minutes=-(-plain.minutes * 3 // 2)),
    )


def test_two_presses_are_two_ways():
    two = (
        Station(id="press", name="Press", kinds=("rivet",)),
        Station(id="anvil", name="Anvil", kinds=("rivet",)),
    )
    (rivet,) = of_kind(problem_in(replace(SHOP, stations=two)), StepKind.RIVET)
    assert [(m.who, m.name, m.demands[0].resource) for m in rivet.modes] == [
        ("maker", "press", "press"),
        ("maker", "anvil", "anvil"),
    ]
    assert rivet.demands == ()


def test_some_work_pauses_at_closing_and_what_dries_does_not():
    problem = problem_in()
    assert {a.sitting_min for a in of_kind(problem, StepKind.BEVEL)} == {15}
    wet = (*of_kind(problem, StepKind.DYE), *of_kind(problem, StepKind.FORM))
    assert {a.sitting_min for a in wet} == {0}
    assert not any(a.sitting_min for a in problem.activities if a.also or a.dip or a.table)


def test_fits_wait_for_the_wearer_and_dry_fits_are_soon():
    problem = problem_in()
    (fit,) = of_kind(problem, StepKind.FIT)
    assert fit.also == ("captain",)
    assert [a.id for a in problem.activities if a.soon] == [
        a.id for a in of_kind(problem, StepKind.DRY_FIT)
    ]
    lies = sound(problem)[fit.id]
    captain = next(w.windows for w in problem.workers if w.id == "captain")
    assert any(a <= lies.start_min and lies.end_min <= b for a, b in captain)


def test_each_of_two_wearers_is_named_by_the_build():
    other = replace(CAPTAIN, id="mate", name="Mate")
    shop = replace(SHOP, wearers=(CAPTAIN, other))
    assert of_kind(problem_in(shop, wearer="mate"), StepKind.FIT)[0].also == ("mate",)
    assert of_kind(problem_in(shop), StepKind.FIT)[0].also == ()


def test_dipped_and_wiped_coats_go_where_they_are_done():
    problem = problem_in()
    dyes = of_kind(problem, StepKind.DYE)
    # Two parts of 80 × 40 mm are 0.64 dm²; five minutes of gloves and trays once a batch.
    assert {(a.dip.family, a.dip.amount, a.dip.set_up_min) for a in dyes} == {("dye|blue", 1, 5)}
    assert {(m.who, m.bath, m.minutes) for m in dyes[0].modes} == {
        ("maker", "vat", 4),
        ("apprentice", "vat", 6),
    }
    (oil,) = of_kind(problem, StepKind.OIL)
    assert {m.bath for m in oil.modes} == {"bench"}
    wiped = problem_in(pattern=cuff(dipped=False))
    assert {m.bath for a in of_kind(wiped, StepKind.DYE) for m in a.modes} == {"bench"}


def test_a_coat_without_a_bath_is_work_like_any_other():
    shop = replace(SHOP, baths=())
    dye = of_kind(problem_in(shop), StepKind.DYE)[0]
    assert dye.dip is None
    assert [(m.who, m.minutes) for m in dye.modes] == [("maker", 9), ("apprentice", 14)]


def test_what_is_larger_than_any_bath_goes_in_alone():
    small = DipBath(id="cup", name="Cup", area_dm2=1.9, takes=("dye",))
    parts = [f"p{n}" for n in range(8)]  # 2.56 dm²
    pattern = sketch(*(sketch_part(p) for p in parts), treatments=(sketch_bath("dye", *parts),))
    large = replace(small, id="vat", area_dm2=3.5)
    (dye,) = of_kind(problem_in(replace(SHOP, baths=(small, large)), pattern), StepKind.DYE)
    assert dye.dip.amount == 3
    assert {m.bath for m in dye.modes} == {"vat"}
    (dye,) = of_kind(problem_in(replace(SHOP, baths=(small,)), pattern), StepKind.DYE)
    assert dye.dip.amount == 1
    assert {m.bath for m in dye.modes} == {"cup"}


def test_coats_of_a_family_share_a_bath_whatever_coat_they_are():
    work = made(cuff())["work"]
    assert {coat_family(step) for step in work.of_kind(StepKind.DYE)} == {"dye|blue"}


def test_what_is_wet_hangs_until_it_is_taken_down():
    problem = problem_in()
    holds = {
        (h.first.split("/", 3)[3], h.amount, h.until[0].split("/", 3)[3]) for h in problem.holds
    }
    width = 40 + int(GAP_MM)
    assert ("dye/dye.coat-1", 2 * width, "dye/dye.coat-2") in holds
    # The plate goes on to the oil, the lame hangs on until the dry-fit.
    assert ("dye/dye.coat-2", width, "oil/oil.coat-1") in holds
    assert ("dye/dye.coat-2", width, "dry-fit/piece") in holds
    assert ("oil/oil.coat-1", width, "dry-fit/piece") in holds
    assert {h.resource for h in problem.holds} == {"line"}


@pytest.mark.parametrize(
    ("racks", "rooms"),
    [
        ((Rack(id="a", name="A", line_mm=900.0),), [("a", "line", 900)]),
        ((Rack(id="a", name="A", shelf_dm2=40.9),), [("a", "shelf", 40)]),
        (
            (Rack(id="a", name="A", line_mm=900.0, shelf_dm2=40.0),),
            [("a.line", "line", 900), ("a.shelf", "shelf", 40)],
        ),
        (
            (
                Rack(id="a", name="A", line_mm=900.0),
                Rack(id="b", name="B", line_mm=100.0, shelf_dm2=8),
            ),
            [("racks.line", "line", 1000), ("b.shelf", "shelf", 8)],
        ),
    ],
)
def test_racks_are_one_room_of_line_and_one_of_shelf(racks, rooms):
    found = rack_rooms(replace(SHOP, racks=racks))
    assert [(room.id, room.what, room.total) for room in found] == rooms


def test_formed_parts_lie_and_only_lie():
    both = (Rack(id="a", name="A", line_mm=900.0, shelf_dm2=5.0),)
    lying = {h.first.split("/")[3] for h in problem_in(replace(SHOP, racks=both)).holds
             if h.resource == "a.shelf"}  # fmt: skip
    assert lying == {"form"}
    hanging = {h.first.split("/")[3] for h in problem_in().holds}
    assert "form" not in hanging


def test_a_rack_too_short_is_shared_out():
    short = replace(SHOP, racks=(Rack(id="line", name="Line", line_mm=100.0),))
    problem = problem_in(short)
    assert max(h.amount for h in problem.holds) <= 100
    sound(problem)


def test_room_is_taken_by_the_real_outline():
    assembly = made(cuff())["assembly"]
    room = RoomTaken(assembly=assembly)
    assert room.line_mm(("plate", "lame")) == 140
    assert room.bath_dm2(("plate",)) == 1
    # A ring round a corner: 100 × 100 mm turned by 45° lies in a square of its own, not in its box.
    part = sketch_part("plate")
    turned = replace(part, outline=((0.0, 70.7), (70.7, 0.0), (141.4, 70.7), (70.7, 141.4)))
    assembly = made(sketch(turned))["assembly"]
    assert RoomTaken(assembly=assembly).bath_dm2(("plate",)) == 1
    assert RoomTaken(assembly=None).line_mm(("any",)) == 150


def watched(every, long, parts=2):
    shelf = replace(
        SHELF,
        treatments=tuple(
            replace(e, watch_every_min=every, watch_for_min=long) if e.id == "lacquer" else e
            for e in SHELF.treatments
        ),
    )
    names = [f"p{n}" for n in range(parts)]
    pattern = sketch(
        *(sketch_part(n) for n in names), treatments=(sketch_bath("lacquer", *names),)
    )
    vat = DipBath(id="vat", name="Vat", area_dm2=9.0)
    return problem_in(replace(SHOP, baths=(vat,)), pattern, shelf=shelf)


def test_a_watch_is_kept_by_visits():
    problem = watched(20, 60)
    visits = [a for a in problem.activities if "/watch/" in a.id]
    assert [a.minutes for a in visits] == [1, 1, 1, 1]
    assert {(m.who, m.minutes) for a in visits for m in a.modes} == {
        ("maker", 1),
        ("apprentice", 2),
    }
    assert {step_of(a.id) for a in visits} == {visits[0].id}
    gaps = {(g.first, g.then): (g.min_lag, g.max_lag) for g in problem.lags}
    for one, other in pairwise(visits):
        assert gaps[one.id, other.id] == (9, 18)
    lies = sound(problem)
    starts = [lies[a.id].start_min for a in visits]
    assert all(b - a <= 20 for a, b in pairwise(starts))
    # What waits for the watch waits for its last visit.
    assert not any(g.first == visits[0].id and "/watch/" not in g.then for g in problem.lags)


def test_who_would_hardly_be_away_stays_all_the_watch():
    (watch,) = [a for a in watched(5, 20).activities if "/watch/" in a.id]
    assert watch.minutes == 20


def test_what_is_unsure_is_unsure_together():
    problem = problem_in()
    cut = of_kind(problem, StepKind.CUT)[0]
    assert (cut.spread, cut.cause) == (HANDS_SPREAD, "hands: cut")
    dry = next(a for a in of_kind(problem, StepKind.DRY) if "dye" in a.id)
    assert (dry.spread, dry.cause) == (0.3, "drying: dye")
    learned = replace(
        SHOP,
        hands=(HandPace(kind="cut", factor=1.2, spread=0.11, observations=9),),
        room=Room(paces=(Pace(treatment="dye", factor=1.0, spread=0.07, observations=9),)),
    )
    problem = problem_in(learned)
    assert of_kind(problem, StepKind.CUT)[0].spread == 0.11
    dry = next(a for a in of_kind(problem, StepKind.DRY) if "dye" in a.id)
    assert dry.spread == 0.07


def test_nobody_can_is_nobody():
    hands = Hands(shop=replace(SHOP, people=(replace(MAKER, cannot=("cut",)),)))
    cut = made(cuff())["work"].of_kind(StepKind.CUT)[0]
    assert hands.names_for(cut) == ("nobody",)
    (rivet,) = made(cuff())["work"].of_kind(StepKind.RIVET)
    assert hands.names_for(rivet) == ("maker",)
    both = Hands(shop=replace(SHOP, people=(MAKER, APPRENTICE)))
    assert both.names_for(rivet) == ("maker",)


def test_what_was_done_is_no_dip_any_more():
    work = made(cuff())["work"]
    dye = work.of_kind(StepKind.DYE)[0]
    over = (after(minutes=-14), after(minutes=-4))
    done = History(done={dye.id: over}, running={}, worked_min={})
    found = next(a for a in problem_in(history=done).activities if a.id.endswith("coat-1"))
    assert found.fixed_start_min == -14
    assert (found.dip, found.modes) == (None, ())
