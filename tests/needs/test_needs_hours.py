"""Hours: every kind of step under one heading, drying with what is wet; tools; cost."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import pattern, rivet
from needs.needs_sketches import KNIFE, OIL, TRAY, built, plate, shelf

from armorplan.assembly.model import Side
from armorplan.needs.gathering import gather_needs
from armorplan.needs.hours import GROUPS, hours_needs, piece_hours, tool_needs
from armorplan.pattern.joining import Treatment
from armorplan.steps.model import Step, StepKind, Work
from armorplan.workshop.shelf import Duration, ToolEntry


def step(kind: StepKind, minutes: int, name: str = "", **changes) -> Step:
    made = Step(
        id=name or kind.value,
        kind=kind,
        piece="piece",
        side=Side.SINGLE,
        title=kind.value,
        tray="tray",
        parts=("plate",),
        minutes=minutes,
        attended=kind is not StepKind.DRY,
    )
    return replace(made, **changes)


CUT = step(StepKind.CUT, 30, tool="Knife")
DYE = step(StepKind.DYE, 12, side=Side.LEFT)
DRY = step(StepKind.DRY, 720, after=DYE.id, side=Side.LEFT)
AFTER_WET = {StepKind.DRIP, StepKind.WATCH, StepKind.DRY, StepKind.CURE}
WORK = Work(steps=(CUT, DYE, DRY))


def test_every_kind_of_step_stands_under_one_heading():
    placed = [kind for kinds in GROUPS.values() for kind in kinds]
    assert sorted(placed) == sorted(set(StepKind) - AFTER_WET)


def test_dripping_and_cure_are_no_wait_beside_the_drying_and_a_watch_is_work():
    drip = step(StepKind.DRIP, 5, after=DYE.id, attended=False)
    cure = step(StepKind.CURE, 4320, after=DYE.id, attended=False)
    watch = step(StepKind.WATCH, 20, after=DYE.id)
    (_, dye) = hours_needs(Work(steps=(*WORK.steps, drip, watch, cure)))
    assert (dye.name, dye.steps) == ("Dye, oil and finish", 2)
    assert (dye.hands_on_min, dye.waiting_min) == (32, 720)


def test_drying_counts_with_what_is_wet_and_not_as_work():
    told = {h.name: (h.steps, h.hands_on_min, h.waiting_min) for h in hours_needs(WORK)}
    assert told == {"Cutting and edges": (1, 30, 0), "Dye, oil and finish": (1, 12, 720)}


def test_hours_by_piece_only_where_there_is_more_than_one():
    assert piece_hours(Work(steps=(CUT,)), lambda one: one.side.value) == ()
    rows = piece_hours(WORK, lambda one: one.side.value)
    assert [(r.name, r.hands_on_min, r.waiting_min) for r in rows] == [
        ("single", 30, 0),
        ("left", 12, 720),
    ]


def test_a_tool_of_the_shelf_stands_for_the_word_in_the_step():
    steps = (CUT, step(StepKind.BEVEL, 5, tool="edge beveller"))
    tools = tool_needs(Work(steps=steps), shelf())
    assert [(t.name, t.kinds) for t in tools] == [
        ("Knife", ("cut",)),
        ("edge beveller", ("bevel",)),
    ]


def test_the_maker_s_own_steps_name_their_own_tools():
    own = ToolEntry(id="own", name="Whatever", serves=("own", "bevel"), source="example")
    steps = (step(StepKind.OWN, 5, tool="sail needle"),)
    tools = tool_needs(Work(steps=steps), replace(shelf(), tools=(own,)))
    assert [(t.name, t.kinds) for t in tools] == [("sail needle", ("own",))]


def test_a_cutting_machine_is_left_at_rest_where_all_is_cut_by_hand():
    machine = ToolEntry(id="laser", name="Laser", serves=("cut",), source="example")
    durations = (Duration(kind="cut by machine", tool="laser"),)
    at_hand = replace(shelf(), tools=(KNIFE, machine), durations=durations)
    assert [t.name for t in tool_needs(WORK, at_hand)] == ["Knife"]
    by_machine = Work(steps=(replace(CUT, tool="laser"),))
    assert [t.name for t in tool_needs(by_machine, at_hand)] == ["Knife", "Laser"]


def gathered(**changes):
    dye = Treatment(id="colour", use="dye", parts=("plate",))
    oil = Treatment(id="oil", use="oil", parts=("plate",))
    joint = rivet("row", "plate_hole", "other_hole")
    made = pattern(plate(), plate("other"), joints=(joint,), treatments=(dye, oil))
    return gather_needs(built(made), Work(steps=()), replace(shelf(), **changes), TRAY)


def test_the_cost_adds_up_and_names_what_has_no_price():
    needs = gathered()
    leather, rivets, dye = 0.8 * 4 / 0.75, 0.1 * 3, 20 * 6 / 1000
    assert needs.cost.total == pytest.approx(leather + rivets + dye)
    assert needs.cost.without == (OIL.name,)
    assert needs.cost.currency == "crown"


def test_without_any_price_there_is_no_total():
    plain = shelf()
    needs = gathered(
        leathers=tuple(replace(e, price_per_dm2=None) for e in plain.leathers),
        fasteners=tuple(replace(e, price_each=None) for e in plain.fasteners),
        treatments=tuple(replace(e, price_per_litre=None) for e in plain.treatments),
    )
    assert needs.cost.total is None
    assert needs.cost.without == ("cops", "Cap rivet", "Dye", "Oil")
