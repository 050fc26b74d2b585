"""The lay-out before a dry fit: each part on the bench without pins, for hand and flow."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from armorplan.app.derived import Derived
from armorplan.app.fit_naming import FitNames, listed, names_in, started
from armorplan.assembly.model import Assembly, Side, SidedPart
from armorplan.steps.model import Step

_HANDS = {Side.LEFT: "left", Side.RIGHT: "right", Side.SINGLE: ""}


@dataclass(frozen=True, slots=True, kw_only=True)
class LayOutRow:
    """A part as it is laid down, the undermost first.

    Attributes:
        hand: 'left' or 'right'; empty where there is but one.
        up_deg: where up on the wearer lies in its drawing: 0 right, 90 up the page.
        over: sided ids of what it lies on; ``under``: of what lies on it.
        text: all of it in words.
    """

    part: str
    name: str
    hand: str
    grain_out: bool
    up_deg: float
    over: tuple[str, ...]
    under: tuple[str, ...]
    text: str


def lay_out(derived: Derived, fit: Step) -> tuple[LayOutRow, ...]:
    """Return the parts of a dry fit in the order in which they are laid on each other.

    Of pieces that hang together, each one whole by then, only the parts that meet.
    """
    assembly = derived.assembly
    met = {part for joint in fit.joints for part in assembly.joint(joint).parts}
    hung = any(harness.id == fit.piece for harness in derived.pattern.harnesses)
    parts = tuple(part for part in fit.parts if part in met or not hung)
    over: dict[str, set[str]] = {part: set() for part in parts}
    for outer, inner in _laps(assembly, fit):
        if outer in over and inner in over:
            over[outer].add(inner)
    order = _from_below(parts, over)
    names = names_in(assembly, fit)
    return tuple(_row(names, part, order, over) for part in order)


def _laps(assembly: Assembly, fit: Step) -> Iterator[tuple[str, str]]:
    """Yield which part lies right on which, by the stacks and by what the pattern says."""
    for joint in map(assembly.joint, fit.joints):
        for (outer, _), (inner, _) in pairwise(joint.stack):
            if outer != inner:
                yield outer, inner
    plain = {(assembly.part(p).part.id, assembly.part(p).side): p for p in fit.parts}
    for part in fit.parts:
        sided = assembly.part(part)
        for inner in sided.part.lies_over:
            below = plain.get((inner, sided.side)) or plain.get((inner, Side.SINGLE))
            if below:
                yield part, below


def _from_below(parts: tuple[str, ...], over: dict[str, set[str]]) -> tuple[str, ...]:
    """Return parts so that each comes after what it lies on; as listed where stacks go round."""
    order: list[str] = []
    left = list(parts)
    while left:
        free = next((p for p in left if not over[p] & {*left} - {p}), left[0])
        order.append(free)
        left.remove(free)
    return tuple(order)


def _row(
    names: FitNames, part: str, order: tuple[str, ...], over: dict[str, set[str]]
) -> LayOutRow:
    sided = names.assembly.part(part)
    below = tuple(p for p in order if p in over[part])
    above = tuple(p for p in order if part in over[p])
    return LayOutRow(
        part=part,
        name=names.part(part),
        hand=_HANDS[sided.side],
        grain_out=sided.part.grain_out,
        up_deg=sided.part.up_deg,
        over=below,
        under=above,
        text=_words(names, sided, below),
    )


def _words(names: FitNames, sided: SidedPart, below: tuple[str, ...]) -> str:
    hand = f"the {_HANDS[sided.side]} one, " if _HANDS[sided.side] else ""
    grain = f"{hand}{'grain up' if sided.part.grain_out else 'flesh up'}"
    on = f", on {listed([names.part(part) for part in below])}" if below else ""
    return f"{started(names.part(sided.id))}: {grain}{on}."


def flow_words(assembly: Assembly, fit: Step) -> str:
    """Say how lames flow: each over the next, from the outermost on; empty where none hang on others."""
    below: dict[str, list[str]] = {}
    for joint in map(assembly.joint, fit.joints):
        if joint.joint.motion.value == "fixed" or len(joint.parts) < 2:  # noqa: PLR2004 - two layers
            continue
        below.setdefault(joint.parts[0], [])
        if joint.parts[-1] not in below[joint.parts[0]]:
            below[joint.parts[0]].append(joint.parts[-1])
    under = {part for parts in below.values() for part in parts}
    chains = [chain for top in below if top not in under for chain in _chains(top, below)]
    names = names_in(assembly, fit)
    told = [" over ".join(names.part(p) for p in chain) for chain in chains]
    if not told:
        return ""
    return f"Flow: {'; '.join(told)}. No edge may catch when it closes."


def _chains(top: str, below: dict[str, list[str]]) -> Iterator[tuple[str, ...]]:
    if not below.get(top):
        yield (top,)
    for under in below.get(top, ()):
        for chain in _chains(under, below):
            yield (top, *chain)
