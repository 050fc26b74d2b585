"""A section through a fastener with the names of the layers it passes."""

from dataclasses import replace

from armorplan.geometry.pictures import StackPicture

WASHER = "washer"
"""The kind of a layer that is no leather."""


def with_names(picture: StackPicture, names: tuple[str, ...]) -> StackPicture:
    """Return a section with these names of its own layers, the outermost first.

    Joints whose stacks are alike share one; where it has not as many layers of leather it stays as
    it is.
    """
    leather = [layer for layer in picture.layers if layer.kind != WASHER]
    if len(leather) != len(names):
        return picture
    own = iter(names)
    layers = (
        layer if layer.kind == WASHER else replace(layer, name=next(own))
        for layer in picture.layers
    )
    return replace(picture, layers=tuple(layers))
