"""The layers of a bed in a file for the cutter, in the order they are worked."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class CutLayer:
    """A layer: its name in the file, what is in it, its colour as ``#rrggbb``."""

    name: str
    meant: str
    colour: str


INSIDE = CutLayer(name="1_inside", meant="holes and slots, cut first", colour="#1f5fa8")
OUTLINE = CutLayer(name="2_outline", meant="outer edges, cut last", colour="#000000")
GUIDE = CutLayer(
    name="3_guide",
    meant="not cut: names, which way is up, axes of bends and folds",
    colour="#7a7a7a",
)
LAYERS = (INSIDE, OUTLINE, GUIDE)
LETTER_MM = 4.0


def layers_words() -> str:
    """Return what the layers hold, in a sentence."""
    return "; ".join(f"{layer.name}: {layer.meant}" for layer in LAYERS) + "."
