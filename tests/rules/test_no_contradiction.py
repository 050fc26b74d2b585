"""Whatever a legal pattern says, the rules never contradict each other and no step is lost."""

from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.assembly.expand import assemble
from armorplan.pattern.joining import Form, FormKind, Joint, JointKind, Route, Thread, Treatment
from armorplan.pattern.parts import Part, PartKind
from armorplan.pattern.pattern import Pattern
from armorplan.relations.completing import can_finish
from armorplan.relations.index import unknown_steps
from armorplan.rules.registry import derive_relations
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part
from armorplan.steps.deriving import derive_steps

SHELF = sketch_shelf()
FASTENER = {JointKind.RIVET: "double_cap_9", JointKind.GLUE: "cement"}


@st.composite
def patterns(draw) -> Pattern:
    parts = draw(_parts())
    ids = [part.id for part in parts]
    joints = draw(_joints(parts))
    some = st.lists(st.sampled_from(ids), min_size=1, max_size=3, unique=True).map(tuple)
    forms = draw(st.lists(st.tuples(some, st.sampled_from((Route.DAMP, Route.DRY))), max_size=3))
    uses = draw(
        st.lists(
            st.tuples(st.sampled_from(("dye", "oil", "finish")), some, st.integers(1, 2)),
            max_size=3,
        )
    )
    return sketch(
        *parts,
        joints=joints,
        threads=draw(_threads(parts, joints)),
        forms=tuple(
            Form(id=f"f{n}", kind=FormKind.BEND, parts=on, route=route)
            for n, (on, route) in enumerate(forms)
        ),
        treatments=tuple(
            Treatment(id=f"u{n}", use=use, parts=on, coats=coats)
            for n, (use, on, coats) in enumerate(uses)
        ),
        mirrored=draw(st.booleans()),
    )


@st.composite
def _parts(draw) -> list[Part]:
    spots = st.tuples(st.sampled_from((8.0, 20.0, 60.0, 72.0)), st.sampled_from((8.0, 32.0)))
    parts = []
    for n in range(draw(st.integers(1, 5))):
        holes = draw(st.lists(spots, max_size=4, unique=True))
        parts.append(
            sketch_part(
                f"p{n}",
                kind=draw(st.sampled_from(PartKind)),
                holes={f"h{n}_{at}": spot for at, spot in enumerate(holes)},
                slots=(f"s{n}",) if draw(st.booleans()) else (),
                bevelled=draw(st.booleans()),
                tooling=draw(st.sampled_from((None, "lantern"))),
            )
        )
    return parts


@st.composite
def _joints(draw, parts: list[Part]) -> tuple[Joint, ...]:
    holes = draw(st.permutations([hole.id for part in parts for hole in part.holes]))
    joints = []
    while len(holes) > 1 and draw(st.booleans()):
        layers = draw(st.integers(2, min(3, len(holes))))
        kind = draw(st.sampled_from(JointKind))
        joints.append(
            Joint(
                id=f"j{len(joints)}",
                kind=kind,
                stack=tuple(holes[:layers]),
                fastener=FASTENER.get(kind, ""),
                placed_on_wearer=draw(st.booleans()),
            )
        )
        holes = holes[layers:]
    return tuple(joints)


@st.composite
def _threads(draw, parts: list[Part], joints: tuple[Joint, ...]) -> tuple[Thread, ...]:
    ways = [slot.id for part in parts for slot in part.slots]
    ways += [part.id for part in parts if part.kind is PartKind.KEEPER]
    threads = []
    for n in range(draw(st.integers(0, 2)) if ways else 0):
        part = draw(st.sampled_from([part.id for part in parts]))
        through = draw(st.sampled_from(ways))
        closing = st.lists(st.sampled_from([j.id for j in joints]), max_size=1)
        if through != part:
            closed_by = tuple(draw(closing)) if joints else ()
            threads.append(Thread(id=f"t{n}", part=part, through=(through,), closed_by=closed_by))
    return tuple(threads)


@settings(max_examples=150, deadline=None)
@given(patterns())
def test_the_rules_never_contradict_each_other(pattern):
    assembly = assemble(pattern, SHELF, build="b")
    work = derive_steps(assembly, SHELF)
    steps = tuple(step.id for step in work.steps)
    relations = derive_relations(assembly, work, SHELF)
    assert len(set(steps)) == len(steps)
    assert not unknown_steps(steps, relations)
    binding = [relation for relation in relations if relation.reason.force.binds]
    assert can_finish(steps, (), binding).stuck == ()


@settings(max_examples=80, deadline=None)
@given(patterns())
def test_nothing_in_the_pattern_is_left_without_a_step(pattern):
    assembly = assemble(pattern, SHELF, build="b")
    work = derive_steps(assembly, SHELF)
    assert all(work.setting(joint.id) for joint in assembly.joints)
    ids = {step.id.rsplit("/", 1)[-1] for step in work.steps}
    assert {form.id for form in assembly.forms} <= ids
    assert {thread.id for thread in assembly.threads} <= ids
    assert {f"{dip.id}.coat-1" for dip in assembly.treatments} <= ids
