"""A buckle is put on and its fold made in one go, and pinned for the dry fit."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.pattern.joining import FormKind, Route
from armorplan.pattern.parts import PartKind
from armorplan.pattern.wearing import HardwareUse
from armorplan.relations.model import Force, Relation
from armorplan.rules.facts import Facts
from armorplan.rules.model import COMMON_PRACTICE, Example, Ground, Rule
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_rivet
from armorplan.steps.model import Step, StepKind

_GROUND = Ground(code="buckle-in-one-go", force=Force.USUAL)


def _derive(facts: Facts) -> Iterator[Relation]:
    for mounts, folds in _loops(facts):
        parts = tuple(dict.fromkeys(part for step in (*mounts, *folds) for part in step.parts))
        if folds:
            yield _GROUND.together(
                frozenset(step.id for step in (*mounts, *folds)),
                f"From a fold of {facts.names(parts)} that is not made yet it drops off: it is put on "
                "and folded in, one after the other.",
                about=parts,
            )
        for fit in facts.work.of_kind(StepKind.DRY_FIT):
            if fit.piece == mounts[0].piece and set(fit.parts).intersection(parts):
                for step in folds or mounts:
                    yield _GROUND.before(
                        step.id,
                        fit.id,
                        f"At the dry fit {facts.names(parts)} is tried with what it holds, its fold "
                        "on pins.",
                        about=parts,
                    )


def _loops(facts: Facts) -> Iterator[tuple[list[Step], list[Step]]]:
    """Yield what is put on with the folds that hold it: what shares a fold stands together."""
    found: list[tuple[list[Step], list[Step]]] = []
    for hardware in facts.assembly.hardware:
        mount = facts.step_for(StepKind.MOUNT, hardware.id)
        if mount is None or facts.is_stud(hardware):
            continue
        folds = facts.dry_folds(hardware.part)
        same = [loop for loop in found if any(fold in loop[1] for fold in folds)]
        mounts = [mount, *(step for loop in same for step in loop[0])]
        found = [loop for loop in found if loop not in same]
        shared = (fold for loop in same for fold in loop[1])
        found.append((mounts, list({fold.id: fold for fold in (*folds, *shared)}.values())))
    yield from found


_STRAP = sketch_part("strap", kind=PartKind.STRAP, holes={"s1": (8.0, 20.0), "s2": (40.0, 20.0)})
_PLATE = sketch_part("plate", holes={"p": (8.0, 8.0)})
_TURN = replace(sketch_form("turn", "strap", route=Route.DRY), kind=FormKind.FOLD)
_BUCKLE = HardwareUse(id="buckle", use="buckle", part="strap", held_by=("on",))
_TAB = sketch(_STRAP, _PLATE, joints=(sketch_rivet("on", "s1", "s2", "p"),))

RULE = Rule(
    code=_GROUND.code,
    name="Buckle on, fold, pin, in one go",
    why="Until its fold is made a buckle hangs on a flat strap and drops off. So it is put on and the "
    "strap folded over it at once, and a pin through the holes keeps the fold shut. On pins it goes "
    "through the dry fit; the rivets follow when the dry fit is signed off.",
    mend="Put it on again and look which way the tongue points; fold it now, and pin it.",
    force=_GROUND.force,
    source=COMMON_PRACTICE,
    derive=_derive,
    examples=(
        Example(
            title="A buckle tab that is folded by hand and riveted to a plate",
            pattern=replace(_TAB, forms=(_TURN,), hardware=(_BUCKLE,)),
            expects=frozenset(
                {
                    ("curve-by-hand/turn | put-on/buckle", ""),
                    ("curve-by-hand/turn", "dry-fit/piece"),
                }
            ),
        ),
        Example(
            title="A buckle whose strap needs no fold of its own",
            pattern=replace(_TAB, hardware=(_BUCKLE,)),
            expects=frozenset({("put-on/buckle", "dry-fit/piece")}),
        ),
        Example(title="A fold with nothing in it", pattern=replace(_TAB, forms=(_TURN,))),
    ),
)
