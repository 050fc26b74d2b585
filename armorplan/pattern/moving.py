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
