"""The strap that carries a piece goes on before those that only steady it."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.joining import Thread
from armorplan.pattern.parts import PartKind
from armorplan.pattern.wearing import Suspension
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.steps.model import StepKind

_GROUND = Ground(code="weight-first", force=Force.USUAL)


def _derive(facts: Facts) -> Iterator[Relation]:
    carrying = {hung.part: hung.hangs_from for hung in facts.assembly.pattern.suspensions}
    yield from _threaded(facts, carrying)
    joints = list(facts.joint_steps())
    for joint, first in joints:
        carriers = [p for p in joint.parts if facts.assembly.part(p).part.id in carrying]
        if not carriers or joint.closes_on_itself:
            continue
        hook = carrying[facts.assembly.part(carriers[0]).part.id]
        for other, then in joints:
            here = (then.piece, then.side) == (first.piece, first.side)
            if here and _is_steadying(facts, other.parts, carrying):
                yield _GROUND.before(
                    facts.end_of(first).id,
                    then.id,
                    f"{facts.name(carriers[0])} carries the weight, from {hook}. At its height all "
                    "others find theirs.",
                    about=(*joint.parts, *other.parts),
                )


def _threaded(facts: Facts, carrying: dict[str, str]) -> Iterator[Relation]:
    """Yield the threading of what carries before the trial at which the piece hangs from it."""
    for thread in facts.assembly.threads:
        step = facts.step_for(StepKind.THREAD, thread.id)
        hook = carrying.get(facts.assembly.part(thread.part).part.id)
        for fit in facts.work.touching(thread.part, StepKind.DRY_FIT) if step and hook else ():
            if step and fit.piece == step.piece:
                yield _GROUND.before(
                    step.id,
                    fit.id,
                    f"At the dry fit the piece hangs from {hook} by {facts.name(thread.part)}: it is "
                    "threaded and pinned by then.",
                    about=(thread.part, *thread.hosts),
                )


def _is_steadying(facts: Facts, parts: tuple[str, ...], carrying: dict[str, str]) -> bool:
    """Tell whether a joint fastens a strap to something, and none that carries."""
    found = [facts.assembly.part(part).part for part in parts]
    strapped = len(found) > 1 and any(part.kind is PartKind.STRAP for part in found)
    return strapped and not any(part.id in carrying for part in found)


_PLATE = sketch_part("plate", holes={"p1": (10.0, 10.0), "p2": (70.0, 10.0)})
_UPPER = sketch_part("upper", kind=PartKind.STRAP, holes={"u": (8.0, 20.0)})
_LOWER = sketch_part("lower", kind=PartKind.STRAP, holes={"l": (8.0, 20.0)})
_STRAPPED = sketch(
    _PLATE,
    _UPPER,
    _LOWER,
    joints=(sketch_rivet("low", "l", "p2"), sketch_rivet("up", "u", "p1")),
)

RULE = Rule(
    code=_GROUND.code,
    name="The carrying strap first",
    why="One strap, mostly the upper one, hangs the piece from a belt or an arming coat and carries "
    "it. The others only keep it from swinging. Fastened first, it hangs the piece at its height; the "
    "others are then placed where they do not pull against it. Already at the dry fit the piece hangs "
    "from it, on pins, so what it has to be threaded through is threaded before.",
    mend="Hang it up and look whether a lower strap pulls. If it does, move that strap by a hole, or "
    "set it anew.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A plate that hangs by its upper strap, and a lower one",
            pattern=replace(
                _STRAPPED,
                suspensions=(
                    Suspension(id="hang", piece="piece", part="upper", hangs_from="the belt"),
                ),
            ),
            expects=frozenset({("rivet/up", "rivet/low")}),
        ),
        Example(
            title="A strap that carries is through its slot before the dry fit",
            pattern=replace(
                sketch(
                    replace(_PLATE, slots=sketch_part("plate", slots=("slot",)).slots),
                    _UPPER,
                    joints=(sketch_rivet("up", "u", "p1"),),
                    threads=(Thread(id="way", part="upper", through=("slot",)),),
                ),
                suspensions=(
                    Suspension(id="hang", piece="piece", part="upper", hangs_from="the belt"),
                ),
            ),
            expects=frozenset({("thread/way", "dry-fit/piece")}),
        ),
        Example(title="Two straps that only close", pattern=_STRAPPED),
    ),
)
