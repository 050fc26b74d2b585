"""How firm the orders by reach are, in a maker's words."""

from collections.abc import Iterable

from armorplan.geometry.reach.firmness import Flip, Holds
from armorplan.geometry.told import begun, listed, quoted


def flips_told(found: Iterable[Flip]) -> tuple[str, ...]:
    """Say what flips come to, a whole sentence each; joints of which the same holds in one."""
    alike: dict[tuple[object, ...], list[Flip]] = {}
    for flip in found:
        key = (flip.when, bool(flip.own), flip.number, flip.changed, flip.now, flip.then)
        alike.setdefault(key, []).append(flip)
    return tuple(_told(some[0], [flip.joint for flip in some]) for some in alike.values())


def _told(flip: Flip, joints: list[str]) -> str:
    unit = f" {flip.number.unit}" if flip.number.unit else ""
    number = f"{flip.number.value:g} to {flip.changed:g}{unit}"
    each = "each " if len(joints) > 1 else ""
    return (
        f"{begun(listed(quoted(joints)))}, {each}before {flip.when}: {_how(flip, flip.now)}; with "
        f"{flip.number.name} changed from {number}, {_how(flip, flip.then)}."
    )


def _how(flip: Flip, holds: Holds) -> str:
    # What its own row makes dearer hangs on the order in which the row is set.
    not_bound = flip.own and holds is Holds.NOT
    return "nothing forbids the other order" if not_bound else _HOLDS[holds]


_HOLDS = {
    Holds.CANNOT: "it binds (cannot)",
    Holds.EASIER: "it is only easier so",
    Holds.NOT: "nothing asks for it",
}


def firm_words(found: tuple[Flip, ...], *, orders: int) -> str:
    """Say in a sentence or two how firm the orders by reach are, of which there are so many now."""
    moved = "each tool's reach, the gape of open rows and the squash of mouths up and down by 20 %"
    if not found and not orders:
        return (
            f"There are no orders by reach, and none comes up when moving {moved}, one at a time."
        )
    if not found:
        return (
            f"{orders} order{'s' * (orders != 1)} by reach, all firm: moving {moved}, one at a time, "
            "flips none."
        )
    flipped = {_order(flip) for flip in found}
    binding = {_order(flip) for flip in found if flip.binds}
    numbers = listed(list(dict.fromkeys(flip.number.name for flip in found)))
    one = len(flipped) == 1
    bind = f", {len(binding)} of them between binding and not," if binding else ","
    return (
        f"{len(flipped)} order{'' if one else 's'} by reach flip{'s' if one else ''} ({orders} "
        f"{'holds' if orders == 1 else 'hold'} now){bind} when moving {moved}, one at a time. What to "
        f"measure: {numbers}."
    )


def _order(flip: Flip) -> tuple[str, tuple[str, ...], tuple[str, ...]]:
    return flip.joint, flip.rows, flip.own
