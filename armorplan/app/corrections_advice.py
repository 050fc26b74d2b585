"""What a correction of the drawing means for leather that is cut already: oval, plug, or leave it."""

from collections.abc import Iterator, Sequence
from math import inf

from armorplan.app.corrections_model import CutAdvice, HoleMove, PatternBuild, Remedy
from armorplan.app.ways_back import recovery_scene
from armorplan.geometry.holes.edges import edge_distances_mm
from armorplan.kernel.errors import ArmorplanError
from armorplan.ledger.records import StepStatus
from armorplan.orders.recovery.amiss import Amiss, amiss_of
from armorplan.orders.recovery.mistakes import ALONG, EDGE, INWARD, Mistake, MistakeKind
from armorplan.orders.recovery.model import Means
from armorplan.orders.recovery.salvaging import feasible, means_of
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.pattern.parts import Part
from armorplan.steps.model import Step, StepKind
from armorplan.steps.naming import part_name
from armorplan.workshop.salvages import Salvage

_REMEDIES = {Means.OVAL: Remedy.OVAL, Means.PLUG: Remedy.PLUG, Means.AS_IS: Remedy.LEAVE}
_MOSTLY = 0.5
"""A hole is out towards an edge where it comes nearer to it by so much of what it is out."""


def advised(build: PatternBuild, moves: Sequence[HoleMove]) -> Iterator[CutAdvice]:
    """Yield for each part of a build what to do with holes that lie elsewhere in the drawing now.

    Args:
        build: a build that was cut from the drawing as it was before.
        moves: from where its holes lie to where they should.
    """
    derived = build.derived
    scene: RecoveryScene | None = None
    for sided in derived.assembly.parts:
        mine = [move for move in moves if move.part == sided.part.id]
        if not mine:
            continue
        here = _Cut(build, sided.id, mine)
        if here.punched is None:
            yield here.advice(Remedy.NOT_YET, "Its holes are not punched yet.")
        elif here.most_mm <= derived.shelf.constants.misfit.value:
            yield here.advice(
                Remedy.LEAVE,
                f"{here.most_mm:.1f} mm is made up by punch and leather "
                f"({derived.shelf.constants.misfit.value:g} mm).",
            )
        elif here.is_set():
            yield here.advice(
                Remedy.LEAVE,
                "What goes through is set already. If it holds and nothing gapes it may stay; to "
                "mend it the fasteners have to come out first (Way back).",
            )
        else:
            scene = scene or recovery_scene(derived)
            yield here.salvaged(scene)


class _Cut:
    """A part of a build with the holes that should lie elsewhere."""

    def __init__(self, build: PatternBuild, part: str, moves: Sequence[HoleMove]) -> None:
        self._build, self._part, self._moves = build, part, moves
        self.most_mm = max(move.mm for move in moves)
        touching = build.derived.work.touching(part, StepKind.PUNCH, StepKind.PUNCH_MARKED)
        self.punched = next((step for step in touching if self._begun(step)), None)

    def _begun(self, step: Step) -> bool:
        return self._build.ledger.record(step.id).status is not StepStatus.UNTOUCHED

    def is_set(self) -> bool:
        """Tell whether a joint through one of the holes is set."""
        holes = {(self._part, move.hole) for move in self._moves}
        derived = self._build.derived
        joints = (j for j in derived.assembly.joints if holes & set(j.stack))
        steps = (derived.work.setting(joint.id) for joint in joints)
        return any(step is not None and self._begun(step) for step in steps)

    def advice(self, remedy: Remedy, text: str, cautions: tuple[str, ...] = ()) -> CutAdvice:
        return CutAdvice(
            build=self._build.build,
            build_name=self._build.name,
            part=self._part,
            part_name=part_name(self._build.derived.assembly, self._part),
            holes=tuple(move.hole for move in self._moves),
            mm=round(self.most_mm, 2),
            remedy=remedy,
            text=text,
            cautions=cautions,
        )

    def salvaged(self, scene: RecoveryScene) -> CutAdvice:
        """Return the likeliest to hold of what the shelf's salvages allow here."""
        try:
            (amiss,) = amiss_of(scene, (self._mistake(),))
        except ArmorplanError as error:
            return self.advice(Remedy.OTHER, f"{error} Look at it under 'Way back'.")
        stands = frozenset(self._build.ledger.done_order)
        found = [s for s in feasible(scene, amiss, stands) if means_of(s) in _REMEDIES]
        if not found:
            return self.advice(
                Remedy.ANEW, self._limits(scene, amiss, "No way to save it is left.")
            )
        best = min(found, key=lambda s: (s.risk_pct, s.minutes + s.per_hole_min, s.id))
        return self.advice(_REMEDIES[means_of(best)], self._how(scene, amiss, best), best.cautions)

    def _mistake(self) -> Mistake:
        return Mistake(
            kind=MistakeKind.WRONG_HOLE,
            about=tuple(f"{self._part}/{move.hole}" for move in self._moves),
            mm=round(self.most_mm, 2),
            way=self._way(),
        )

    def _way(self) -> str:
        """Return which way the punched holes are out of where they should be."""
        part = self._build.derived.assembly.part(self._part).part
        nearer = [_edge_mm(part, m) - _edge_mm(part, m, after=True) for m in self._moves]
        mean = sum(nearer) / len(nearer)
        if mean < -_MOSTLY * self.most_mm:
            return EDGE
        return INWARD if mean > _MOSTLY * self.most_mm else ALONG

    def _how(self, scene: RecoveryScene, amiss: Amiss, salvage: Salvage) -> str:
        leaves = f" {salvage.leaves}" if salvage.leaves else ""
        return self._limits(scene, amiss, f"{salvage.name}. {salvage.how}{leaves}".strip())

    def _limits(self, scene: RecoveryScene, amiss: Amiss, words: str) -> str:
        """Add the numbers that decide: how far, the slot under its head, leather to the edge."""
        holes = [scene.facts.assembly.pattern.hole(move.hole) for move in self._moves]
        wide_mm = max(hole.diameter_mm for hole in holes)
        many = "1 hole is" if len(holes) == 1 else f"{len(holes)} holes are"
        told = f"{many} out by up to {self.most_mm:.1f} mm."
        heads = [
            fastener.head_mm
            for joint in amiss.joints
            if (fastener := scene.facts.shelf.fastener(joint.joint.fastener)) is not None
        ]
        if heads:
            told += (
                f" A slot of {wide_mm + self.most_mm:.1f} mm would lie under heads of "
                f"{min(heads):g} mm."
            )
        part = scene.facts.assembly.part(self._part).part
        left_mm = min(
            min(_edge_mm(part, move), _edge_mm(part, move, after=True)) - wide_mm / 2
            for move in self._moves
        )
        if left_mm < inf:
            told += f" {left_mm:.1f} mm of leather are left to the edge."
        return f"{told} {words}"


def _edge_mm(part: Part, move: HoleMove, *, after: bool = False) -> float:
    """Return how far a hole lies from the nearest edge, where it was punched or where it should be."""
    from dataclasses import replace

    held = next((hole for hole in part.holes if hole.id == move.hole), None)
    if held is None:
        return inf
    dx, dy = move.after[0] - move.before[0], move.after[1] - move.before[1]
    x, y = held.centre
    spot = (x + dx, y + dy) if after else (x, y)
    alone = replace(part, holes=(replace(held, centre=spot),))
    return edge_distances_mm(alone)[0]
