"""Where two bent layers slide on each other, so that holes that met while flat no longer meet.

Two layers whose middles lie ``d`` apart, bent through an angle, differ by ``d`` times the angle:
3.2 mm and 120° give 6.7 mm (circle geometry).
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, dist, pi, radians, sin

from armorplan.assembly.model import SidedForm, SidedJoint
from armorplan.pattern.joining import FormKind, JointKind, Motion, Route
from armorplan.pattern.parts import Point
from armorplan.rules.facts import Facts
from armorplan.steps.model import Step, StepKind

PLAY_MM = 0.5
"""What a hole usually has to spare round its shank (common practice, no source)."""
_BENDS = (FormKind.BEND, FormKind.FOLD)
_LEAST_JOINTS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Slide:
    """An outer layer that slides on an inner one.

    Attributes:
        form: the step that shapes the outer layer damp.
        slip_mm: how far holes come apart at most; ``None``: the pattern does not say how far it bends.
    """

    outer: str
    inner: str
    form: Step
    slip_mm: float | None


def slides(facts: Facts) -> Iterator[Slide]:
    """Yield layers joined at two places or more that are bent, the outer one damp.

    What seams draw together is left out, since they make that shape themselves; slots and holes
    marked on the wearer are, too, since they take up the slip.
    """
    bends = [f for f in facts.assembly.forms if f.form.kind in _BENDS]
    bent = {part for form in bends if form.form.route is not Route.BY_SEAM for part in form.parts}
    for (outer, inner), joints in _layers(facts).items():
        if len(joints) < _LEAST_JOINTS or inner not in bent:
            continue
        for form in bends:
            step = _damp_step(facts, form, outer)
            slip_mm = _slip_mm(facts, form, (outer, inner), joints) if step else 0.0
            if step and (slip_mm is None or slip_mm >= PLAY_MM):
                yield Slide(outer=outer, inner=inner, form=step, slip_mm=slip_mm)


def _damp_step(facts: Facts, form: SidedForm, part: str) -> Step | None:
    return facts.step_for(StepKind.FORM, form.id) if part in form.parts else None


def _layers(facts: Facts) -> dict[tuple[str, str], list[SidedJoint]]:
    """Return the joints through each two layers that lie on each other, outer and inner."""
    drawn = {seam for form in facts.assembly.forms for seam in form.seams}
    found: dict[tuple[str, str], list[SidedJoint]] = {}
    for joint in facts.assembly.joints:
        seam = facts.assembly.seam_of(joint.id)
        loose = joint.joint.placed_on_wearer or joint.joint.motion is Motion.SLIDING
        if loose or joint.joint.kind is JointKind.LACE or (seam and seam.id in drawn):
            continue
        for (outer, out_hole), (inner, in_hole) in pairwise(joint.stack):
            if outer != inner and out_hole and in_hole:
                found.setdefault((outer, inner), []).append(joint)
    return found


def _slip_mm(
    facts: Facts, form: SidedForm, layers: tuple[str, str], joints: list[SidedJoint]
) -> float | None:
    """Return how far the outermost of the holes come apart at most, in mm."""
    outer = facts.assembly.part(layers[0]).part
    apart_mm = sum(facts.assembly.part(part).part.thickness_mm for part in layers) / 2
    centres = {hole.id: hole.centre for hole in outer.holes}
    holes = [centres[hole] for j in joints for part, hole in j.stack if part == layers[0] and hole]
    spread_mm = _spread_mm(holes, form.form.axis)
    turns = [] if form.form.angle_deg is None else [radians(abs(form.form.angle_deg))]
    if form.form.radius_mm:
        turns.append(spread_mm / form.form.radius_mm)
    return apart_mm * min(turns) if turns else None


def _spread_mm(holes: list[Point], axis: tuple[Point, Point] | None) -> float:
    """Return how far apart holes lie, in mm, across the line they are bent about if it is known."""
    if axis is None:
        return max(dist(one, other) for one in holes for other in holes)
    (x1, y1), (x2, y2) = axis
    across = atan2(y2 - y1, x2 - x1) + pi / 2
    places = [x * cos(across) + y * sin(across) for x, y in holes]
    return max(places) - min(places)
