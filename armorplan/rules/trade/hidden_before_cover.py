"""What a trim or boss will hide is set before the trim is fixed."""

from collections.abc import Iterator

from armorplan.assembly.model import Cover
from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Force, Quantity, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.naming import part_name

_GROUND = Ground(
    code="hidden-before-cover", force=Force.CANNOT, source="computed from the outlines"
)


def _laying(facts: Facts, cover: Cover) -> tuple[str, ...]:
    """Return the joints that lay a cover on what it hides.

    Those in which it lies outside another part; of these, where there are any, those that pass a
    part of the hidden joint. What is fastened on top of the cover does not lay it down.
    """
    hidden = facts.assembly.joint(cover.joint)
    outside = [
        joint
        for joint in facts.assembly.joints_of(cover.cover)
        if joint.id != cover.joint and joint.parts[-1] != cover.cover
    ]
    on_it = [joint for joint in outside if set(joint.parts) & set(hidden.parts)]
    return tuple(joint.id for joint in on_it or outside)


def _derive(facts: Facts) -> Iterator[Relation]:
    for cover in facts.assembly.covers:
        hidden = facts.work.setting(cover.joint)
        fixing = facts.steps_setting(_laying(facts, cover))
        if hidden is None or not fixing:
            continue
        name = part_name(facts.assembly, cover.cover)
        extent = (
            "as the pattern declares"
            if cover.declared
            else f"over {cover.covered_pct:.0f} % of its head"
        )
        numbers = (Quantity(name="head covered", value=cover.covered_pct, unit="%"),)
        yield _GROUND.before_all(
            hidden.id,
            fixing,
            f"{name} lies on the head of '{hidden.title}' ({extent}): once it is fixed, no setter "
            "reaches that head.",
            about=(cover.cover, cover.joint),
            numbers=() if cover.declared else numbers,
        )


_PLATE = sketch_part("plate", holes={"p1": (20.0, 20.0), "p2": (60.0, 20.0), "p3": (40.0, 20.0)})
_LAME = sketch_part("lame", holes={"l3": (40.0, 20.0)})
_BOSS_HOLES = {"b1": (20.0, 20.0), "b2": (60.0, 20.0)}
_JOINTS = (
    sketch_rivet("seam", "p3", "l3"),
    sketch_rivet("boss_a", "b1", "p1"),
    sketch_rivet("boss_b", "b2", "p2"),
)

RULE = Rule(
    code=_GROUND.code,
    name="What a cover hides comes first",
    why="A boss, trim or upper plate lies over the heads of other fasteners. They have to be set "
    "while they are in the open: before the cover's last fastener, since until then it can be"
    " swung aside. The inner stack comes before its cover, the pivot before the lame that "
    "lies over it. Which part lies above is read from the stacks, whose outermost layer is named "
    "first. Where two parts overlap on a third one and no stack tells which of them lies above, the "
    "rule says nothing, and the pattern's notes say so, with what to write for the one that lies "
    "above.",
    mend="Take out the cover's last fastener, or as many as it needs to be swung aside, and set "
    "what lies under it. A screw post opens again; a rivet is drilled out at its head.",
    force=_GROUND.force,
    source=_GROUND.source,
    derive=_derive,
    examples=(
        Example(
            title="A boss riveted over the head of a seam's rivet",
            pattern=sketch(
                _PLATE,
                _LAME,
                sketch_part("boss", kind=PartKind.TRIM, holes=_BOSS_HOLES),
                joints=_JOINTS,
            ),
            expects=frozenset({("rivet/seam", "rivet/boss_a | rivet/boss_b")}),
        ),
        Example(
            title="A tab riveted to the boss: the boss's own rivets lay it down, the tab's rivet does not",
            pattern=sketch(
                _PLATE,
                _LAME,
                sketch_part("boss", kind=PartKind.TRIM, holes={**_BOSS_HOLES, "b3": (30.0, 10.0)}),
                sketch_part("tab", holes={"t": (8.0, 20.0)}),
                joints=(*_JOINTS, sketch_rivet("on_top", "t", "b3")),
            ),
            expects=frozenset({("rivet/seam", "rivet/boss_a | rivet/boss_b")}),
        ),
        Example(
            title="The declared cover of a boss with one rivet",
            pattern=sketch(
                _PLATE,
                _LAME,
                sketch_part("boss", kind=PartKind.TRIM, holes=_BOSS_HOLES, hides=("seam",)),
                joints=_JOINTS[:2],
            ),
            expects=frozenset({("rivet/seam", "rivet/boss_a")}),
        ),
        Example(
            title="Two plates side by side hide nothing",
            pattern=sketch(_PLATE, _LAME, joints=_JOINTS[:1]),
        ),
    ),
)
