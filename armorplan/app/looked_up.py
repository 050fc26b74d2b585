"""Mistakes looked up in a build: what each is about is there, or it is said in words why not."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache

from armorplan.app.derived import Derived
from armorplan.app.itself import Itself
from armorplan.app.way_back_protocol import Solve
from armorplan.app.way_back_rows import WayBackMove, WaysBack
from armorplan.app.ways_back import ways_back
from armorplan.assembly.model import SidedJoint
from armorplan.kernel.errors import ArmorplanError
from armorplan.orders.recovery.amiss import amiss_of, closed_steps, steps_named
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.orders.recovery.scene import RecoveryScene

_AGAIN = " again"


@lru_cache(maxsize=2)
def _scene(build: Itself) -> RecoveryScene:
    """Return a build to look things up in: its relations say nothing of what is there."""
    derived = build.derived
    facts = replace(derived.facts, work=derived.work)
    return RecoveryScene(facts=facts, relations=(), place=derived.place)


def why_not(derived: Derived, mistake: Mistake) -> str:
    """Return why a mistake cannot have happened in a build; empty where it can."""
    try:
        amiss_of(_scene(Itself(derived)), (mistake,))
        closed_steps(_scene(Itself(derived)), (mistake,))
    except ArmorplanError as error:
        return str(error)
    return ""


def looking(
    derived: Derived, done: tuple[str, ...], mistakes: tuple[Mistake, ...], solver: Solve | None
) -> WaysBack:
    """Return the ways back; a mistake that cannot be looked up is passed over, and told so.

    What was closed already was ticked as it was told: whether it stands since, ``done`` says.
    """
    whys = {mistake: why_not(derived, mistake) for mistake in mistakes}
    known = tuple(m for m, why in whys.items() if not why and m.kind is not MistakeKind.CLOSED)
    found = ways_back(derived, done, known, solver=solver)
    passed = [f"Passed over, {one.kind.value}: {why}" for one, why in whys.items() if why]
    ways = tuple(replace(w, moves=tuple(map(_said_once, w.moves))) for w in found.ways)
    return replace(found, ways=ways, told=" ".join((found.told, *passed)))


def _said_once(move: WayBackMove) -> WayBackMove:
    """Return a move whose title says 'again' once: a step on a former way back said it already."""
    plain = move.title
    while plain.endswith(_AGAIN):
        plain = plain.removesuffix(_AGAIN)
    is_again = plain != move.title and not move.opens
    return replace(move, title=f"{plain}{_AGAIN if is_again else ''}")


def named_steps(derived: Derived, mistake: Mistake) -> tuple[str, ...]:
    """Return the steps that a mistake names: by themselves, by their joints or rows."""
    return tuple(dict.fromkeys(s for one in mistake.about for s in _steps_of(derived, one)))


def _steps_of(derived: Derived, name: str) -> tuple[str, ...]:
    try:
        return steps_named(_scene(Itself(derived)), name)
    except ArmorplanError:
        return ()


def kinds_at(
    derived: Derived, steps: Iterable[str], parts: Iterable[str]
) -> tuple[MistakeKind, ...]:
    """Return what can have gone wrong with some steps and parts, as it can be looked up."""
    work, assembly = derived.work, derived.assembly
    known = tuple(step for step in steps if work.has(step))
    touched = dict.fromkeys((*parts, *(part for s in known for part in work.step(s).parts)))
    joints = [assembly.joint(j) for step in known for j in work.sets(work.step(step))]
    holes = [f"{part}/{hole}" for joint in joints for part, hole in joint.stack if hole]
    if not joints:
        joints = [joint for part in touched for joint in assembly.joints_of(part)]
        holes = [hole for part in touched for hole in _holes(derived, part)]
    seams = tuple(dict.fromkeys(_seams(derived, joints)))
    places: dict[MistakeKind, Iterable[str]] = {
        MistakeKind.CLOSED: (*known, *seams),
        MistakeKind.WRONG_HOLE: holes,
        MistakeKind.ROW_OFF: seams,
    }
    return tuple(k for k in MistakeKind if _any(derived, k, places.get(k, touched)))


def _any(derived: Derived, kind: MistakeKind, places: Iterable[str]) -> bool:
    return any(not why_not(derived, Mistake(kind=kind, about=(one,))) for one in places)


def _holes(derived: Derived, part: str) -> Iterator[str]:
    if any(one.id == part for one in derived.assembly.parts):
        yield from (f"{part}/{hole.id}" for hole in derived.assembly.part(part).part.holes)


def _seams(derived: Derived, joints: Iterable[SidedJoint]) -> Iterator[str]:
    for joint in joints:
        seam = derived.assembly.seam_of(joint.id)
        if seam is not None:
            yield seam.id
