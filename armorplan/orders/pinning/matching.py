"""Which pin goes into which joint: an assignment within the pins there are, snug ones first."""

from collections.abc import Iterable, Mapping, Sequence

from armorplan.orders.pinning.model import PinSpot, PinStock


class Pinned:
    """Pins put into joints, one joint at a time; others move to pins of another kind to make room."""

    __slots__ = ("_held", "_kinds", "_stock")

    def __init__(self, stock: PinStock) -> None:
        self._stock = stock
        self._kinds: dict[str, tuple[str, ...]] = {}
        self._held: dict[str, list[str]] = {}

    def __len__(self) -> int:
        """Return how many pins are in use."""
        return len(self._kinds)

    def put(self, spot: PinSpot) -> bool:
        """Put a pin into a joint; false, and all stays as it was, where none can be had."""
        if self._stock.most is not None and len(self) >= self._stock.most:
            return False
        self._kinds[spot.joint] = spot.kinds
        if self._seat(spot.joint, set()):
            return True
        del self._kinds[spot.joint]
        return False

    def put_all(self, spots: Iterable[PinSpot]) -> bool:
        """Put pins into joints until one gets none; tell whether all have theirs."""
        return all(self.put(spot) for spot in spots)

    def _seat(self, joint: str, tried: set[str]) -> bool:
        """Give a joint a pin, along a way of joints that each take the next one's kind (Kuhn, 1955)."""
        for kind in self._kinds[joint]:
            if kind in tried:
                continue
            tried.add(kind)
            held = self._held.setdefault(kind, [])
            count = self._stock.counts.get(kind, 0)
            if count is None or len(held) < count:
                held.append(joint)
                return True
            for other in list(held):
                if self._seat(other, tried):
                    held[held.index(other)] = joint
                    return True
        return False

    @property
    def kinds(self) -> Mapping[str, str]:
        """The kind of pin that each joint has."""
        return {joint: kind for kind, held in self._held.items() for joint in held}


def has_pins(spots: Sequence[PinSpot], stock: PinStock) -> bool:
    """Tell whether there are pins for all of some joints at once."""
    if stock.most is not None and len(spots) > stock.most:
        return False
    scarce = [s for s in spots if not any(stock.counts.get(kind, 0) is None for kind in s.kinds)]
    return Pinned(stock).put_all(scarce)


def most_pins(spots: Iterable[PinSpot], stock: PinStock) -> int:
    """Return how many of some joints can be on pins at once."""
    pinned = Pinned(stock)
    for spot in spots:
        pinned.put(spot)
    return len(pinned)
