"""How the armour moves: a bend of the limb that a chain of lames shares."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Movement:
    """A bend of the limb, shared by the pivots between parts that follow each other along it.

    Attributes:
        name: what bends, in words: 'the elbow bends'.
        parts: the plates and lames along the limb, from its upper to its lower end.
        angle_deg: how far the limb bends, all pivots together.
        shares_deg: how far each pair of neighbours turns; empty: all alike.
        only_with: choices it holds with (see ``pattern.options``).
    """

    id: str
    name: str
    parts: tuple[str, ...]
    angle_deg: float
    shares_deg: tuple[float, ...] = ()
    notes: str = ""
    only_with: tuple[str, ...] = ()

    @property
    def turns_deg(self) -> tuple[float, ...]:
        """How far each pair of neighbours turns: as written, or all alike."""
        pairs = len(self.parts) - 1
        return self.shares_deg or (self.angle_deg / pairs,) * pairs

    def shares_of(self, left: tuple[str, ...]) -> tuple[float, ...]:
        """Return the shares when only some of the parts are left, in their order.

        The pivots of a part that is left out are gone: its neighbours turn by both its shares, and
        at an end of the chain the next pair by its own and that one.
        """
        if not self.shares_deg:
            return ()
        cuts = [self.parts.index(part) for part in left[1:-1]]
        starts, ends = (0, *cuts), (*cuts, len(self.shares_deg))
        return tuple(sum(self.shares_deg[a:b]) for a, b in zip(starts, ends, strict=True))
