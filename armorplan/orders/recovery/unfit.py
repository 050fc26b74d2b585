"""Why a salvage of the shelf will not do for a mistake, with the numbers of this very leather."""

from collections.abc import Collection, Iterator
from math import inf

from armorplan.geometry.holes.edges import edge_distances_mm
from armorplan.orders.recovery.amiss import Amiss
from armorplan.orders.recovery.mistakes import EDGE, WHICH_WAY, MistakeKind
from armorplan.orders.recovery.moves import parts_words
from armorplan.orders.recovery.remaking import cut_of
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.pattern.parts import PartKind
from armorplan.steps.model import StepKind
from armorplan.steps.naming import part_name
from armorplan.workshop.salvages import Salvage

DONE = {
    StepKind.TOOL: "tooled",
    StepKind.FORM: "formed",
    StepKind.HARDEN: "hardened",
    StepKind.DYE: "dyed",
    StepKind.FINISH: "finished",
}
"""What is said of leather to which steps of a kind were done."""
_DARKER = {"": None, "darker": True, "lighter": False}


def unfit(scene: RecoveryScene, amiss: Amiss, salvage: Salvage, stands: Collection[str]) -> str:
    """Return why a salvage cannot set a mistake right as things stand; empty where it can.

    It is taken as known that the salvage mends mistakes of this kind.
    """
    whys = (
        _out_of_bounds(amiss, salvage),
        _out_by_diameters(scene, amiss, salvage),
        _too_wide(scene, amiss, salvage),
        _too_near_the_edge(scene, amiss, salvage),
        _out_of_time(scene, amiss, salvage, stands),
        _not_for(scene, amiss, salvage, stands),
    )
    return next(filter(None, whys), "")


def _out_of_bounds(amiss: Amiss, salvage: Salvage) -> str:
    mm, way = amiss.mm, amiss.mistake.way
    ways = WHICH_WAY.get(amiss.mistake.kind, {})
    if way and salvage.ways and way not in salvage.ways:
        good = " or ".join(ways[one] for one in salvage.ways if one in ways)
        wrong = "spoilt" if amiss.mistake.kind is MistakeKind.SPOILT else "out"
        return f"It is good only for what is {wrong} {good}, and this is {ways[way]}."
    if mm and salvage.most_mm is not None and mm > salvage.most_mm:
        return f"It is good up to {salvage.most_mm:g} mm, and here it is {mm:g} mm."
    if mm and mm < (salvage.least_mm or 0.0):
        return f"It is good from {salvage.least_mm:g} mm on, and here it is {mm:g} mm."
    return ""


def _out_by_diameters(scene: RecoveryScene, amiss: Amiss, salvage: Salvage) -> str:
    least, most = salvage.least_diameters or 0.0, most_diameters(scene, salvage)
    for hole_mm in _diameters_mm(scene, amiss):
        here = f"and {amiss.mm:g} mm are {amiss.mm / hole_mm:.1f} of this {hole_mm:g} mm hole"
        if amiss.mm / hole_mm > most:
            return f"It is good up to {most:g} hole diameters, {here}."
        if amiss.mm / hole_mm < least:
            return f"It is good from {least:g} hole diameters on, {here}."
    return ""


def most_diameters(scene: RecoveryScene, salvage: Salvage) -> float:
    """Return by how many diameters of its hole a thing may be out; ``inf`` for any."""
    most = inf if salvage.most_diameters is None else salvage.most_diameters
    return min(most, scene.facts.shelf.constants.oval.value) if salvage.means == "oval" else most


def _diameters_mm(scene: RecoveryScene, amiss: Amiss) -> Iterator[float]:
    pattern = scene.facts.assembly.pattern
    for _, hole in amiss.holes:
        if pattern.hole(hole).diameter_mm > 0:
            yield pattern.hole(hole).diameter_mm


def _too_wide(scene: RecoveryScene, amiss: Amiss, salvage: Salvage) -> str:
    """Say which slot the head over its right place does not cover."""
    pattern, shelf = scene.facts.assembly.pattern, scene.facts.shelf
    for part, hole in amiss.holes if salvage.heads_cover else ():
        joint = next((j for j in amiss.joints if (part, hole) in j.stack), None)
        fastener = shelf.fastener(joint.joint.fastener) if joint else None
        wide_mm = pattern.hole(hole).diameter_mm + 2 * amiss.mm
        if fastener is None:
            return "No head covers this hole."
        if fastener.head_mm < wide_mm:
            return f"The slot is {wide_mm:g} mm long, and its head of {fastener.head_mm:g} mm leaves it bare."
    return ""


def _too_near_the_edge(scene: RecoveryScene, amiss: Amiss, salvage: Salvage) -> str:
    """Say where less than a hole's diameter of leather is left (common practice, no source)."""
    pattern = scene.facts.assembly.pattern
    for hole, mm in edge_left_mm(scene, amiss) if salvage.means == "oval" else ():
        wide_mm = pattern.hole(hole).diameter_mm
        if mm < wide_mm:
            return f"It leaves {mm:.1f} mm of leather to the edge, and a hole's {wide_mm:g} mm are wanted."
    return ""


def edge_left_mm(scene: RecoveryScene, amiss: Amiss) -> Iterator[tuple[str, float]]:
    """Yield for each hole the leather in mm that is left between its slot and the nearest edge.

    A hole that is out away from the edge, or along it, takes nothing of it; where nobody said which
    way, the worst is taken.
    """
    nearer_mm = amiss.mm if amiss.mistake.way in ("", EDGE) else 0.0
    for part_id in amiss.parts:
        part = scene.facts.assembly.part(part_id).part
        for hole, edge_mm in zip(part.holes, edge_distances_mm(part), strict=True):
            if (part_id, hole.id) in amiss.holes:
                yield hole.id, edge_mm - nearer_mm - hole.diameter_mm / 2


def _out_of_time(
    scene: RecoveryScene, amiss: Amiss, salvage: Salvage, stands: Collection[str]
) -> str:
    """Say what must have been done to a part and is not, or must not be and is."""
    for part in amiss.parts:
        done = {s.kind.value for s in scene.facts.work.touching(part) if s.id in stands}
        name = part_name(scene.facts.assembly, part)
        said = f"{name[:1].upper()}{name[1:]}"
        if spoils := [one for one in salvage.not_after if one in done]:
            return f"{said} is {_words(spoils)} already: it is too late for that."
        if salvage.after and not done & set(salvage.after):
            return f"{said} is not {_words(salvage.after)} yet."
    return ""


def _words(kinds: Collection[str]) -> str:
    return parts_words(DONE.get(StepKind(one), one) for one in kinds)


def _not_for(scene: RecoveryScene, amiss: Amiss, salvage: Salvage, stands: Collection[str]) -> str:
    kinds = [scene.facts.assembly.part(part).part.kind for part in amiss.parts]
    others = [kind for kind in kinds if salvage.part_kinds and kind not in salvage.part_kinds]
    if others:
        return f"It is for a {' or '.join(salvage.part_kinds)}, and this is a {others[0]}."
    darker = _DARKER[salvage.colour]
    if darker is not None and amiss.mistake.darker not in (None, darker):
        return f"It is for a colour that is {salvage.colour} than the right one."
    if not salvage.load and _carries_weight(scene, amiss):
        return "A strap pulls at this hole: it has to carry weight."
    whys = (_pair_is_cut(scene, part, stands) for part in amiss.parts if salvage.pair_uncut)
    return next(filter(None, whys), "")


def _carries_weight(scene: RecoveryScene, amiss: Amiss) -> bool:
    parts = {part for joint in amiss.joints for part in joint.parts}
    return any(scene.facts.assembly.part(p).part.kind is PartKind.STRAP for p in parts)


def _pair_is_cut(scene: RecoveryScene, part: str, stands: Collection[str]) -> str:
    here = scene.facts.assembly.part(part)
    others = [
        each
        for each in scene.facts.assembly.parts
        if each.part.id == here.part.id and each.id != part
    ]
    if not others:
        return "It is made on one side only: there is no other side that could take it."
    for other in others:
        cut = cut_of(scene, other.id)
        if cut is None or cut.id in stands:
            name = part_name(scene.facts.assembly, other.id)
            return f"{name[:1].upper()}{name[1:]} is cut already: it needs no other."
    return ""
