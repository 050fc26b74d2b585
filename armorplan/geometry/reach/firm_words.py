"""How firm the orders by reach are, in a maker's words."""

from collections.abc import Callable, Iterable, Sequence

from armorplan.geometry.reach.firmness import Flip, Holds
from armorplan.geometry.told import begun, listed

_Turn = tuple[str, Holds]
"""To what a number is changed, in words, and how the order holds then."""
_Name = Callable[[str], str]


def flips_told(found: Iterable[Flip], name: _Name | None = None) -> tuple[str, ...]:
    """Say what flips come to, a whole sentence each.

    What one joint has to come before is told once, with all numbers that turn it, the widest set of
    others for all; joints of which the same holds are told in one.

    Args:
        found: the flips.
        name: gives a joint's title for its id; otherwise it is named by its place in its row.
    """
    by_joint: dict[tuple[object, ...], list[Flip]] = {}
    for flip in found:
        by_joint.setdefault((flip.joint, flip.rows, bool(flip.own), flip.now), []).append(flip)
    alike: dict[tuple[object, ...], list[list[Flip]]] = {}
    for some in by_joint.values():
        key = (_widest(some).when, some[0].now, tuple(_turns(some)))
        alike.setdefault(key, []).append(some)
    return tuple(_told(held, name) for held in alike.values())


def _widest(flips: Sequence[Flip]) -> Flip:
    return max(flips, key=lambda flip: len(flip.own))


def _turns(flips: Iterable[Flip]) -> list[_Turn]:
    """Return what turns an order and how it holds then, the strongest for each number."""
    found: dict[str, Holds] = {}
    for flip in flips:
        unit = f" {flip.number.unit}" if flip.number.unit else ""
        number = f"{flip.number.value:g} to {flip.changed:g}{unit}"
        said = f"{flip.number.name} changed from {number}"
        found[said] = min(found.get(said, flip.then), flip.then, key=list(Holds).index)
    return list(found.items())


def _told(alike: Sequence[Sequence[Flip]], name: _Name | None) -> str:
    flips = alike[0]
    joints = [_named(some[0], name) for some in alike]
    each = "each " if len(joints) > 1 else ""
    turns = [f"with {said}, {_HOLDS[then]}" for said, then in _turns(flips)]
    return (
        f"{begun(listed(joints))}, {each}before {_widest(flips).when}: {_HOLDS[flips[0].now]}; "
        f"{'; '.join(turns)}."
    )


def _named(flip: Flip, name: _Name | None) -> str:
    if name is None and flip.title:
        return flip.title
    return f"'{name(flip.joint) if name else flip.joint}'"


_HOLDS = {
    Holds.CANNOT: "it binds (cannot)",
    Holds.EASIER: "it is only easier so",
    Holds.NOT: "nothing asks for it",
    Holds.BARRED: "no tool gets to it in either order",
    Holds.END: "both orders leave it at the end of reach",
    Holds.ALIKE: "both orders take the same",
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


def _order(flip: Flip) -> tuple[str, tuple[str, ...], bool]:
    return flip.joint, flip.rows, bool(flip.own)
