"""What is threaded goes through before its way in is shut."""

from collections.abc import Iterator

from armorplan.assembly.model import SidedJoint, SidedThread
from armorplan.pattern.joining import Thread
from armorplan.pattern.parts import Part, PartKind
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.model import StepKind

_GROUND = Ground(code="thread-before-closed", force=Force.CANNOT, source="follows from the shapes")


def _along(part: Part, hole_id: str) -> float:
    """Return where a hole lies along the longer side of its part, from 0 to 1."""
    xs, ys = [p[0] for p in part.outline], [p[1] for p in part.outline]
    axis = 0 if max(xs) - min(xs) >= max(ys) - min(ys) else 1
    low, high = ((min(xs), max(xs)), (min(ys), max(ys)))[axis]
    centre = next(hole.centre for hole in part.holes if hole.id == hole_id)
    return (centre[axis] - low) / (high - low)


def _places(part: Part, joint: SidedJoint, part_id: str) -> list[float]:
    """Return where a joint's holes lie along a part; none of what is glued or stitched flat."""
    return [_along(part, hole) for owner, hole in joint.stack if owner == part_id and hole]


def _ends(facts: Facts, part_id: str) -> tuple[list[SidedJoint], list[SidedJoint]]:
    """Return the joints that hold the two halves of a threaded part."""
    part = facts.assembly.part(part_id).part
    halves: tuple[list[SidedJoint], list[SidedJoint]] = ([], [])
    for joint in facts.assembly.joints_of(part_id):
        places = _places(part, joint, part_id)
        if not places:
            continue
        halves[sum(places) / len(places) > 1 / 2].append(joint)
    return halves


def _shut_alone(facts: Facts, thread: SidedThread) -> Iterator[str]:
    """Yield joints each of which alone shuts the way in: a loop closed from end to end.

    A strap folded round its buckle closes only that end; its tip still passes.
    """
    yield from thread.closed_by
    part = facts.assembly.part(thread.part).part
    for joint in facts.assembly.joints_of(thread.part):
        places = _places(part, joint, thread.part)
        if places and min(places) <= 1 / 2 < max(places):
            yield joint.id


def _derive(facts: Facts) -> Iterator[Relation]:
    for thread in facts.assembly.threads:
        step = facts.step_for(StepKind.THREAD, thread.id)
        if step is None:
            continue
        name, hosts = facts.name(thread.part), facts.names(thread.hosts)
        alone = frozenset(_shut_alone(facts, thread))
        for joint in sorted(facts.steps_setting(tuple(alone))):
            yield _GROUND.before(
                step.id,
                joint,
                f"{name} has to be through {hosts} before this joint closes the loop: "
                "afterwards there is no end to pass.",
                about=(thread.part, *thread.hosts),
            )
        near, far = _ends(facts, thread.part)
        for one in near:
            for other in far:
                both = facts.steps_setting((one.id, other.id))
                if len(both) > 1 and not alone & {one.id, other.id}:
                    yield _GROUND.before_all(
                        step.id,
                        both,
                        f"{name} can be passed through {hosts} while one of its ends is free: "
                        "not once both ends are fastened.",
                        about=(thread.part, *thread.hosts),
                    )


_KEEPER = sketch_part(
    "keeper", kind=PartKind.KEEPER, holes={"k1": (8.0, 20.0), "k2": (72.0, 20.0)}
)
_STRAP = sketch_part("strap", kind=PartKind.STRAP, holes={"s1": (8.0, 20.0), "s2": (72.0, 20.0)})
_PLATE = sketch_part(
    "plate", slots=("slot_a", "slot_b"), holes={"p1": (8.0, 8.0), "p2": (72.0, 8.0)}
)

RULE = Rule(
    code=_GROUND.code,
    name="Thread before it is closed off",
    why="A strap or keeper passes a slot only while it has a free end. A loop that is riveted "
    "shut, or a strap held at both ends, cannot be threaded any more.",
    mend="Take out the fastener at the end that is easier to set again, thread it, and set a new "
    "one.",
    force=_GROUND.force,
    source=_GROUND.source,
    derive=_derive,
    examples=(
        Example(
            title="A keeper goes through both slots before it is riveted to itself",
            pattern=sketch(
                _PLATE,
                _KEEPER,
                joints=(sketch_rivet("loop", "k1", "k2"),),
                threads=(Thread(id="t", part="keeper", through=("slot_a", "slot_b")),),
            ),
            expects=frozenset({("thread/t", "rivet/loop")}),
        ),
        Example(
            title="A strap riveted at both ends is threaded before the second of them",
            pattern=sketch(
                _PLATE,
                _STRAP,
                joints=(sketch_rivet("a", "s1", "p1"), sketch_rivet("b", "s2", "p2")),
                threads=(Thread(id="t", part="strap", through=("slot_a",)),),
            ),
            expects=frozenset({("thread/t", "rivet/a | rivet/b")}),
        ),
        Example(
            title="A strap folded and held at one end is threaded before its other end is fastened",
            pattern=sketch(
                _PLATE,
                sketch_part(
                    "strap",
                    kind=PartKind.STRAP,
                    holes={"s1": (8.0, 20.0), "s2": (24.0, 20.0), "s3": (72.0, 20.0)},
                ),
                joints=(sketch_rivet("fold", "s1", "s2"), sketch_rivet("b", "s3", "p2")),
                threads=(Thread(id="t", part="strap", through=("slot_a",)),),
            ),
            expects=frozenset({("thread/t", "rivet/b | rivet/fold")}),
        ),
        Example(
            title="A strap with a free end can be threaded at any time",
            pattern=sketch(
                _PLATE,
                _STRAP,
                joints=(sketch_rivet("a", "s1", "p1"),),
                threads=(Thread(id="t", part="strap", through=("slot_a",)),),
            ),
        ),
    ),
)
