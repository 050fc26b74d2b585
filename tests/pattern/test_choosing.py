"""A pattern with every option decided: what the choices leave out is gone with all that names it."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.pattern.choosing import cut_by_machine, settled, time_factor
from armorplan.pattern.joining import (
    Applying,
    Form,
    FormKind,
    Joint,
    JointKind,
    Route,
    Seam,
    Thread,
    Treatment,
)
from armorplan.pattern.options import Choice, Option
from armorplan.pattern.own_work import Correction, OwnRelation, OwnStep
from armorplan.pattern.own_work import OwnKind as Own
from armorplan.pattern.parts import PartKind
from armorplan.pattern.wearing import CheckTime, FitCheck, HardwareUse, StrapPlace, Suspension
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet

ONLY = ("look.decorated",)
LOOK = Option(
    id="look",
    name="Look",
    choices=(
        Choice(id="decorated", name="Decorated", times=(("cut", 1.5), ("bevel", 2.0))),
        Choice(id="plain", name="Plain", tooling=False, applying=Applying.DIP),
    ),
    chosen="decorated",
)
MACHINE = Option(
    id="cutting",
    name="Cutting",
    choices=(
        Choice(id="by_hand", name="By hand"),
        Choice(id="by_machine", name="By machine", by_machine=True, times=(("cut", 0.5),)),
    ),
    chosen="by_hand",
)


def decorated():
    """A plate, a lame and a strap, with a boss and a ring that only a decorated one has."""
    plate = sketch_part(
        "plate",
        holes={"p1": (10.0, 10.0), "p2": (40.0, 10.0), "p3": (60.0, 30.0), "free": (70.0, 30.0)},
        slots=("slot",),
        tooling="lantern",
        hides=("trimmed", "row"),
    )
    lame = sketch_part("lame", holes={"l1": (10.0, 10.0)})
    boss = replace(
        sketch_part("boss", kind=PartKind.TRIM, holes={"b1": (20.0, 20.0), "b2": (60.0, 20.0)}),
        only_with=ONLY,
    )
    strap = sketch_part("strap", kind=PartKind.STRAP, holes={"s1": (8.0, 20.0)})
    ring = replace(
        sketch_part("ring_strap", kind=PartKind.STRAP, holes={"r1": (8.0, 20.0)}), only_with=ONLY
    )
    glue = Joint(id="glued", kind=JointKind.GLUE, layers=("boss", "plate", "lame"), fastener="g")
    pattern = sketch(
        plate,
        lame,
        boss,
        strap,
        ring,
        joints=(
            sketch_rivet("row", "p1", "l1"),
            sketch_rivet("trimmed", "b1", "p2"),
            sketch_rivet("strapped", "s1", "b2", "p3"),
            glue,
        ),
        seams=(
            Seam(id="all", name="All", joints=("row", "trimmed")),
            Seam(id="trim", name="Trim", joints=("trimmed",)),
        ),
        threads=(Thread(id="way", part="ring_strap", through=("slot",), closed_by=("row",)),),
        forms=(
            Form(id="bow", kind=FormKind.BEND, parts=("plate", "boss"), route=Route.DRY),
            Form(
                id="cup",
                kind=FormKind.CLOSURE,
                parts=("plate",),
                route=Route.BY_SEAM,
                seams=("trim",),
            ),
        ),
        treatments=(
            Treatment(id="dye", use="dye", parts=("plate", "boss")),
            Treatment(id="gold", use="dye", parts=("boss",)),
        ),
    )
    return replace(
        pattern,
        options=(LOOK, MACHINE),
        hardware=(
            HardwareUse(id="ring", use="ring", part="ring_strap"),
            HardwareUse(id="stud", use="stud", part="strap", held_by=("strapped", "trimmed")),
        ),
        strap_places=(
            StrapPlace(id="a", name="A", strap="strap", meets="plate", girth_mm=(300.0, 340.0)),
            StrapPlace(
                id="b", name="B", strap="ring_strap", meets="plate", girth_mm=(300.0, 340.0)
            ),
        ),
        fit_checks=(
            FitCheck(id="all", name="All", piece="piece", when=CheckTime.FIT),
            FitCheck(id="boss", name="Boss", piece="piece", when=CheckTime.FIT, parts=("boss",)),
        ),
        suspensions=(
            Suspension(id="up", piece="piece", part="ring_strap", hangs_from="the belt"),
        ),
        own_steps=(
            OwnStep(id="gild", name="Gild", piece="piece", parts=("boss", "plate")),
            OwnStep(id="polish", name="Polish", piece="piece", parts=("boss",)),
            OwnStep(id="bless", name="Bless", piece="piece", only_with=ONLY),
        ),
        own_relations=(
            OwnRelation(id="r", kind=Own.BEFORE, step="a/b", others=("c/d",), only_with=ONLY),
        ),
        corrections=(Correction(id="c", name="C", holes=("b1",), move_mm=(0.0, 1.0)),),
    )


def ids(entries):
    return [entry.id for entry in entries]


def test_as_it_is_written_everything_stands():
    assert settled(decorated()) == decorated()


def test_what_the_choice_leaves_out_goes_with_all_that_names_it():
    plain = settled(decorated(), {"look": "plain"})
    assert ids(plain.parts) == ["plate", "lame", "strap"]
    assert ids(plain.joints) == ["row", "strapped", "glued"]
    assert plain.joint("strapped").stack == ("s1", "p3")
    assert plain.joint("glued").layers == ("plate", "lame")
    assert [(s.id, s.joints) for s in plain.seams] == [("all", ("row",))]
    assert plain.threads == ()
    assert [(f.id, f.parts) for f in plain.forms] == [("bow", ("plate",))]
    assert [(t.id, t.parts) for t in plain.treatments] == [("dye", ("plate",))]
    assert [(h.id, h.held_by) for h in plain.hardware] == [("stud", ("strapped",))]
    assert ids(plain.strap_places) == ["a"]
    assert ids(plain.fit_checks) == ["all"]
    assert plain.suspensions == ()
    assert [(o.id, o.parts) for o in plain.own_steps] == [("gild", ("plate",))]
    assert plain.own_relations == plain.corrections == ()
    assert plain.part("plate").hides == ("row",)


def test_holes_and_slots_whose_work_went_are_not_made():
    plate = settled(decorated(), {"look": "plain"}).part("plate")
    assert ids(plate.holes) == ["p1", "p3", "free"]
    assert plate.slots == ()


def test_a_hole_that_a_strap_place_still_uses_stays():
    place = StrapPlace(
        id="c", name="C", strap="strap", meets="plate", girth_mm=(300.0, 340.0), holes=("s1",)
    )
    joints = tuple(replace(j, only_with=ONLY) for j in decorated().joints)
    pattern = replace(decorated(), strap_places=(place,), joints=joints)
    plain = settled(pattern, {"look": "plain"})
    assert ids(plain.part("strap").holes) == ["s1"]
    assert plain.strap_places[0].holes == ("s1",)
    assert ids(plain.part("plate").holes) == ["free"]


def test_a_plain_choice_leaves_tooling_out_and_dips():
    plain = settled(decorated(), {"look": "plain"})
    assert plain.part("plate").tooling is None
    assert [t.applying for t in plain.treatments] == [Applying.DIP]
    assert plain.options[0].chosen == "plain"


def test_the_choices_in_force_tell_times_and_the_machine():
    pattern = decorated()
    assert time_factor(pattern, "cut") == pytest.approx(1.5)
    assert time_factor(pattern, "rivet") == pytest.approx(1.0)
    assert not cut_by_machine(pattern)
    faster = settled(pattern, {"cutting": "by_machine"})
    assert cut_by_machine(faster)
    assert time_factor(faster, "cut") == pytest.approx(0.75)


@pytest.mark.parametrize(
    ("chosen", "named"),
    [
        ({"size": "large"}, "'look', 'cutting'"),
        ({"look": "gilded"}, "'decorated', 'plain'"),
    ],
)
def test_what_is_not_there_is_answered_with_what_there_is(chosen, named):
    with pytest.raises(ValueError, match=named):
        settled(decorated(), chosen)


def test_a_condition_on_an_option_that_is_not_there_is_refused():
    part = replace(sketch_part("plate"), only_with=("size.large",))
    with pytest.raises(ValueError, match="'size'"):
        settled(sketch(part))


def test_several_choices_of_one_option_are_any_of_them_and_two_options_are_both():
    either = replace(sketch_part("either"), only_with=("look.plain", "look.decorated"))
    both = replace(sketch_part("both"), only_with=("look.decorated", "cutting.by_machine"))
    pattern = replace(sketch(either, both), options=(LOOK, MACHINE))
    assert ids(settled(pattern).parts) == ["either"]
    assert ids(settled(pattern, {"cutting": "by_machine"}).parts) == ["either", "both"]


CONDITIONS = st.sampled_from([(), ONLY, ("look.plain",), ("cutting.by_machine",)])


@st.composite
def conditional(draw):
    """The pattern above with any conditions on any of its entries."""
    pattern = decorated()

    def sometimes(entries):
        return tuple(replace(entry, only_with=draw(CONDITIONS)) for entry in entries)

    tables = ("parts", "joints", "threads", "forms", "treatments", "hardware", "own_steps")
    return replace(pattern, **{table: sometimes(getattr(pattern, table)) for table in tables})


CHOSEN = st.fixed_dictionaries(
    {
        "look": st.sampled_from(["decorated", "plain"]),
        "cutting": st.sampled_from(["by_hand", "by_machine"]),
    }
)


@given(conditional(), CHOSEN)
def test_nothing_names_what_is_not_there_and_settling_again_changes_nothing(pattern, chosen):
    found = settled(pattern, chosen)
    assert settled(found) == found
    parts, joints, seams = (set(ids(t)) for t in (found.parts, found.joints, found.seams))
    holes = {hole.id for part in found.parts for hole in part.holes}
    slots = {slot.id for part in found.parts for slot in part.slots}
    for joint in found.joints:
        assert len(found.stack_parts(joint.id)) >= 2
        assert set(joint.stack) <= holes
        assert set(joint.layers) <= parts
    assert all(set(seam.joints) <= joints for seam in found.seams)
    assert all(set(t.through) <= slots | parts and t.part in parts for t in found.threads)
    assert all(set(t.closed_by) <= joints for t in found.threads)
    assert all(set(f.parts) <= parts and set(f.seams) <= seams for f in found.forms)
    assert all(t.parts and set(t.parts) <= parts for t in found.treatments)
    assert all(h.part in parts and set(h.held_by) <= joints for h in found.hardware)
    assert all(set(part.hides) <= joints for part in found.parts)
    assert all(set(own.parts) <= parts for own in found.own_steps)
    assert all(p.strap in parts and p.meets in parts for p in found.strap_places)
    used = {hole for joint in pattern.joints for hole in joint.stack}
    still = {hole for joint in found.joints for hole in joint.stack}
    assert holes & used == still


@given(conditional(), CHOSEN)
def test_what_stays_is_what_it_was(pattern, chosen):
    found = settled(pattern, chosen)
    force = {f"{option}.{choice}" for option, choice in chosen.items()}
    for part in found.parts:
        assert set(part.only_with) <= force
        assert part.outline == pattern.part(part.id).outline
    gone = set(ids(pattern.parts)) - set(ids(found.parts))
    assert all(not set(pattern.part(part).only_with) <= force for part in gone)
