"""What has to be said of a dry fit in sentences: its rounds, its pins, what there are too few for."""

from collections import Counter
from collections.abc import Iterator

from armorplan.app.fit_looks import Fitting
from armorplan.app.fit_naming import listed
from armorplan.app.fit_seams import pin_size
from armorplan.app.fit_worn import placed_joints, wholes
from armorplan.orders.pinning.matching import Pinned
from armorplan.orders.pinning.model import PinProblem, PinStock, Rounds
from armorplan.pattern.joining import JointKind
from armorplan.pattern.parts import PartKind
from armorplan.workshop.pins import pins_for

_TWO = 2


def fit_words(fitting: Fitting, problem: PinProblem, found: Rounds) -> tuple[str, ...]:
    """Return sentences on a dry fit, what matters most first."""
    return (
        _rounds_words(found),
        *_worn_words(fitting, problem, found),
        *_sizes_words(fitting, problem),
        *_unpinned_words(fitting, problem, found),
        *_apart_words(fitting, problem, found),
        *_by_hand_words(fitting),
    )


def _rounds_words(found: Rounds) -> str:
    count = len(found.rounds)
    if not count:
        return "Nothing of it goes on pins."
    if count == 1:
        return "One round: all of it is on pins at once."
    if found.proved:
        return f"{count} rounds with the pins there are; fewer will not do."
    return (
        f"{count} rounds with the pins there are; whether {found.bound} would do is not known yet."
    )


def _worn_words(fitting: Fitting, problem: PinProblem, found: Rounds) -> Iterator[str]:
    """Say what is missing to wear it whole: first the least of it, then all that closes it."""
    names = {seam.id: seam.name for seam in fitting.seams}
    lacking = [g for g in found.apart if len(g) > _TWO]
    if not lacking:
        return
    least = lacking[-1]
    needs = sum(map(problem.need, least))
    if least == wholes(fitting.derived, fitting.fit, fitting.seams)[-1]:
        yield (
            f"To try it whole on the wearer takes {needs} pins at once; with fewer its last round "
            "shows only a part of it there. Borrow pins, or clip what is without."
        )
        return
    without = [names[s] for s in least if not any(s in on for on in _full(found, fitting))]
    yield (
        f"With {needs} pins at once it could be tried on closed; now clip on the wearer: "
        f"{listed(without)}."
    )


def _full(found: Rounds, fitting: Fitting) -> Iterator[tuple[str, ...]]:
    """Yield rounds that have on the least of what is worn."""
    least = wholes(fitting.derived, fitting.fit, fitting.seams)[-1]
    yield from (on for on in found.rounds if {*least} <= {*on})


def _sizes_words(fitting: Fitting, problem: PinProblem) -> Iterator[str]:
    """Say how many pins of which size all of it at once would take."""
    plenty = Pinned(PinStock(counts=dict.fromkeys(problem.stock.counts)))
    spots = problem.spots(seam.id for seam in problem.seams)
    for spot in spots:
        plenty.put(spot)
    names = {pin.id: pin.name for pin in fitting.derived.shelf.pins}
    counts = Counter(names[kind] for kind in plenty.kinds.values())
    told = ", ".join(f"{count} × {name}" for name, count in sorted(counts.items()))
    if told:
        yield f"All at once takes {len(plenty)} {_pins(len(plenty))}: {told}."


def _unpinned_words(fitting: Fitting, problem: PinProblem, found: Rounds) -> Iterator[str]:
    for seam in fitting.seams:
        if seam.id not in found.unpinned:
            continue
        joint = fitting.derived.assembly.joint(seam.joints[0])
        hole_mm, stack_mm = pin_size(fitting.derived, joint)
        sizes = pins_for(fitting.derived.shelf.pins, hole_mm=hole_mm, stack_mm=stack_mm)
        wants = f"holes of {hole_mm:g} mm through {stack_mm:.1f} mm"
        needs = problem.need(seam.id)
        what = (
            f"{needs} {_pins(needs)} such as {sizes[0].name} are wanted"
            if sizes
            else "no size of pin on the shelf enters and holds"
        )
        yield f"{_start(seam.name)} cannot be pinned ({wants}: {what}): hold it by hand or with clips."


def _apart_words(fitting: Fitting, problem: PinProblem, found: Rounds) -> Iterator[str]:
    names = {seam.id: seam.name for seam in fitting.seams}
    for group in found.apart:
        needs = sum(map(problem.need, group))
        if len(group) > _TWO:
            continue
        one, other = (names[seam] for seam in group)
        yield (
            f"{_start(one)} and {other} are next to each other, and there are not the {needs} pins "
            "to have both on: clip one of them while you look."
        )


def _by_hand_words(fitting: Fitting) -> Iterator[str]:
    """Say what is tried without a pin: glued and stitched layers, and straps to be marked."""
    assembly = fitting.derived.assembly
    joints = [assembly.joint(joint) for joint in fitting.fit.joints]
    layers = [j for j in joints if j.joint.kind in (JointKind.GLUE, JointKind.STITCH)]
    if layers:
        names = ", ".join(dict.fromkeys(fitting.name(joint.parts[-1]) for joint in layers))
        yield f"Lay in by hand, or with clips: {names}."
    placed = placed_joints(fitting.derived, fitting.fit)
    if placed:
        part = assembly.part
        straps = (p for j in placed for p in j.parts if part(p).part.kind is PartKind.STRAP)
        names = ", ".join(map(fitting.name, dict.fromkeys(straps)))
        yield f"Held by hand until its place is marked on the wearer: {names or 'what is placed there'}."


def _pins(count: int) -> str:
    return "pin" if count == 1 else "pins"


def _start(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"
