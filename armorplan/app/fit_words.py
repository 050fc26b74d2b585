"""What has to be said of a dry fit in sentences: its rounds, its pins, what there are too few for."""

from collections import Counter
from collections.abc import Iterator, Sequence

from armorplan.app.fit_looks import Fitting
from armorplan.app.fit_naming import listed, started
from armorplan.app.fit_seams import PLATES, pin_size
from armorplan.app.fit_worn import placed_joints, wholes
from armorplan.assembly.model import SidedJoint
from armorplan.orders.pinning.matching import Pinned
from armorplan.orders.pinning.model import PinProblem, PinStock, Rounds
from armorplan.pattern.joining import JointKind
from armorplan.pattern.parts import PartKind
from armorplan.workshop.pins import pins_for

_TWO = 2
_MOST_NAMED = 4


def fit_words(
    fitting: Fitting, problem: PinProblem, found: Rounds, *, told: int
) -> tuple[str, ...]:
    """Return sentences on a dry fit, what matters most first.

    Args:
        fitting: the fit.
        problem: its seams and the pins there are.
        found: the rounds that see it all.
        told: how many rounds are told: one more where none of these can be worn.
    """
    return (
        _rounds_words(found, has_worn_apart=told > max(1, len(found.rounds))),
        *_worn_words(fitting, problem, found),
        *_sizes_words(fitting, problem),
        *_unpinned_words(fitting, problem, found),
        *_apart_words(fitting, problem, found),
        *_by_hand_words(fitting),
    )


def _rounds_words(found: Rounds, *, has_worn_apart: bool) -> str:
    count = len(found.rounds)
    if not count:
        return "Nothing of it goes on pins."
    if count == 1 and not has_worn_apart:
        return f"One round: all {'that has pins' if found.unpinned else 'of it'} is on at once."
    rounds = "1 round" if count == 1 else f"{count} rounds"
    where = " on the bench" if has_worn_apart else ""
    then = " Then one on the wearer, with clips." if has_worn_apart else ""
    known = (
        "fewer will not do" if found.proved else f"whether {found.bound} would do is not known yet"
    )
    return f"{rounds}{where} with the pins there are; {known}.{then}"


def _worn_words(fitting: Fitting, problem: PinProblem, found: Rounds) -> Iterator[str]:
    """Say what is missing to wear it whole: the least of it, or what closes it."""
    lacking = [
        group
        for group in wholes(fitting.derived, fitting.fit, fitting.seams)
        if group in found.apart
    ]
    if not lacking:
        return
    counts = [sum(map(problem.need, group)) for group in reversed(lacking)]
    closed = len(lacking) < len(wholes(fitting.derived, fitting.fit, fitting.seams))
    also = f" ({counts[-1]} to close it as well)" if len(counts) > 1 else ""
    yield (
        f"To wear it{' closed' if closed else ''} takes {counts[0]} pins at once{also}, more than "
        "there are: on the wearer clips or ties hold the rest, and give way first where it pulls. "
        "Borrow pins if you can."
    )


def wanted_pins(problem: PinProblem) -> Counter[str]:
    """Return how many pins of which size all of it at once takes best, whatever there are."""
    plenty = Pinned(PinStock(counts=dict.fromkeys(problem.stock.counts)))
    for spot in problem.spots(seam.id for seam in problem.seams):
        plenty.put(spot)
    return Counter(plenty.kinds.values())


def _sizes_words(fitting: Fitting, problem: PinProblem) -> Iterator[str]:
    """Say how many pins of which size all of it at once would take."""
    names = {pin.id: pin.name for pin in fitting.derived.shelf.pins}
    wanted = wanted_pins(problem)
    told = ", ".join(
        f"{wanted[kind]}\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}{names[kind]}"
        for kind in sorted(wanted, key=names.__getitem__)
    )
    count = wanted.total()
    if told:
        yield f"All at once takes {count} {_pins(count)}: {told}."


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
        yield f"{started(seam.name)} cannot be pinned ({wants}: {what}): hold it by hand or with clips."


def _apart_words(fitting: Fitting, problem: PinProblem, found: Rounds) -> Iterator[str]:
    names = {seam.id: seam.name for seam in fitting.seams}
    for group in found.apart:
        needs = sum(map(problem.need, group))
        if len(group) > _TWO:
            continue
        one, other = (names[seam] for seam in group)
        yield (
            f"{started(one)} and {other} are next to each other, and there are not the {needs} pins "
            "to have both on: clip one of them while you look."
        )


def _by_hand_words(fitting: Fitting) -> Iterator[str]:
    """Say what is tried without a pin: glued and stitched layers, and straps to be marked."""
    assembly = fitting.derived.assembly
    joints = [assembly.joint(joint) for joint in fitting.fit.joints]
    layers = [j for j in joints if j.joint.kind in (JointKind.GLUE, JointKind.STITCH)]
    if layers:
        loose = (part for joint in layers for part in _laid_in(fitting, joint))
        names = ", ".join(map(fitting.name, dict.fromkeys(loose)))
        yield f"Lay in by hand, or with clips: {names}."
    placed = placed_joints(fitting.derived, fitting.fit)
    if placed:
        part = assembly.part
        straps = (p for j in placed for p in j.parts if part(p).part.kind is PartKind.STRAP)
        names = ", ".join(map(fitting.name, dict.fromkeys(straps)))
        yield f"Held by hand until its place is marked on the wearer: {names or 'what is placed there'}."


def _laid_in(fitting: Fitting, joint: SidedJoint) -> tuple[str, ...]:
    """Return what of glued or stitched layers is laid to the rest: what is no plate."""
    part = fitting.derived.assembly.part
    soft = tuple(p for p in joint.parts if part(p).part.kind not in PLATES)
    return soft or joint.parts[-1:]


def stuck_words(names: Sequence[str]) -> Iterator[str]:
    """Say which pins no hand gets to from inside."""
    if names:
        few = len(names) <= _MOST_NAMED
        told = listed(names) if few else f"{len(names)} pins, marked in their rounds"
        yield (
            f"Neither hand nor pliers get in behind, with the others in: {told}. Put a split pin or a blind one in "
            "from outside there, or hold it with a clip."
        )


def _pins(count: int) -> str:
    return "pin" if count == 1 else "pins"
