"""The seams of a dry fit: which joints are pinned together, where the pins go, who is next to whom."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import combinations, product
from math import dist

from armorplan.app.derived import Derived
from armorplan.app.fit_naming import FitNames, names_in
from armorplan.assembly.model import Assembly, SidedJoint
from armorplan.geometry.stacks import joint_stack
from armorplan.orders.pinning.model import Group, PinSpot, SeamNeed
from armorplan.pattern.joining import Motion
from armorplan.pattern.parts import PartKind, Point
from armorplan.steps.model import Step
from armorplan.workshop.fastening import pinched_mm
from armorplan.workshop.pins import PinEntry, pins_for

LEAST_PINS = 2
"""A seam that stays fixed turns on one pin; on two it lies as it will (common practice, no source)."""
WIDE_MM = 30.0
"""A pin to spare goes where the nearest is farther off than this: nearer, a row lies as it will. What
lies on one plate farther apart than this does not touch (common practice, no source)."""
PLATES = frozenset((PartKind.PLATE, PartKind.LAME, PartKind.COP))


@dataclass(frozen=True, slots=True, kw_only=True)
class FitSeam:
    """Joints that are tried as one: a row, or joints of a kind between the same parts.

    Attributes:
        id: of the row, else of its first joint.
        joints: sided ids, in the pattern's order.
        parts: sided ids of what all of them pass, the outermost first.
        turns: it holds a joint that turns or slides.
        is_frame: it holds plates, lames or cops to each other, if need be by a leather between them.
    """

    id: str
    name: str
    joints: tuple[str, ...]
    parts: tuple[str, ...]
    turns: bool
    is_frame: bool


def fit_seams(derived: Derived, fit: Step) -> tuple[FitSeam, ...]:
    """Return the seams that a dry fit has on pins, in the pattern's order."""
    names = names_in(derived.assembly, fit)
    groups: dict[tuple[object, ...], list[SidedJoint]] = {}
    for joint in map(derived.assembly.joint, fit.joints):
        if joint.takes_pin:
            groups.setdefault(_key(derived.assembly, joint), []).append(joint)
    seams = tuple(_seam(names, tuple(group)) for group in groups.values())
    links = linking_parts(derived.assembly, seams)
    return tuple(
        replace(seam, is_frame=seam.is_frame or bool(links & {*seam.parts})) for seam in seams
    )


def _key(assembly: Assembly, joint: SidedJoint) -> tuple[object, ...]:
    """Return what joints of one seam share: the row and the parts, else parts and kind.

    A joint of a row that takes in one part more is tried by itself: that part turns on it.
    """
    row = assembly.seam_of(joint.id)
    return (row.id if row else "", frozenset(joint.parts), "" if row else joint.joint.kind)


def _seam(names: FitNames, joints: tuple[SidedJoint, ...]) -> FitSeam:
    assembly = names.assembly
    row = assembly.seam_of(joints[0].id)
    is_row = row is not None and 2 * len(joints) > len(row.joints)
    parts = joints[0].parts
    plates = sum(assembly.part(part).part.kind in PLATES for part in parts)
    beside = row is not None and 2 * len(joints) < len(row.joints)
    return FitSeam(
        id=row.id if row and is_row else joints[0].id,
        name=names.row(row) if row and is_row else _name(names, joints),
        joints=tuple(joint.id for joint in joints),
        parts=parts,
        turns=any(joint.joint.motion is not Motion.FIXED for joint in joints),
        is_frame=plates >= LEAST_PINS and not beside,
    )


def _name(names: FitNames, joints: tuple[SidedJoint, ...]) -> str:
    """Say what some joints hold together, where no row has a name for it."""
    parts = joints[0].parts
    row = names.assembly.seam_of(joints[0].id)
    outer, inner = names.part(parts[0]), names.part(parts[-1])
    if row is not None:
        return f"{inner} in the {names.row(row)}"
    if len(parts) == 1:
        return f"fold of {outer}"
    if any(joint.joint.motion is not Motion.FIXED for joint in joints):
        return f"{'pivots' if len(joints) > 1 else 'pivot'} of {inner} in {outer}"
    is_inside = names.assembly.part(parts[0]).part.kind in PLATES
    return f"{inner} inside {outer}" if is_inside else f"{outer} on {inner}"


def linking_parts(assembly: Assembly, seams: tuple[FitSeam, ...]) -> frozenset[str]:
    """Return the leathers that alone hold plates to each other, such as a hinge."""
    plates = {p for s in seams for p in s.parts if assembly.part(p).part.kind in PLATES}
    held = {p: frozenset((p,)) for p in plates}
    for seam in (seam for seam in seams if seam.is_frame):
        whole = frozenset[str]().union(*(held[part] for part in seam.parts if part in held))
        held |= dict.fromkeys(whole, whole)
    by_leather: dict[str, set[frozenset[str]]] = {}
    for seam in seams:
        for leather in (part for part in seam.parts if part not in plates):
            met = (held[part] for part in seam.parts if part in plates)
            by_leather.setdefault(leather, set()).update(met)
    return frozenset(part for part, wholes in by_leather.items() if len(wholes) > 1)


# --- pins -------------------------------------------------------------------------------------


def seam_need(derived: Derived, seam: FitSeam, pins: Iterable[PinEntry]) -> SeamNeed:
    """Return where a seam wants pins: each joint that turns, and of the others the two farthest apart."""
    assembly, held = derived.assembly, tuple(pins)
    joints = {joint: assembly.joint(joint) for joint in seam.joints}
    turning = [j for j, each in joints.items() if each.joint.motion is not Motion.FIXED]
    places = {j: _place(assembly, each, seam.parts[-1]) for j, each in joints.items()}
    fixed = [joint for joint in joints if joint not in turning]
    needed = [*turning, *_farthest(fixed, places)]
    more = _spread(needed, [joint for joint in fixed if joint not in needed], places)
    return SeamNeed(
        id=seam.id,
        spots=tuple(_spot(derived, joints[j], held) for j in joints if j in needed),
        more=tuple(_spot(derived, joints[joint], held) for joint in more),
    )


def _spot(derived: Derived, joint: SidedJoint, pins: tuple[PinEntry, ...]) -> PinSpot:
    hole_mm, stack_mm = pin_size(derived, joint)
    fitting = pins_for(pins, hole_mm=hole_mm, stack_mm=stack_mm)
    return PinSpot(joint=joint.id, kinds=tuple(pin.id for pin in fitting))


def pin_size(derived: Derived, joint: SidedJoint) -> tuple[float, float]:
    """Return the narrowest hole of a joint and its stack, pinched, in mm."""
    pattern = derived.pattern
    stack = joint_stack(pattern, joint.joint)
    pinch_pct = derived.shelf.constants.pinch.value
    hole_mm = min(pattern.hole(hole).diameter_mm for _, hole in joint.stack)
    return hole_mm, pinched_mm(stack.most_mm, pinch_pct=pinch_pct, washer_mm=stack.washer_mm)


def _place(assembly: Assembly, joint: SidedJoint, part: str) -> Point:
    hole = next(hole for each, hole in joint.stack if each == part)
    return assembly.pattern.hole(hole).centre


def _farthest(joints: list[str], places: dict[str, Point]) -> tuple[str, ...]:
    if len(joints) <= LEAST_PINS:
        return tuple(joints)
    return max(combinations(joints, 2), key=lambda two: dist(places[two[0]], places[two[1]]))


def is_wide(assembly: Assembly, joint: str, pinned: Iterable[str]) -> bool:
    """Tell whether a pin to spare helps at a joint: none that holds the same parts is near."""
    own = assembly.joint(joint)
    place = _place(assembly, own, own.parts[-1])
    others = (assembly.joint(pin) for pin in pinned)
    return not any(
        dist(place, _place(assembly, other, own.parts[-1])) <= WIDE_MM
        for other in others
        if {*own.parts} <= {*other.parts}
    )


def _spread(have: list[str], rest: list[str], places: dict[str, Point]) -> Iterator[str]:
    """Yield further joints, the one farthest from all before it first."""
    pinned, left = list(have), list(rest)
    while left:
        away = {joint: min(dist(places[joint], places[pin]) for pin in pinned) for joint in left}
        best = max(left, key=away.__getitem__)
        yield best
        pinned.append(best)
        left.remove(best)


# --- neighbours -------------------------------------------------------------------------------


def neighbours(assembly: Assembly, seams: tuple[FitSeam, ...]) -> tuple[Group, ...]:
    """Return which two seams are seen together.

    They share a part, and both hold plates to each other; or nothing lies between them on it, and
    they bear on each other. Nothing lies between them where no hole of another seam stands in the
    circle over their two nearest holes (the neighbours of K. R. Gabriel and R. R. Sokal, 1969).
    """
    pulling = _pulling(assembly, seams)
    found = []
    for two in combinations(seams, 2):
        one, other = two
        for part in sorted({*one.parts} & {*other.parts}):
            is_frame = one.is_frame and other.is_frame
            if is_frame or (
                _bear(assembly, part, two, pulling) and _are_next(assembly, part, two, seams)
            ):
                found.append((one.id, other.id))
                break
    return tuple(found)


def _pulling(assembly: Assembly, seams: tuple[FitSeam, ...]) -> frozenset[str]:
    """Return the seams that pull at plates: they hold plates to each other, or a leather along several."""
    plates_of: dict[str, set[str]] = {}
    for seam in seams:
        plates = {part for part in seam.parts if assembly.part(part).part.kind in PLATES}
        for part in {*seam.parts} - plates:
            plates_of.setdefault(part, set()).update(plates)
    along = {part for part, plates in plates_of.items() if len(plates) > 1}
    return frozenset(seam.id for seam in seams if seam.is_frame or along & {*seam.parts})


def _bear(
    assembly: Assembly, part: str, two: tuple[FitSeam, FitSeam], pulling: frozenset[str]
) -> bool:
    """Tell whether two seams on a part bear on each other (common practice, no source).

    What lies on one plate alone, such as a boss, a rib or a tab, pulls at no other seam of it. It
    is seen with what is on the same strap or tab, with the row it is set in, and with what else
    lies on the plate hard by.
    """
    one, other = two
    is_plate = assembly.part(part).part.kind in PLATES
    if {one.id, other.id} <= pulling or not is_plate:
        return True
    rows = [assembly.seam_of(seam.joints[0]) for seam in two]
    if rows[0] is not None and rows[0] == rows[1]:
        return True
    holes = (_holes(assembly, seam, part) for seam in two)
    near_mm = min(dist(*ends) for ends in product(*holes))
    return not {one.id, other.id} & pulling and near_mm <= WIDE_MM


def _are_next(
    assembly: Assembly, part: str, two: tuple[FitSeam, FitSeam], seams: tuple[FitSeam, ...]
) -> bool:
    one, other = (_holes(assembly, seam, part) for seam in two)
    near = min(((p, q) for p in one for q in other), key=lambda ends: dist(*ends))
    middle = ((near[0][0] + near[1][0]) / 2, (near[0][1] + near[1][1]) / 2)
    round_mm = dist(*near) / 2
    between = (h for seam in seams if seam not in two for h in _holes(assembly, seam, part))
    return not any(dist(hole, middle) < round_mm for hole in between)


def _holes(assembly: Assembly, seam: FitSeam, part: str) -> list[Point]:
    if part not in seam.parts:
        return []
    return [_place(assembly, assembly.joint(joint), part) for joint in seam.joints]
