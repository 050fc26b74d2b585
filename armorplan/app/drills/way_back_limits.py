"""What decides whether a salvage will do: how far it is good, and what is known of the leather.

The bounds are those that ``orders.recovery.unfit`` looks at; here they are told before the answer.
"""

from collections.abc import Collection, Iterator
from math import inf

from armorplan.orders.recovery.amiss import Amiss
from armorplan.orders.recovery.mistakes import WHICH_WAY, MistakeKind
from armorplan.orders.recovery.moves import parts_words
from armorplan.orders.recovery.remaking import cut_of
from armorplan.orders.recovery.scene import RecoveryScene
from armorplan.orders.recovery.unfit import DONE, edge_left_mm, most_diameters
from armorplan.steps.model import StepKind
from armorplan.steps.naming import part_name
from armorplan.workshop.salvages import Salvage


def limits_words(scene: RecoveryScene, amiss: Amiss, salvage: Salvage) -> str:
    """Return how far a salvage is good for such a mistake; empty where that knows no bounds."""
    found = [*_out_words(scene, amiss, salvage), *_of_leather(salvage)]
    if salvage.means == "oval":
        found += _edge_words(scene, amiss)
    if salvage.heads_cover:
        found += _head_words(scene, amiss)
    return f"Good {'; '.join(found)}." if found else ""


def _out_words(scene: RecoveryScene, amiss: Amiss, salvage: Salvage) -> Iterator[str]:
    most, least = salvage.most_mm, salvage.least_mm
    if amiss.mm and most is not None:
        yield f"up to {most:g} mm"
    if amiss.mm and least:
        yield f"from {least:g} mm on"
    if amiss.holes and most_diameters(scene, salvage) < inf:
        yield f"up to {most_diameters(scene, salvage):g} hole diameters"
    if amiss.holes and salvage.least_diameters:
        yield f"from {salvage.least_diameters:g} hole diameters on"
    ways = WHICH_WAY.get(amiss.mistake.kind, {})
    good = [ways[one] for one in salvage.ways if one in ways]
    if good and amiss.mistake.way:
        wrong = "spoilt" if amiss.mistake.kind is MistakeKind.SPOILT else "out"
        yield f"only for what is {wrong} {' or '.join(good)}"


def _of_leather(salvage: Salvage) -> Iterator[str]:
    if salvage.colour:
        yield f"only where the colour is {salvage.colour} than it is to be"
    if salvage.part_kinds:
        yield f"only for a {' or '.join(salvage.part_kinds)}"
    if salvage.after:
        yield f"only once it is {_done_words(salvage.after)}"
    if salvage.not_after:
        yield f"only as long as it is not {_done_words(salvage.not_after)}"
    if salvage.pair_uncut:
        yield "only while the other side's is not cut"
    if not salvage.load:
        yield "only where no strap pulls"


def _done_words(kinds: Collection[str]) -> str:
    return " or ".join(DONE.get(StepKind(one), one) for one in kinds)


def _edge_words(scene: RecoveryScene, amiss: Amiss) -> Iterator[str]:
    left = min(edge_left_mm(scene, amiss), key=lambda one: one[1], default=None)
    if left is not None:
        wide_mm = scene.facts.assembly.pattern.hole(left[0]).diameter_mm
        yield f"with a hole's {wide_mm:g} mm of leather to the edge, and {left[1]:.1f} mm are left"


def _head_words(scene: RecoveryScene, amiss: Amiss) -> Iterator[str]:
    pattern, shelf = scene.facts.assembly.pattern, scene.facts.shelf
    for part, hole in amiss.holes[:1]:
        joint = next((j for j in amiss.joints if (part, hole) in j.stack), None)
        fastener = shelf.fastener(joint.joint.fastener) if joint else None
        head = f"a head of {fastener.head_mm:g} mm" if fastener else "a head"
        wide_mm = pattern.hole(hole).diameter_mm
        yield f"where {head} covers the slot, {wide_mm:g} mm and twice what it is out"


def known_words(
    scene: RecoveryScene, amiss: Amiss, stands: Collection[str], salvages: Collection[Salvage]
) -> Iterator[str]:
    """Yield what has to be known of the leather to tell which of some salvages will do."""
    darker = amiss.mistake.darker
    if darker is not None:
        yield f"The colour is {'darker' if darker else 'lighter'} than it is to be."
    wide = {scene.facts.assembly.pattern.hole(hole).diameter_mm for _, hole in amiss.holes} - {0.0}
    if any(one.most_diameters or one.least_diameters for one in salvages) and wide:
        yield f"The holes are {parts_words(f'{one:g}' for one in sorted(wide))} mm wide."
    for part in amiss.parts:
        if any(one.after or one.not_after for one in salvages):
            yield from _part_words(scene, part, stands)
        if any(one.pair_uncut for one in salvages):
            yield from _other_side(scene, part, stands)


def _part_words(scene: RecoveryScene, part: str, stands: Collection[str]) -> Iterator[str]:
    kinds = [step.kind for step in scene.facts.work.touching(part) if step.id in stands]
    done = [word for kind, word in DONE.items() if kind in kinds]
    name = part_name(scene.facts.assembly, part)
    said = parts_words(done) if done else f"neither {' nor '.join(DONE.values())}"
    yield f"{name[:1].upper()}{name[1:]} is {said}{'' if done else ' yet'}."


def _other_side(scene: RecoveryScene, part: str, stands: Collection[str]) -> Iterator[str]:
    here = scene.facts.assembly.part(part)
    others = [
        one.id
        for one in scene.facts.assembly.parts
        if one.part.id == here.part.id and one.id != part
    ]
    if not others:
        yield "It is made on one side only."
    for other in others:
        cut = cut_of(scene, other)
        name = part_name(scene.facts.assembly, other)
        is_cut = cut is None or cut.id in stands
        yield f"{name[:1].upper()}{name[1:]} is {'cut already' if is_cut else 'not cut yet'}."
